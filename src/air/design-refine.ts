import type { BladeStation, Fan } from '../project/schema.ts';
import { degreesFromRadians } from '../quantities/units.ts';
import type { Air } from './atmosphere.ts';
import { ANGLE_STEP_DEG, fitToStations, spansOf } from './design-blade.ts';
import { runFan, type FanAir } from './fan.ts';
import { stallInRing } from './limits.ts';
import type { Passage } from './passage.ts';
import { rotorOfFan, type RotorAir } from './rotor.ts';

/** A blade as it stands and what the fan's own calculation says of it. */
export interface Analysed {
  readonly fan: Fan;
  readonly rotor: RotorAir;
  readonly run: FanAir;
}

export interface Point {
  readonly passage: Passage | null;
  readonly air: Air;
  readonly omega: number;
  readonly stallMargin: number;
}

/** Angle step by which the answer of each ring to its angle is found [rad], and the most one pass turns a blade. */
const PROBE = 0.004;
const LARGEST_TURN = 0.06;
const PASSES = 6;

/** Steps and largest step [rad] of the turn of the whole blade. */
const MOST_STEPS = 10;
const LARGEST_STEP = 0.026;

/** Thrust is met to this share: well within what is promised. */
const CLOSE_ENOUGH = 0.0008;
const MOST_NUDGES = 40;

export function analyse(fan: Fan, { passage, air, omega }: Point): Analysed {
  const rotor = rotorOfFan(fan);
  return { fan, rotor, run: runFan(rotor, passage, air, { omega, axialSpeed: 0 }) };
}

/** Pressure rise of the blades in each ring over half the density [m2/s2]. */
export function pressures({ rotor, run }: Pick<Analysed, 'rotor' | 'run'>): Float64Array {
  return rotor.radius.map((r, i) => {
    const { relativeSpeed, cx } = run.annuli[i];
    return ((rotor.bladeCount * rotor.chord[i]) / (2 * Math.PI * r)) * relativeSpeed ** 2 * cx;
  });
}

const withAngles = (fan: Fan, turn: (station: BladeStation, i: number) => number): Fan => ({
  ...fan,
  blade: fan.blade.map((station, i) => ({ ...station, angle_deg: Number(turn(station, i).toFixed(6)) })),
});

/**
 * Turns the blade, station by station, until the fan's own calculation gives the pressures `wanted` (over half the
 * density) and the thrust [N]: Newton's method with each ring's answer to a small turn of the whole blade. Then rounds
 * the angles and nudges single stations by a tenth of a degree until the thrust is met again.
 */
export function refine(start: Fan, wanted: Float64Array, thrust: number, point: Point): Analysed {
  let now = analyse(start, point);
  let level = 1;
  for (let pass = 0; pass < PASSES; pass++) {
    const { rotor, run } = now;
    const probe = turned(now, PROBE, point);
    if (run.thrust > 0) level = Math.min(1.2, Math.max(0.8, (level * thrust) / run.thrust));
    const is = pressures(now);
    const moved = pressures(probe);
    const slopes = is.map((p, i) => (moved[i] - p) / PROBE);
    const typical = slopes.slice().sort()[slopes.length >> 1];
    const turns = is.map((p, i) => {
      // A stalled ring answers backward; the typical answer turns it the right way, and its stall bounds the turn.
      const turn = (level * wanted[i] - p) / Math.max(slopes[i], 0.3 * typical);
      const room =
        stallInRing(run, rotor, point.air, i).alpha * (1 - point.stallMargin) - run.annuli[i].alpha;
      const bounded = Math.min(turn, LARGEST_TURN, Math.max(room, -LARGEST_TURN));
      return Number.isFinite(bounded) ? Math.max(-LARGEST_TURN, bounded) : 0;
    });
    const weights = wanted.map((q, i) => q * rotor.radius[i] * rotor.width[i]);
    const byStation = fitToStations(spansOf(rotor), weights, turns);
    now = analyse(
      withAngles(now.fan, (s, i) => held(s.angle_deg + degreesFromRadians(byStation[i]))),
      point,
    );
  }
  return rounded(turnedTo(now, thrust, point), thrust, point);
}

const held = (angle_deg: number) => Math.min(89.9, Math.max(-89.9, angle_deg));

/** The whole blade turned until the thrust is met, by secant steps of at most a degree and a half. */
function turnedTo(start: Analysed, thrust: number, point: Point): Analysed {
  let now = start;
  let slope = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const miss = now.run.thrust - thrust;
    if (Math.abs(miss) < 1e-5 * thrust) break;
    if (!(slope > 0)) {
      const probe = turned(now, PROBE, point);
      slope = (probe.run.thrust - now.run.thrust) / PROBE;
      // A blade stalled as a whole is left as it is: its thrust is then told as it stands.
      if (!(slope > 0)) break;
    }
    const turn = Math.min(LARGEST_STEP, Math.max(-LARGEST_STEP, -miss / slope));
    const next = turned(now, turn, point);
    slope = (next.run.thrust - now.run.thrust) / turn;
    now = next;
  }
  return now;
}

const turned = (from: Analysed, by: number, point: Point): Analysed =>
  analyse(
    withAngles(from.fan, (s) => held(s.angle_deg + degreesFromRadians(by))),
    point,
  );

function rounded(exact: Analysed, thrust: number, point: Point): Analysed {
  const onStep = (angle: number) => Number((Math.round(angle / ANGLE_STEP_DEG) * ANGLE_STEP_DEG).toFixed(1));
  const unrounded = exact.fan.blade.map((s) => s.angle_deg);
  let now = analyse(
    withAngles(exact.fan, (s) => onStep(s.angle_deg)),
    point,
  );
  const off = (a: Analysed) => a.run.thrust / thrust - 1;
  for (let nudge = 0; nudge < MOST_NUDGES && Math.abs(off(now)) > CLOSE_ENOUGH; nudge++) {
    const sign = off(now) < 0 ? 1 : -1;
    // Of the stations, the one that rounding moved furthest the wrong way gives first; hub and tip carry too little to count.
    let best: { readonly a: Analysed; readonly cost: number } | null = null;
    for (let i = 0; i < unrounded.length; i++) {
      const turned = now.fan.blade[i].angle_deg + sign * ANGLE_STEP_DEG;
      const a = analyse(
        withAngles(now.fan, (s, k) => (k === i ? onStep(turned) : s.angle_deg)),
        point,
      );
      const gain = Math.abs(off(now)) - Math.abs(off(a));
      if (gain <= 0) continue;
      const cost = Math.abs(turned - unrounded[i]) / gain;
      if (!best || cost < best.cost) best = { a, cost };
    }
    if (!best) break;
    now = best.a;
  }
  return now;
}
