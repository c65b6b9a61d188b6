import { laidShare } from '../print/material-time.ts';
import type { Design, Lie, Printer, Project } from '../project/schema.ts';
import { gramsFromKilograms, metresFromMillimetres, millimetresFromMetres } from '../quantities/units.ts';
import { fanLayout, type FanLayout } from '../shape/layout.ts';
import { printedVolumes, type PrintedVolumes } from '../shape/volumes.ts';
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
 * wall of its usual thickness (see `laidShare`), the web of a hub as closed by its skins. Against the layers of the demo's solids
 * at 0 % infill that is within 8 % for the rotor and 1 % for the duct from two walls up, 12 and 4 % with one; at 100 % nothing.
 * What a blade grows beyond its drawing (`xyError`) is not weighed: about a thousandth of the craft.
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

/** Share of the volume of one kind of part that is laid down, as the mass list counts it. */
export function laidShareOf(kind: Lie['part'], design: Design): number {
  const { blades, hub, duct, tailCone, plate } = laidShares(design);
  switch (kind) {
    case 'rotor': {
      const { fan, motor, printer } = design;
      if (blades === 1 && hub === 1) return 1;
      const volumes = printedVolumes(fan, motor, printer.holeShrink_mm);
      return (blades * volumes.blades + hub * (volumes.rotor - volumes.blades)) / volumes.rotor;
    }
    case 'blade':
      return blades;
    case 'hub':
    case 'hubCap':
    case 'spinner':
      return hub;
    case 'tailCone':
      return tailCone;
    case 'plate':
    case 'arm':
    case 'bridge':
      return plate;
    default:
      return duct;
  }
}

/** Of each kind of piece, the share of its volume that is laid down. */
function laidShares({ fan, motor, craft, printer }: Design) {
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
    hub: hubShare(layout, share(millimetresFromMetres(rim)), printer),
    duct: share(fan.duct.wall_mm),
    // A cone of radius r is as thick as a plate of r where lines run around it.
    tailCone: share(millimetresFromMetres(layout.seatRadius)),
    plate: share(craft.frame.plate_mm),
  };
}

/** A cup's web lies along the layers, closed by its skins; rim and boss stand. `upright`: share of these. */
function hubShare(layout: FanLayout, upright: number, printer: Printer): number {
  const { hubOpen, hubTopZ, hubBottomZ, hubWebZ, hubRadius, hubRimRadius, hubBossRadius, shaftRadius } =
    layout;
  const web = hubOpen === 'downstream' ? hubWebZ - hubTopZ : hubBottomZ - hubWebZ;
  if (hubOpen === 'solid' || !(web > 0)) return upright;
  const inner = hubOpen === 'downstream' ? hubBossRadius : shaftRadius;
  const flat = Math.max(0, hubRimRadius ** 2 - inner ** 2) * web;
  const standing =
    (hubRadius ** 2 - hubRimRadius ** 2 + Math.max(0, inner ** 2 - shaftRadius ** 2)) *
    (hubBottomZ - hubTopZ);
  const skin = Math.min(
    1,
    metresFromMillimetres(2 * Math.max(1, printer.skinLayers) * printer.layer_mm) / web,
  );
  const lying = skin + (1 - skin) * printer.infill_ratio;
  return (lying * flat + upright * standing) / (flat + standing);
}

/** Sum of the rows [g]. */
export const totalMass_g = (items: readonly MassItem[]): number =>
  items.reduce((sum, item) => sum + item.total_g, 0);
