import { placementOf } from '../craft/placement.ts';
import type { Project } from '../project/schema.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { gramsFromKilograms, millimetresFromMetres } from '../quantities/units.ts';
import { printedVolumes } from '../shape/volumes.ts';

/** Where the mass of a craft sits. x forward, y to the right; heights count downward from the plane of the rotors. */
export interface MassPlace {
  readonly mass_g: number;
  readonly centre_mm: { readonly x: number; readonly y: number; readonly belowRotors: number };
  /** Moments of inertia about axes through the centre of mass. */
  readonly inertia_kgmm2: { readonly roll: number; readonly pitch: number; readonly yaw: number };
  /** Over all fans: fore and aft, across, and the circle that holds them. */
  readonly length_mm: number;
  readonly width_mm: number;
  readonly circle_mm: number;
  /** Heaviest first. */
  readonly items: readonly {
    readonly name: string;
    readonly mass_g: number;
    readonly belowRotors_mm: number;
  }[];
  readonly words: readonly string[];
}

/** Centre of mass and inertia of a project from where its parts stand: an estimate, see `placementOf`. */
export function massPlace(project: Project): MassPlace {
  const volumes = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm);
  const { whole, solids, rotorZ, length, width, circle } = placementOf(project, volumes);
  const mm = millimetresFromMetres;
  const [x, y, z] = whole.centre;
  const groups = new Map<string, { mass: number; moment: number }>();
  for (const { name, mass, at } of solids) {
    const group = groups.get(name) ?? { mass: 0, moment: 0 };
    groups.set(name, { mass: group.mass + mass, moment: group.moment + mass * at[2] });
  }
  const items = [...groups]
    .filter(([, { mass }]) => mass > 0)
    .map(([name, { mass, moment }]) => ({
      name,
      mass_g: gramsFromKilograms(mass),
      belowRotors_mm: mm(moment / mass - rotorZ),
    }))
    .sort((a, b) => b.mass_g - a.mass_g);
  const place = {
    mass_g: gramsFromKilograms(whole.mass),
    centre_mm: { x: mm(x), y: mm(y), belowRotors: mm(z - rotorZ) },
    inertia_kgmm2: { roll: whole.roll * 1e6, pitch: whole.pitch * 1e6, yaw: whole.yaw * 1e6 },
    length_mm: mm(length),
    width_mm: mm(width),
    circle_mm: mm(circle),
    items,
  };
  return { ...place, words: wordsOf(place) };
}

function wordsOf({ mass_g, centre_mm: c, inertia_kgmm2: i, ...size }: Omit<MassPlace, 'words'>): string[] {
  const height = `${n(Math.abs(c.belowRotors), 2)} mm ${c.belowRotors < 0 ? 'above' : 'below'} the plane of the rotors`;
  const off = Math.hypot(c.x, c.y);
  return [
    `It weighs ${n(mass_g)} g; its centre of mass lies ${height}${off < 0.05 ? ', in the middle of the fans' : ` and ${n(off, 2)} mm off the middle of the fans`}.`,
    `Inertia: ${n(i.roll)} kg mm² in roll, ${n(i.pitch)} in pitch, ${n(i.yaw)} in yaw (an estimate: boxes of assumed density stand for battery, payload and electronics).`,
    `Over the fans it measures ${n(size.length_mm)} by ${n(size.width_mm)} mm, within a circle of ${n(size.circle_mm)} mm.`,
  ];
}
