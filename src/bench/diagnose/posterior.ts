import type { Interval } from '../../quantities/interval.ts';
import type { CauseId } from './causes.ts';
import { normalBelow } from './gaussian.ts';
import { UNKNOWN_IDS, type UnknownId } from './unknowns.ts';
import type { Hypothesis, Weighed } from './weigh.ts';

/** A mixture of normal humps. */
export interface Hump {
  readonly weight: number;
  readonly mean: number;
  readonly sd: number;
}

/** Chance that a cause is at work, alone or beside another. */
export const chanceOf = ({ hypotheses }: Weighed, cause: CauseId): number =>
  hypotheses.reduce((s, h) => s + (h.causes.includes(cause) ? h.chance : 0), 0);

/** What is believed of one unknown; `given` keeps to hypotheses with that cause. */
export function humpsOf({ hypotheses }: Weighed, id: UnknownId, given?: CauseId): Hump[] {
  const i = UNKNOWN_IDS.indexOf(id);
  const kept = given ? hypotheses.filter((h) => h.causes.includes(given)) : hypotheses;
  const sum = kept.reduce((s, h) => s + h.chance, 0);
  return kept
    .filter((h) => h.chance > 1e-6 * sum)
    .map((h) => {
      const spread = h.spread[id];
      const n = Math.round(Math.sqrt(h.fit.covariance.length));
      return {
        weight: h.chance / sum,
        mean: h.place.u[id] + spread * h.fit.mean[i],
        sd: Math.max(1e-9, spread * Math.sqrt(Math.max(0, h.fit.covariance[i * n + i]))),
      };
    });
}

/** Where the mixture has `share` of its weight below. */
export function quantile(humps: readonly Hump[], share: number): number {
  let low = Math.min(...humps.map((h) => h.mean - 8 * h.sd));
  let high = Math.max(...humps.map((h) => h.mean + 8 * h.sd));
  for (let i = 0; i < 60 && high - low > 1e-12; i++) {
    const middle = (low + high) / 2;
    const below = humps.reduce((s, h) => s + h.weight * normalBelow((middle - h.mean) / h.sd), 0);
    if (below < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Mean and 90 % interval of an unknown. */
export function intervalOf(weighed: Weighed, id: UnknownId, given?: CauseId): Interval {
  const humps = humpsOf(weighed, id, given);
  const low = quantile(humps, 0.05);
  const high = quantile(humps, 0.95);
  const value = humps.reduce((s, h) => s + h.weight * h.mean, 0);
  return { value: Math.min(high, Math.max(low, value)), low, high };
}

/** What one cause takes of the thrust of the sound fan at the top point, where it is at work. */
export function takenBy({ hypotheses }: Weighed, cause: CauseId): Interval {
  const humps: Hump[] = [];
  for (const h of hypotheses) {
    const i = h.causes.indexOf(cause);
    if (i >= 0 && h.chance > 1e-9) humps.push({ weight: h.chance, mean: h.takes[i], sd: 0.01 });
  }
  const sum = humps.reduce((s, h) => s + h.weight, 0);
  if (!(sum > 0)) return { value: 0, low: 0, high: 0 };
  const even = humps.map((h) => ({ ...h, weight: h.weight / sum }));
  return {
    value: even.reduce((s, h) => s + h.weight * h.mean, 0),
    low: quantile(even, 0.05),
    high: quantile(even, 0.95),
  };
}

/** The likeliest hypothesis, of those with `cause` where one is named. */
export const likeliest = ({ hypotheses }: Weighed, cause?: CauseId): Hypothesis =>
  hypotheses
    .filter((h) => !h.unexplained && (!cause || h.causes.includes(cause)))
    .reduce((a, b) => (b.chance > a.chance ? b : a));
