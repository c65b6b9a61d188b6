import { controlOf } from '../craft/control.ts';
import type { Axis } from '../craft/control.ts';
import { climbOf } from '../craft/climb.ts';
import { fullThrustAt } from '../craft/flight.ts';
import { placementOf } from '../craft/placement.ts';
import { hoverControl } from '../craft/wind.ts';
import { PLAIN_PLACEMENT, type Craft, type Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { flownProject, tryProject } from './tried.ts';

/** One way to stand the same fans. */
export interface Stand {
  readonly fanCount: number;
  readonly layout: Craft['layout'];
  readonly battery: 'middle' | 'between';
  /** Left out: as the project has them. */
  readonly ductSpacing_mm?: number;
  readonly tilt_deg?: number;
}

/** What a stand comes to. */
export interface StandResult extends Required<Stand> {
  readonly mass_g: number;
  /** Arms, an estimate; see `frameMass`. */
  readonly frame_g: number;
  /** What these arms weigh more than those of the present stand; negative: less. */
  readonly armsChange_g: number;
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

/** A gap that no longer feeds neighbours on the same air, and a lean that parts the jets. Common practice, no source. */
const WIDE_GAP_RATIO = 0.25;
const LEAN_DEG = 5;

/** The present stand with its ducts farther apart (or close, where they are apart) and leaning (or upright). */
export function variantStands({ craft, fan }: Project): Stand[] {
  const { fanCount, layout, ductSpacing_mm, tilt_deg } = craft;
  if (fanCount < 2) return [];
  const wide = Math.round(WIDE_GAP_RATIO * fan.tipDiameter_mm);
  const present = { fanCount, layout, battery: 'middle' } as const;
  return [
    { ...present, ductSpacing_mm: ductSpacing_mm < 0.7 * wide ? wide : PLAIN_PLACEMENT.ductSpacing_mm },
    { ...present, tilt_deg: Math.abs(tilt_deg) < LEAN_DEG / 2 ? LEAN_DEG : 0 },
  ];
}

/** Items of the maker's own list that stand for what holds the fans. */
const HOLDS_FANS = /\b(frames?|arms?)\b/i;

/**
 * The craft of a project put into another stand: number, layout, gap and lean of the fans, and the change of the arms' mass
 * in the item that names the frame or arms (never below nothing), or in an item of its own where none does and arms are added.
 */
export function craftInStand({ craft }: Project, stand: StandResult): Craft {
  const { fanCount, layout, ductSpacing_mm, tilt_deg } = stand;
  const change = Number(stand.armsChange_g.toFixed(1));
  const at = craft.fixedMasses.findIndex(({ name }) => HOLDS_FANS.test(name));
  const fixedMasses =
    change === 0
      ? craft.fixedMasses
      : at >= 0
        ? craft.fixedMasses.map((item, i) =>
            i === at ? { ...item, mass_g: Number(Math.max(0, item.mass_g + change).toFixed(1)) } : item,
          )
        : change > 0
          ? [...craft.fixedMasses, { name: 'arms, more than before (estimate)', mass_g: change }]
          : craft.fixedMasses;
  return { ...craft, fanCount, layout, ductSpacing_mm, tilt_deg, fixedMasses };
}

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
    const { ductSpacing_mm = project.craft.ductSpacing_mm, tilt_deg = project.craft.tilt_deg } = stand;
    const changed: Project = {
      ...project,
      craft: { ...project.craft, fanCount, layout, ductSpacing_mm, tilt_deg },
    };
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
      fanCount,
      layout,
      battery,
      ductSpacing_mm,
      tilt_deg,
      mass_g: mass * 1000,
      frame_g: frame * 1000,
      armsChange_g: extra * 1000,
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
    return { ...result, words: wordsOf(result, project.craft) };
  });
}

function wordsOf(r: Omit<StandResult, 'words'>, { ductSpacing_mm, tilt_deg }: Craft): string {
  const apart = r.ductSpacing_mm === ductSpacing_mm ? '' : `, rims ${n(r.ductSpacing_mm)} mm apart`;
  const lean =
    r.tilt_deg === tilt_deg ? '' : `, ${r.tilt_deg === 0 ? 'upright' : `leaning ${n(r.tilt_deg, 2)}°`}`;
  const how = `${r.fanCount} fans in ${r.layout === 'two rows' ? 'two rows' : `a ${r.layout}`}${r.battery === 'between' ? ', battery between them' : ''}${apart}${lean}`;
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
