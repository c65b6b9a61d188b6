import { fanLayout } from '../shape/layout.ts';
import { geometryFaults } from '../shape/faults.ts';
import type { Fan, Motor, Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n } from '../quantities/format.ts';
import { millimetresFromMetres } from '../quantities/units.ts';
import { driveAt } from '../drive/supply.ts';
import { mapOf, quotedSupply } from '../assess/model.ts';
import { mapTorque } from '../air/map.ts';
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
  /** In hover: a rough sign of loudness until the sound itself is reckoned. */
  readonly tipSpeed_mps: number | null;
}

/** Duct against open rotor at one outer width. */
export interface WidthPair {
  readonly outerWidth_mm: number;
  /** null where no duct of this width leaves room for a blade around the hub. */
  readonly ducted: WidthChoice | null;
  readonly open: WidthChoice | null;
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
    tipSpeed_mps: hovers && omega ? omega * model.rotor.tipRadius : null,
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
  const pairs = widths_mm.map((outerWidth_mm): WidthPair => {
    const ducted = ductedOfWidth(project.fan, project.motor, outerWidth_mm);
    const open: Fan | null =
      outerWidth_mm > project.fan.hubDiameter_mm + 4
        ? { ...scaledFan(project.fan, outerWidth_mm), kind: 'open' }
        : null;
    return {
      outerWidth_mm,
      ducted: ducted && choiceOf({ ...project, fan: ducted }, 0),
      open: open && choiceOf({ ...project, fan: open }, extra),
    };
  });
  const breakEven = crossings(pairs, advantage);
  const thrustBreakEven = crossings(pairs, thrustAdvantage);
  return { pairs, breakEven, thrustBreakEven, words: wordsOf(pairs, breakEven, thrustBreakEven, guard_g) };
}

function usualWidths({ fan, motor }: Project): number[] {
  const rim = millimetresFromMetres(2 * fanLayout({ ...fan, kind: 'ducted' }, motor).outerRadius);
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
  pairs: readonly WidthPair[],
  breakEven: readonly BreakEven[],
  thrustBreakEven: readonly BreakEven[],
  guard_g: number,
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
      : 'The open rotor flies bare here; a duct also guards hands and leaves, and a guard for the open one would weigh something too.',
  );
  return words;
}
