import { mapThrust, mapTorque } from '../air/map.ts';
import { mapOf, quotedSupply, type Model } from '../assess/model.ts';
import { speedAtThrottle } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { formatPercent } from '../quantities/format.ts';
import type { Interval } from '../quantities/interval.ts';
import { around, halfOf, propagated, together } from './errors.ts';
import type { HoverShare, ReducedPoint } from './types.ts';

/** From here on throttle counts as full. */
export const FULL_THROTTLE = 0.985;

/** With less throttle than this nothing is said of full throttle. */
const LEAST_THROTTLE = 0.1;

/** Thrust grows as throttle to some power; half of the 90 % interval of that power where only the model tells it. Common practice, no source. */
const MODEL_EXPONENT_ERROR = 0.3;
/** What the power found lower down may change by further up. Common practice, no source. */
const CARRIED_ERROR = 0.2;

/** What fraction of hover the strongest point is worth, and what full throttle would be worth; null without a running point. */
export function hoverShareOf(
  project: Project,
  model: Model,
  points: readonly ReducedPoint[],
  needed: Interval,
): HoverShare | null {
  if (points.length === 0) return null;
  const best = points.reduce((a, b) => (rank(b) > rank(a) ? b : a));
  const share = (thrust: Interval) => propagated([thrust, needed], (t, n) => t / n);
  const atThisThrottle = share(best.thrust_N);
  const { throttle } = best;
  const extrapolated = throttle !== null && throttle < FULL_THROTTLE;
  const fullThrottle =
    throttle === null || throttle < LEAST_THROTTLE
      ? null
      : extrapolated
        ? share(carriedOn(project, model, points, best, throttle))
        : atThisThrottle;
  const found = {
    atThisThrottle,
    throttle,
    fullThrottle,
    extrapolated: extrapolated && fullThrottle !== null,
  };
  return { ...found, words: shareWords(found) };
}

/** Throttle first where it is known, then thrust. */
const rank = (point: ReducedPoint): number => (point.throttle ?? 0) * 1e9 + point.thrust_N.value;

/**
 * Thrust at full throttle from that at throttle t: T(1) = T(t) t^(-k). The model of the project gives k between t and full;
 * where readings at lower throttles show another power than the model has there, the difference is carried along.
 */
function carriedOn(
  project: Project,
  model: Model,
  points: readonly ReducedPoint[],
  best: ReducedPoint,
  throttle: number,
): Interval {
  const thrustAt = modelThrust(project, model);
  const slope = (from: number, to: number) => {
    const ratio = thrustAt(to) / thrustAt(from);
    return ratio > 0 && Number.isFinite(ratio) ? Math.log(ratio) / Math.log(to / from) : 2;
  };
  const ahead = slope(throttle, 1);
  const lower = points.filter(
    (p) =>
      p.throttle !== null &&
      p.throttle < 0.85 * throttle &&
      p.throttle > 0.3 * throttle &&
      p.thrust_N.value > 2 * p.thrustOwn_N,
  );
  let shift = 0;
  let error: number = MODEL_EXPONENT_ERROR;
  if (lower.length > 0 && best.thrust_N.value > 0) {
    // Each lower point gives a power of its own; those further down have the longer arm and count for more.
    let weights = 0;
    let sum = 0;
    for (const p of lower) {
      const arm = Math.log(throttle / p.throttle!);
      const power = Math.log(best.thrust_N.value / p.thrust_N.value) / arm;
      const own = together(p.thrustOwn_N / p.thrust_N.value, best.thrustOwn_N / best.thrust_N.value) / arm;
      const weight = 1 / together(own, CARRIED_ERROR) ** 2;
      sum += weight * (power - slope(p.throttle!, throttle));
      weights += weight;
    }
    const fromReadings = together(Math.sqrt(1 / weights), CARRIED_ERROR);
    const trust = MODEL_EXPONENT_ERROR ** 2 / (MODEL_EXPONENT_ERROR ** 2 + fromReadings ** 2);
    shift = trust * (sum / weights);
    // Where the two disagree, what was given up of the readings stays open.
    const givenUp = (1 - trust) * (sum / weights);
    error = together(trust * fromReadings, (1 - trust) * MODEL_EXPONENT_ERROR, givenUp);
  }
  return propagated([best.thrust_N, around(ahead + shift, error)], (t, k) => t * throttle ** -k);
}

/** Thrust by throttle of the project as predicted [N]. */
function modelThrust(project: Project, model: Model): (throttle: number) => number {
  const map = mapOf(model);
  const supply = quotedSupply(project);
  return (throttle) =>
    mapThrust(
      map,
      speedAtThrottle(supply, (omega) => mapTorque(map, omega), throttle),
    );
}

/** "34 %" with its interval where that says something: "34 % (31 to 37)". */
export function shareText(share: Interval): string {
  const bare = (x: number) => String(Math.round(x * 100)).replace('-', '−');
  const whole = formatPercent(share.value);
  return halfOf(share) < 0.005 ? whole : `${whole} (${bare(share.low)} to ${bare(share.high)})`;
}

function shareWords({
  atThisThrottle,
  throttle,
  fullThrottle,
  extrapolated,
}: Omit<HoverShare, 'words'>): string {
  if (atThisThrottle.value < 0)
    return 'The readings say that the fan pushes the wrong way; there is no share of hover in that.';
  const here = shareText(atThisThrottle);
  if (throttle === null)
    return `This is ${here} of what hover needs. The throttle of the reading is not known: if it was not full, there is more to come.`;
  if (fullThrottle === null)
    return `This is ${here} of what hover needs, at too little throttle to say what full throttle would give.`;
  const given = formatPercent(throttle);
  const lift = (share: Interval) =>
    share.low >= 1
      ? ' That lifts the craft.'
      : share.high < 1
        ? ' That does not lift the craft.'
        : ' Whether that lifts the craft the readings do not settle.';
  if (!extrapolated) return `At full throttle this is ${here} of what hover needs.${lift(atThisThrottle)}`;
  return `This is ${here} of what hover needs at this throttle (${given}); full throttle would give ${shareText(fullThrottle)}, carried on beyond what was read.${lift(fullThrottle)}`;
}
