import { controlOf } from '../craft/control.ts';
import type { Axis } from '../craft/control.ts';
import { climbOf } from '../craft/climb.ts';
import { fullThrustAt } from '../craft/flight.ts';
import { placementOf } from '../craft/placement.ts';
import { hoverControl } from '../craft/wind.ts';
import type { Craft, Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { flownProject, tryProject } from './tried.ts';

/** One way to stand the same fans. */
export interface Stand {
  readonly fanCount: number;
  readonly layout: Craft['layout'];
  readonly battery: 'middle' | 'between';
}

/** What a stand comes to. */
export interface StandResult extends Stand {
  readonly mass_g: number;
  /** Arms, an estimate; see `frameMass`. */
  readonly frame_g: number;
  readonly circle_mm: number;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thrustToWeight: number;
  readonly hover_min: number;
  readonly climb_mps: number;
  readonly acceleration_radps2: Readonly<Record<Axis, number>>;
  /** Axes that the fans' speeds alone can't steer. */
  readonly without: readonly Axis[];
  /** Whether all ducts in one piece lie on the printer's bed; else they are printed one by one. */
  readonly onePieceFits: boolean;
  readonly words: string;
}

/** Safety on the material's strength, wall and least side of a printed square tube [m]. Common practice, no source. */
const SAFETY = 4;
const ARM_WALL = 0.0012;
const LEAST_SIDE = 0.006;

/**
 * Mass of the arms [kg], an estimate: each fan on its own printed square tube of wall t = 1.2 mm from the middle, a beam
 * clamped there and loaded at its end by the fan's full thrust: M = T L, section modulus 4/3 b^2 t, so
 *   b = sqrt(3 M / (4 t s / 4)), at least 6 mm;   m = 4 b t L rho.
 * Ducts that touch and are printed as one need less. Source: thin-walled beam theory; e.g. Gere, Mechanics of Materials.
 */
export function frameMass(arms: readonly number[], thrust: number, material: Project['material']): number {
  const allowed = (material.strengthAcrossLayers_MPa * 1e6) / SAFETY;
  return arms.reduce((sum, length) => {
    const side = Math.max(LEAST_SIDE, Math.sqrt((3 * thrust * length) / (4 * ARM_WALL * allowed)));
    return sum + 4 * side * ARM_WALL * length * material.density_kgpm3;
  }, 0);
}

/** Stands worth a look: three, four, six and eight fans in a ring and in two rows, and four in a row. */
export const USUAL_STANDS: readonly Stand[] = [
  ...[3, 4, 6, 8].map((fanCount): Stand => ({ fanCount, layout: 'ring', battery: 'middle' })),
  ...[4, 6, 8].map((fanCount): Stand => ({ fanCount, layout: 'two rows', battery: 'middle' })),
  { fanCount: 4, layout: 'row', battery: 'middle' },
  { fanCount: 4, layout: 'ring', battery: 'between' },
  { fanCount: 6, layout: 'ring', battery: 'between' },
];

/**
 * The project's own fan, motor, battery and payload in several stands, side by side. The frame the project lists stands for
 * its present layout, so each stand is charged the difference of the estimated arms. About 5 ms a stand.
 */
export function compareStands(project: Project, stands: readonly Stand[] = USUAL_STANDS): StandResult[] {
  const volumes = printedVolumes(project.fan, project.motor, project.printer.holeShrink_mm);
  const thrust = fullThrustAt(flownProject(project), 0);
  const armsOf = (p: Project) => {
    const mass = frameMass(
      placementOf(p, volumes).fans.map(({ x, y }) => Math.hypot(x, y)),
      thrust,
      p.material,
    );
    return mass;
  };
  const present = armsOf(project);
  return stands.map((stand): StandResult => {
    const { fanCount, layout, battery } = stand;
    const changed: Project = { ...project, craft: { ...project.craft, fanCount, layout } };
    const frame = armsOf(changed);
    const extra = frame - present;
    const { answers, mass } = tryProject(changed, extra);
    const flown = flownProject(changed, { battery, frame: extra });
    const { placement } = flown;
    const control = hoverControl(flown);
    const steers = control ?? controlOf(placement, { least: 0, most: 0, torqueOverThrust: 0.01 }, 0);
    const [length_mm, width_mm] = [placement.length, placement.width].map(millimetresFromMetres);
    const { bedX_mm: bedX, bedY_mm: bedY } = project.printer;
    const result = {
      ...stand,
      mass_g: mass * 1000,
      frame_g: frame * 1000,
      circle_mm: millimetresFromMetres(placement.circle),
      length_mm,
      width_mm,
      thrustToWeight: answers.thrustToWeight,
      hover_min: answers.hoverMinutes,
      climb_mps: climbOf(flown).rate,
      acceleration_radps2: steers.acceleration,
      without: steers.without,
      onePieceFits: (length_mm <= bedX && width_mm <= bedY) || (length_mm <= bedY && width_mm <= bedX),
    };
    return { ...result, words: wordsOf(result) };
  });
}

function wordsOf(r: Omit<StandResult, 'words'>): string {
  const how = `${r.fanCount} fans in ${r.layout === 'two rows' ? 'two rows' : `a ${r.layout}`}${r.battery === 'between' ? ', battery between them' : ''}`;
  const lifts =
    r.hover_min > 0
      ? `${n(r.mass_g)} g, ${n(r.thrustToWeight)} times its weight, ${formatMinutes(r.hover_min)}`
      : `${n(r.mass_g)} g, does not lift (${n(r.thrustToWeight, 2)} times its weight)`;
  const steers =
    r.without.length > 0
      ? `; can't be steered in ${r.without.join(' and ')} by speeds alone`
      : `; tips at ${n(Math.min(r.acceleration_radps2.roll, r.acceleration_radps2.pitch), 2)} rad/s²`;
  const bed = r.onePieceFits ? 'fits the bed in one piece' : 'too large for the bed in one piece';
  return `${how}: ${lifts}${steers}; ${n(r.length_mm)} by ${n(r.width_mm)} mm, ${bed}.`;
}
