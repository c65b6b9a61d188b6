import { fanLayout } from '../shape/layout.ts';
import { geometryFaults } from '../shape/faults.ts';
import type { Fan, Motor, Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { driveAt } from '../drive/supply.ts';
import { levelDifference } from '../sound/difference.ts';
import type { SoundAt } from '../sound/types.ts';
import { levelWords } from '../sound/words.ts';
import { mapOf, quotedSupply } from '../assess/model.ts';
import { mapTorque } from '../air/map.ts';
import { soundAtThrust } from './sound-compare.ts';
import { scaledFan, tryProject, turned, type Tried } from './tried.ts';

/** One way to fill an outer width, its blade at its best angle. */
export interface WidthChoice {
  readonly kind: 'ducted' | 'open';
  readonly tipDiameter_mm: number;
  /** Turn of the whole blade against the drawing [deg] */
  readonly angle_deg: number;
  readonly mass_g: number;
  readonly thrustToWeight: number;
  readonly hover_min: number;
  /** From the pack with all fans and the electronics in hover; null where it does not hover. */
  readonly hoverPower_W: number | null;
  readonly discLoading_Npm2: number;
  /** A-weighted level in hover at 3 m over hard ground, all fans; null where it does not hover. */
  readonly level_dBA: Interval | null;
  /** The whole of that sound, for differences. */
  readonly sound: SoundAt | null;
}

/** Duct against open rotor at one outer width. */
export interface WidthPair {
  readonly outerWidth_mm: number;
  /** null where no duct of this width leaves room for a blade around the hub. */
  readonly ducted: WidthChoice | null;
  readonly open: WidthChoice | null;
  /** The open rotor within a printed ring guard that fills the width: an estimate, see `ringGuard`. */
  readonly guarded: (WidthChoice & { readonly guard_g: number }) | null;
}

/** A width at which both are equal, and the disc loading of the ducted craft there. */
export interface BreakEven {
  readonly outerWidth_mm: number;
  readonly discLoading_Npm2: number;
}

export interface DuctOrOpen {
  readonly pairs: readonly WidthPair[];
  /** Where hover power is equal, and where thrust over weight at full throttle is; none: one kind wins everywhere. */
  readonly breakEven: readonly BreakEven[];
  readonly thrustBreakEven: readonly BreakEven[];
  /** Where hover power is equal once the open rotor has a ring guard too. */
  readonly guardedBreakEven: readonly BreakEven[];
  /** The pair nearest to the present duct in width, to put side by side; null where none was asked for. */
  readonly here: WidthPair | null;
  readonly words: readonly string[];
}

/** Blade turns tried [deg], and how fine the best is found. */
const TURNS = [-8, -4, 0, 4, 8];
const FINEST = 1;

/** Farthest turn the search can reach [deg]: the outermost look and the steps of 2 and 1 past it. */
const FARTHEST = TURNS[TURNS.length - 1] + 2 + FINEST;

/** Thrust to weight from which minutes count; below it thrust alone does. Common practice, no source. */
const ENOUGH = 1.3;

/** Masses the open rotor gets besides [g per fan]: whatever the maker would put around or under it. */
export interface OpenExtras {
  /** Motor seat and arm end, which the duct part includes; left out: 2 g, our estimate for a printed cup with three screws. */
  readonly seat_g?: number;
  /** A guard around the rotor, if it must have one; left out: none. */
  readonly guard_g?: number;
}

const SEAT_G = 2;

/** Clear of the tips, and past the hub above and below [mm]. Common practice, no source. */
const GUARD_CLEAR_MM = 3;
const GUARD_PAST_MM = 2;

/**
 * A plain ring guard within `width_mm`: the tips it leaves room for [mm] and its mass for each fan [g]. An estimate: a hoop
 * of the duct's wall, as high as the hub and 2 mm above and below it, 3 mm clear of the tips, on as many struts as the duct
 * has vanes, each as thick as a vane and half as long. m = rho (pi D_mean t h + n (r_in - r_hub) t_v c / 2). It keeps fingers
 * off the tips from the side only, as a bare duct does.
 */
export function ringGuard(
  { fan, material }: Pick<Project, 'fan' | 'material'>,
  width_mm: number,
): { readonly tipDiameter_mm: number; readonly mass_g: number } {
  const { wall_mm } = fan.duct;
  const inner = width_mm - 2 * wall_mm;
  const hoop = Math.PI * (inner + wall_mm) * wall_mm * (fan.hubHeight_mm + 2 * GUARD_PAST_MM);
  const { vaneCount, thickness_mm, chord_mm } = fan.stator;
  const struts = vaneCount * Math.max(0, (inner - fan.hubDiameter_mm) / 2) * thickness_mm * (chord_mm / 2);
  return {
    tipDiameter_mm: inner - 2 * GUARD_CLEAR_MM,
    mass_g: ((hoop + struts) * material.density_kgpm3) / 1e6,
  };
}

/** The project's fan in a duct that is `width_mm` over its rim; null where the hub leaves no room. */
export function ductedOfWidth(fan: Fan, motor: Motor, width_mm: number): Fan | null {
  const rim = (tip: number) =>
    millimetresFromMetres(2 * fanLayout({ ...scaledFan(fan, tip), kind: 'ducted' }, motor).outerRadius);
  let low = fan.hubDiameter_mm + 4;
  let high = width_mm;
  if (low >= high || rim(low) > width_mm) return null;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (rim(middle) <= width_mm) low = middle;
    else high = middle;
  }
  const made: Fan = { ...scaledFan(fan, low), kind: 'ducted' };
  return geometryFaults(made, motor).length > 0 ? null : made;
}

const worth = ({ answers }: Tried): number =>
  answers.thrustToWeight < ENOUGH ? answers.thrustToWeight - ENOUGH : answers.hoverMinutes;

/** The blade turn with the most to show: a coarse look, then halving steps about the best. */
function atItsBest(project: Project, extra: number): { tried: Tried; angle: number } {
  const run = (angle: number) => ({
    tried: tryProject({ ...project, fan: turned(project.fan, angle) }, extra),
    angle,
  });
  let best = TURNS.map(run).reduce((a, b) => (worth(b.tried) > worth(a.tried) ? b : a));
  for (let step = 2; step >= FINEST; step /= 2) {
    const centre = best.angle;
    for (const next of [run(centre - step), run(centre + step)])
      if (worth(next.tried) > worth(best.tried)) best = next;
  }
  return best;
}

function choiceOf(project: Project, extra: number): WidthChoice {
  const { tried, angle } = atItsBest(project, extra);
  const { answers, model, mass, needed } = tried;
  const omega = answers.hoverSpeed;
  const torque = omega === null ? 0 : mapTorque(mapOf(model), omega);
  const drive = omega ? driveAt(quotedSupply(tried.project), torque, omega) : null;
  const hovers = drive !== null && answers.thrustToWeight >= 1;
  const sound = hovers ? soundAtThrust(model, needed, undefined, omega) : null;
  const { fanCount, auxiliaryPower_W } = project.craft;
  return {
    kind: project.fan.kind,
    tipDiameter_mm: project.fan.tipDiameter_mm,
    angle_deg: angle,
    mass_g: mass * 1000,
    thrustToWeight: answers.thrustToWeight,
    hover_min: answers.hoverMinutes,
    hoverPower_W: hovers ? drive.electricalPower * fanCount + auxiliaryPower_W : null,
    discLoading_Npm2: needed / model.discArea,
    level_dBA: sound?.overall_dBA ?? null,
    sound,
  };
}

/**
 * The same motor, battery, payload and outer width, once with a duct (its mass charged, the tip smaller by gap, lip and wall)
 * and once open (the tip at the width). The drawn blade is scaled in proportion and turned as a whole to its best angle for
 * each. `widths_mm` left out: nine from 0.6 to 1.8 of the present rim. About 0.1 s.
 */
export function ductOrOpen(
  project: Project,
  extras: OpenExtras = {},
  widths_mm: readonly number[] = usualWidths(project),
): DuctOrOpen {
  const { seat_g = SEAT_G, guard_g = 0 } = extras;
  const extra = (project.craft.fanCount * (seat_g + guard_g)) / 1000;
  const least = project.fan.hubDiameter_mm + 4;
  const pairs = widths_mm.map((outerWidth_mm): WidthPair => {
    const ducted = ductedOfWidth(project.fan, project.motor, outerWidth_mm);
    const open: Fan | null =
      outerWidth_mm > least ? { ...scaledFan(project.fan, outerWidth_mm), kind: 'open' } : null;
    const ring = ringGuard(project, outerWidth_mm);
    const within: Fan | null =
      ring.tipDiameter_mm > least ? { ...scaledFan(project.fan, ring.tipDiameter_mm), kind: 'open' } : null;
    const ringed = (project.craft.fanCount * (seat_g + ring.mass_g)) / 1000;
    return {
      outerWidth_mm,
      guarded: within && { ...choiceOf({ ...project, fan: within }, ringed), guard_g: ring.mass_g },
      ducted: ducted && choiceOf({ ...project, fan: ducted }, 0),
      open: open && choiceOf({ ...project, fan: open }, extra),
    };
  });
  const rim = presentRim(project);
  const off = (pair: WidthPair) => Math.abs(Math.log(pair.outerWidth_mm / rim));
  const found = {
    pairs,
    breakEven: crossings(pairs, advantage),
    thrustBreakEven: crossings(pairs, thrustAdvantage),
    guardedBreakEven: crossings(pairs, (p) => advantage({ ...p, open: p.guarded })),
    here: pairs.length > 0 ? pairs.reduce((a, b) => (off(b) < off(a) ? b : a)) : null,
  };
  return { ...found, words: wordsOf(found, guard_g, project.craft.fanCount) };
}

/** Outer width of the fan as drawn, were it in its duct [mm]. */
const presentRim = ({ fan, motor }: Project): number =>
  millimetresFromMetres(2 * fanLayout({ ...fan, kind: 'ducted' }, motor).outerRadius);

function usualWidths(project: Project): number[] {
  const rim = presentRim(project);
  return Array.from({ length: 9 }, (_, i) => Math.round(rim * (0.6 + 0.15 * i)));
}

/** Logarithm of the open craft's hover power over the ducted one's; null where one does not hover. */
function advantage({ ducted, open }: WidthPair): number | null {
  if (!ducted || !open) return null;
  if (ducted.hoverPower_W !== null && open.hoverPower_W !== null)
    return Math.log(open.hoverPower_W / ducted.hoverPower_W);
  return null;
}

/** The same of thrust over weight at full throttle. */
function thrustAdvantage({ ducted, open }: WidthPair): number | null {
  if (!ducted || !open || !(ducted.thrustToWeight > 0) || !(open.thrustToWeight > 0)) return null;
  return Math.log(ducted.thrustToWeight / open.thrustToWeight);
}

function crossings(pairs: readonly WidthPair[], ahead: (pair: WidthPair) => number | null): BreakEven[] {
  const found: BreakEven[] = [];
  for (let i = 1; i < pairs.length; i++) {
    const [a, b] = [ahead(pairs[i - 1]), ahead(pairs[i])];
    if (a === null || b === null || a * b > 0 || a === b) continue;
    const t = a / (a - b);
    const between = (x: number, y: number) => x + t * (y - x);
    found.push({
      outerWidth_mm: between(pairs[i - 1].outerWidth_mm, pairs[i].outerWidth_mm),
      discLoading_Npm2: between(pairs[i - 1].ducted!.discLoading_Npm2, pairs[i].ducted!.discLoading_Npm2),
    });
  }
  return found;
}

function wordsOf(
  { pairs, breakEven, thrustBreakEven, guardedBreakEven, here }: Omit<DuctOrOpen, 'words'>,
  guard_g: number,
  fans: number,
): string[] {
  const words: string[] = [];
  const compared = pairs.filter((p) => advantage(p) !== null);
  if (compared.length === 0) {
    words.push(
      'At none of these widths do both hover, so there is no power to compare; look at thrust over weight.',
    );
  } else if (breakEven.length === 0) {
    const wins = advantage(compared[0])! > 0 ? 'the duct' : 'the open rotor';
    words.push(
      `With the duct's mass charged, ${wins} hovers on less power at every width from ${n(compared[0].outerWidth_mm)} to ${n(compared[compared.length - 1].outerWidth_mm)} mm.`,
    );
  } else {
    for (const { outerWidth_mm, discLoading_Npm2 } of breakEven) {
      const below = compared.filter((p) => p.outerWidth_mm < outerWidth_mm);
      const ductBelow = advantage(below[below.length - 1])! > 0;
      words.push(
        `With the duct's mass charged, ${ductBelow ? 'the duct' : 'the open rotor'} hovers on less power below ${n(outerWidth_mm)} mm of outer width and ${ductBelow ? 'the open rotor' : 'the duct'} above it; there the ducted disc carries ${n(discLoading_Npm2)} N/m².`,
      );
    }
  }
  for (const { outerWidth_mm } of thrustBreakEven) {
    const below = pairs.filter((p) => p.outerWidth_mm < outerWidth_mm && thrustAdvantage(p) !== null);
    const ductBelow = thrustAdvantage(below[below.length - 1])! > 0;
    words.push(
      `At full throttle ${ductBelow ? 'the duct' : 'the open rotor'} gives more thrust over weight below ${n(outerWidth_mm)} mm and ${ductBelow ? 'the open rotor' : 'the duct'} above.`,
    );
  }
  const widest = compared[compared.length - 1];
  if (widest?.ducted && widest.open)
    words.push(
      `At ${n(widest.outerWidth_mm)} mm: ducted ${formatMinutes(widest.ducted.hover_min)} and ${n(widest.ducted.thrustToWeight)} times its weight, open ${formatMinutes(widest.open.hover_min)} and ${n(widest.open.thrustToWeight)}.`,
    );
  if (pairs.some((p) => [p.ducted, p.open].some((c) => c && Math.abs(c.angle_deg) >= FARTHEST)))
    words.push(
      `Some best angles lie at the end of what was tried, ${n(FARTHEST)} degrees from the drawing: draw the blade anew for those.`,
    );
  words.push(
    'Both blades are the drawn one in proportion, each turned to its best angle; another chord or count may suit one of them better.',
  );
  words.push(
    guard_g > 0
      ? `The open rotor carries a guard of ${n(guard_g, 2)} g here; a duct guards by itself.`
      : 'The open rotor flies bare here; a duct also guards hands and leaves.',
  );
  if (here) words.push(...hereWords(here, guardedBreakEven, fans));
  return words;
}

/** What protection and loudness come to at one width. */
function hereWords(
  { outerWidth_mm, ducted, open, guarded }: WidthPair,
  evens: readonly BreakEven[],
  fans: number,
): string[] {
  const words: string[] = [];
  if (guarded) {
    const even =
      evens.length > 0
        ? ` With it, both need the same hover power at ${evens.map((e) => n(e.outerWidth_mm)).join(' and ')} mm.`
        : '';
    const flies = guarded.hover_min > 0 ? ` ${formatMinutes(guarded.hover_min)},` : '';
    words.push(
      `An estimate of what that protection is worth at ${n(outerWidth_mm)} mm: a printed ring guard for the open rotor would weigh about ${n(guarded.guard_g, 2)} g a fan and leave a ${n(guarded.tipDiameter_mm)} mm rotor;${flies} ${n(guarded.thrustToWeight)} times its weight.${even}`,
    );
  }
  if (ducted?.sound && open?.sound) {
    const { value, low, high } = levelDifference(
      { at: ducted.sound, fans, ducted: true },
      { at: open.sound, fans, ducted: false },
    );
    const order =
      low > 0
        ? 'the open one is louder'
        : high < 0
          ? 'the ducted one is louder'
          : 'which is louder stays open';
    words.push(
      `In hover, each at its own weight, at 3 m over hard ground: ${levelWords(ducted.sound.overall_dBA)} ducted, ${levelWords(open.sound.overall_dBA)} open; open against ducted ${n(value, 2)} dB (${n(low, 2)} to ${n(high, 2)}), so ${order}.`,
    );
  }
  return words;
}
