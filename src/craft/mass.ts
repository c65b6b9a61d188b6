import { laidShare } from '../print/material-time.ts';
import type { Project } from '../project/schema.ts';
import { gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import { fanLayout } from '../shape/layout.ts';
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
 * The all-up mass, item by item. Printed parts weigh what is laid down: with infill below 1 each piece is taken as an even
 * wall of its usual thickness (see `laidShare`), top and bottom skins left out. At 0 % infill that is a few per cent of the
 * piece from its layers where walls are thin, more in thick hubs; at 100 % nothing.
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
  const { blades, hub, duct, tailCone, plate } = laidShares(project);
  const rows = [
    row('payload', 'payload', 1, project.brief.payload_g),
    ...project.craft.fixedMasses.map((item) => row('fixed', item.name, 1, item.mass_g)),
    row('drive', 'motor', n, project.motor.mass_g),
    row('drive', 'controller', n, project.controller.mass_g),
    row('battery', 'battery', 1, project.battery.mass_g),
    row('printed', 'rotor', n, printed(blades * volumes.blades + hub * (volumes.rotor - volumes.blades))),
  ];
  if (project.fan.kind === 'ducted')
    rows.push(row('printed', 'duct', n, printed(duct * volumes.duct + tailCone * volumes.tailCone)));
  const frame = frameVolumesOf(project);
  if (frame.whole > 0) rows.push(row('printed', 'frame', 1, printed(plate * frame.whole)));
  return rows;
}

/** Of each kind of piece, the share of its volume that is laid down. */
function laidShares({ fan, motor, craft, printer }: Project) {
  const share = (thickness_mm: number) => laidShare(thickness_mm, printer);
  if (printer.infill_ratio === 1 || printer.process === 'resin')
    return { blades: 1, hub: 1, duct: 1, tailCone: 1, plate: 1 };
  const layout = fanLayout(fan, motor);
  const thickness = fan.blade.reduce((sum, s) => sum + s.chord_mm * s.thickness_ratio, 0) / fan.blade.length;
  const rim =
    layout.hubRadius -
    (layout.hubRimRadius > layout.hubBossRadius ? layout.hubRimRadius : layout.shaftRadius);
  return {
    blades: share(thickness),
    hub: share(millimetresFromMetres(rim)),
    duct: share(fan.duct.wall_mm),
    // A cone of radius r is as thick as a plate of r where lines run around it.
    tailCone: share(millimetresFromMetres(layout.seatRadius)),
    plate: share(craft.frame.plate_mm),
  };
}

/** Sum of the rows [g]. */
export const totalMass_g = (items: readonly MassItem[]): number =>
  items.reduce((sum, item) => sum + item.total_g, 0);
