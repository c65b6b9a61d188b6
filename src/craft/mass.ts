import type { Project } from '../project/schema.ts';
import { gramsFromKilograms } from '../quantities/units.ts';
import type { PrintedVolumes } from '../shape/volumes.ts';
import { frameVolumesOf } from './frame.ts';

/** One row of the mass build-up. */
export interface MassItem {
  readonly name: string;
  readonly count: number;
  readonly each_g: number;
  readonly total_g: number;
  readonly kind: 'payload' | 'fixed' | 'drive' | 'battery' | 'printed';
}

/**
 * The all-up mass, item by item. Printed parts are taken as solid material (100 % infill): thin walls and blades print so.
 */
export function massItems(project: Project, volumes: PrintedVolumes): MassItem[] {
  const n = project.craft.fanCount;
  const printed = (volume: number) => gramsFromKilograms(volume * project.material.density_kgpm3);
  const row = (kind: MassItem['kind'], name: string, count: number, each_g: number): MassItem => ({
    kind,
    name,
    count,
    each_g,
    total_g: count * each_g,
  });
  const rows = [
    row('payload', 'payload', 1, project.brief.payload_g),
    ...project.craft.fixedMasses.map((item) => row('fixed', item.name, 1, item.mass_g)),
    row('drive', 'motor', n, project.motor.mass_g),
    row('drive', 'controller', n, project.controller.mass_g),
    row('battery', 'battery', 1, project.battery.mass_g),
    row('printed', 'rotor', n, printed(volumes.rotor)),
  ];
  if (project.fan.kind === 'ducted')
    rows.push(row('printed', 'duct', n, printed(volumes.duct + volumes.tailCone)));
  const frame = frameVolumesOf(project);
  if (frame.whole > 0) rows.push(row('printed', 'frame', 1, printed(frame.whole)));
  return rows;
}

/** Sum of the rows [g]. */
export const totalMass_g = (items: readonly MassItem[]): number =>
  items.reduce((sum, item) => sum + item.total_g, 0);
