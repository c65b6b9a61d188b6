import { formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Air } from './atmosphere.ts';
import type { FanAir } from './fan.ts';
import type { RotorAir } from './rotor.ts';
import { liftDrag, sectionStream, type SectionStream } from './section.ts';

/** A limit of blade loading that a running point passes, at its worst place. */
export interface LoadingLimit {
  readonly kind: 'diffusion' | 'slowing' | 'solidity' | 'stall' | 'tip Mach' | 'reversed flow';
  /** Where it is worst [m] and in share of the span, 0 hub to 1 tip; and how much of the span is past the limit. */
  readonly radius: number;
  readonly span: number;
  readonly spanPast: number;
  readonly value: number;
  readonly limit: number;
  readonly text: string;
}

/** Lieblein's largest diffusion factor of a healthy row. Source: Lieblein, Schwenk and Broderick, NACA RM E53D01, 1953. */
export const LARGEST_DIFFUSION = 0.6;

/** Least W2 / W1 of a row. Source: de Haller, Brennstoff-Waerme-Kraft 5 (1953) 333 (from memory). */
export const LEAST_SPEED_RATIO = 0.72;

/** Solidity from which neighbouring blades form a channel, so that the two row limits mean something. Common practice, no source. */
export const ROW_SOLIDITY = 0.4;

/** Solidity past which blades are no longer wings beside each other but a channel the section model does not know. Our choice. */
export const LARGEST_SOLIDITY = 1;

/** Share of the largest lift past which scatter and gusts reach the stall. Common practice, no source. */
export const STALL_SHARE = 0.95;

/** Tip Mach number to which the section model reaches. */
export const LARGEST_MACH = 0.6;

/** How far past zero lift the stall is looked for, and in what steps [rad]. */
const STALL_REACH = 0.5;
const STALL_STEP = 0.02;

/**
 * Angle of attack [rad] and lift coefficient of the first peak of lift above zero lift: steps of 0.02 rad, then the top of
 * the parabola through the three highest (within 0.1 % of the lift of steps ten times finer, test). A section without a
 * peak within 0.5 rad has its value there.
 */
export function stallOf(stream: SectionStream): { readonly alpha: number; readonly cl: number } {
  const from = stream.zeroLift + 0.05;
  const lift = (alpha: number) => liftDrag(stream, alpha).cl;
  let before = lift(from - STALL_STEP);
  let cl = lift(from);
  for (let a = from; a < from - 0.05 + STALL_REACH; a += STALL_STEP) {
    const next = lift(a + STALL_STEP);
    if (next < cl) {
      const bend = before - 2 * cl + next;
      const alpha = bend < 0 ? a + (STALL_STEP / 2) * Math.max(-1, (before - next) / bend) : a;
      return { alpha, cl: Math.max(cl, lift(alpha)) };
    }
    before = cl;
    cl = next;
  }
  return { alpha: from - 0.05 + STALL_REACH, cl };
}

/** The stall of the section in one ring of a running point, at that ring's Reynolds and Mach number. */
export function stallInRing(run: FanAir, rotor: RotorAir, air: Air, i: number): ReturnType<typeof stallOf> {
  return stallOf(
    sectionStream(
      rotor.sections[i],
      run.reynolds[i],
      run.annuli[i].relativeSpeed / air.soundSpeed,
      rotor.chord[i] / rotor.radius[i],
    ),
  );
}

interface Place {
  readonly radius: number;
  readonly span: number;
  readonly width: number;
  readonly value: number;
  readonly past: boolean;
}

/**
 * Which loading limits a running point of a rotor passes, worst place of each, in the order diffusion, slowing, solidity,
 * stall, tip Mach, reversed flow. With W_1 = hypot(V_x, U), W_2 = hypot(V_x, U - V_t), s = B c / (2 pi r):
 *
 *   DF = 1 - W_2 / W_1 + V_t / (2 s W_1)  <= 0.6        where s > 0.4: below, a blade works alone and can carry more
 *   W_2 / W_1 >= 0.72                                   where s > 0.4
 *   s <= 1;   c_l <= 0.95 c_l,max at its own Reynolds number;   tip Mach <= 0.6;   V_x > 0
 *
 * For a rotor at rest or in a stream along its axis, turned the right way. Empty: nothing is passed.
 */
export function loadingLimits(run: FanAir, rotor: RotorAir, air: Air): LoadingLimit[] {
  const height = rotor.tipRadius - rotor.hubRadius;
  const places = (look: (i: number) => readonly [value: number, past: boolean]): Place[] =>
    Array.from(rotor.radius, (radius, i) => {
      const [value, past] = look(i);
      return {
        radius,
        span: (radius - rotor.hubRadius) / height,
        width: rotor.width[i] / height,
        value,
        past,
      };
    });
  const solidity = (i: number) => (rotor.bladeCount * rotor.chord[i]) / (2 * Math.PI * rotor.radius[i]);
  const turns = run.annuli.map(bladeTurn);
  const found: (LoadingLimit | null)[] = [
    worst(
      'diffusion',
      LARGEST_DIFFUSION,
      places((i) => {
        const { before, after, swirl } = turns[i];
        const s = solidity(i);
        if (!(before > 0) || s <= ROW_SOLIDITY) return [0, false];
        const factor = 1 - after / before + swirl / (2 * s * before);
        return [factor, factor > LARGEST_DIFFUSION];
      }),
    ),
    worst(
      'slowing',
      LEAST_SPEED_RATIO,
      places((i) => {
        const { before, after } = turns[i];
        if (!(before > 0) || solidity(i) <= ROW_SOLIDITY) return [1, false];
        return [after / before, after / before < LEAST_SPEED_RATIO];
      }),
    ),
    worst(
      'solidity',
      LARGEST_SOLIDITY,
      places((i) => [solidity(i), solidity(i) > LARGEST_SOLIDITY]),
    ),
    worst(
      'stall',
      STALL_SHARE,
      places((i) => {
        const { cl, alpha } = run.annuli[i];
        const stall = stallInRing(run, rotor, air, i);
        // Past the peak lift falls again, so the angle has the last word there.
        const share = alpha > stall.alpha ? Math.max(1, cl / stall.cl) : cl / stall.cl;
        return [share, share > STALL_SHARE];
      }),
    ),
    tipMach(run, rotor, air),
    worst(
      'reversed flow',
      0,
      places((i) => {
        const { axialVelocity } = run.annuli[i];
        return [axialVelocity, axialVelocity < 0];
      }),
    ),
  ];
  return found.filter((limit) => limit !== null);
}

/**
 * Relative speeds before and behind the blade and the swirl it gives [m/s]; U = W cos phi + V_t / 2. Where tip and root of an
 * open rotor let go, `swirlVelocity` is that at the blade; the ring's mean, which the blade row turns, is less by the factor.
 */
function bladeTurn(state: FanAir['annuli'][number]) {
  const { axialVelocity, swirlVelocity, relativeSpeed, phi, tipFactor } = state;
  const bladeSpeed = relativeSpeed * Math.cos(phi) + swirlVelocity / 2;
  const swirl = swirlVelocity * tipFactor;
  return {
    before: Math.hypot(axialVelocity, bladeSpeed),
    after: Math.hypot(axialVelocity, bladeSpeed - swirl),
    swirl: Math.abs(swirl),
  };
}

function tipMach(run: FanAir, rotor: RotorAir, air: Air): LoadingLimit | null {
  const tip = run.annuli.length - 1;
  const { relativeSpeed } = run.annuli[tip];
  const mach = (relativeSpeed * (rotor.tipRadius / rotor.radius[tip])) / air.soundSpeed;
  if (!(mach > LARGEST_MACH)) return null;
  return {
    kind: 'tip Mach',
    radius: rotor.tipRadius,
    span: 1,
    spanPast: 0,
    value: mach,
    limit: LARGEST_MACH,
    text: `The tips meet the air at Mach ${n(mach, 2)}: past the model's range at ${LARGEST_MACH}, and loud.`,
  };
}

function worst(kind: LoadingLimit['kind'], limit: number, places: readonly Place[]): LoadingLimit | null {
  const past = places.filter((place) => place.past);
  if (past.length === 0) return null;
  const low = kind === 'slowing' || kind === 'reversed flow';
  const at = past.reduce((a, b) => ((low ? b.value < a.value : b.value > a.value) ? b : a));
  const spanPast = past.reduce((sum, place) => sum + place.width, 0);
  const where = `at ${n(at.radius * 1000, 3)} mm from the axis (${formatPercent(at.span)} of the span)`;
  const reach = `over ${formatPercent(Math.min(1, spanPast))} of the span`;
  const words: Record<Exclude<LoadingLimit['kind'], 'tip Mach'>, string> = {
    diffusion: `The blades slow the air along their backs too hard: diffusion factor ${n(at.value, 2)} ${where}, past ${limit} ${reach}. Wider or more blades, or less pressure there, would do.`,
    slowing: `The air leaves the blade row at ${n(at.value, 2)} times the speed it came with ${where}, below ${limit} ${reach}: it tends to break away. A larger hub or more speed would do.`,
    solidity: `The blades are ${n(at.value, 2)} times as wide as the room between them ${where}, past ${limit} ${reach}: the section model does not know such a channel.`,
    stall: `The blades work at ${formatPercent(at.value)} of their largest lift ${where}, past ${formatPercent(limit)} ${reach}: a smaller angle or wider blades there would do.`,
    'reversed flow': `The air flows back through the rotor at ${n(-at.value, 2)} m/s ${where}, ${reach}. More angle or chord there, or a larger hub, would do.`,
  };
  return {
    kind,
    radius: at.radius,
    span: at.span,
    spanPast: Math.min(1, spanPast),
    value: at.value,
    limit,
    text: words[kind as Exclude<LoadingLimit['kind'], 'tip Mach'>],
  };
}
