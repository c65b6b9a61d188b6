import { normalQuantile } from '../numerics/normal.ts';
import { sobolPoints } from '../numerics/sobol.ts';
import type { Project } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import { drawableOf, type Drawable, type Drawn } from './draws.ts';
import { sobolIndices } from './sensitivity.ts';
import { FURTHEST, NINETY, unknownsOf, type Spreads } from './unknowns.ts';
import { ANSWERS, type AnswerId, type Driver, type Uncertainty } from './uncertainty-types.ts';
import { uncertaintyWords } from './uncertainty-words.ts';

export interface UncertaintyOptions {
  /** 64 to 65 536; left out: 2 000. */
  readonly samples?: number;
  readonly seed?: number;
  /** Other spreads than the usual ones. */
  readonly spreads?: Spreads;
}

/** Rows of the ranking: its shares are good to a few hundredths, which is what a ranking needs. */
const RANKED = 256;

/** Drivers of each answer whose halving is really done. */
const HALVED = 2;

/** Draws that tell how an interval shrinks. */
const SHRUNK = 512;

/**
 * Every answer with its interval, chances, and what drives them: even draws of all unknowns at once through the fast run of
 * `drawableOf`. The same project, samples and seed give the same answer to the last bit.
 */
export function uncertaintyOf(project: Project, options: UncertaintyOptions = {}): Uncertainty {
  const { samples = 2000, seed = 1, spreads = {} } = options;
  if (!(Number.isInteger(samples) && samples >= 64 && samples <= 65_536))
    throw new Error(`uncertaintyOf needs 64 to 65536 samples, not ${samples}.`);
  const unknowns = unknownsOf(project, spreads);
  const drawable = drawableOf(project, unknowns);
  const draws = drawnAt(drawable, samples, seed);
  const sorted = sortedAnswers(draws);
  const { safetyFactor } = project.fan;
  const lifts = (d: Drawn) => d.thrustToWeight >= 1;
  const minutes = (d: Drawn) => d.hover_min >= project.brief.wanted_min && lifts(d);
  const strength = (d: Drawn) => d.speedMargin ** 2 >= safetyFactor;
  const chance = (holds: (d: Drawn) => boolean) => draws.filter(holds).length / samples;
  const draft = {
    samples,
    seed,
    unknowns,
    answers: byAnswer((id) => intervalOf(sorted[id], samples)),
    chances: {
      lifts: chance(lifts),
      minutes: chance(minutes),
      strength: chance(strength),
      all: chance((d) => minutes(d) && strength(d)),
    },
    drivers: driversOf(drawable, seed),
  };
  return { ...draft, words: uncertaintyWords(project, draft) };
}

/** Half-widths from the middle for a number of the unit cube: a normal spread, cut where 1 in 1000 lies beyond. */
const stepOf = (u: number): number => Math.max(-FURTHEST, Math.min(FURTHEST, normalQuantile(u) / NINETY));

/** Draws of all unknowns; `narrowed` has its spread halved. */
function drawnAt({ unknowns, at }: Drawable, samples: number, seed: number, narrowed = -1): Drawn[] {
  const n = unknowns.length;
  if (n === 0) return Array.from({ length: samples }, () => at([]));
  const points = sobolPoints(n, samples, seed);
  const x = new Float64Array(n);
  return Array.from({ length: samples }, (_, i) => {
    for (let d = 0; d < n; d++) x[d] = stepOf(points[i * n + d]) * (d === narrowed ? 0.5 : 1);
    return at(x);
  });
}

const byAnswer = <T>(of: (id: AnswerId) => T): Record<AnswerId, T> =>
  Object.fromEntries(ANSWERS.map((id) => [id, of(id)])) as Record<AnswerId, T>;

const sortedAnswers = (draws: readonly Drawn[]): Record<AnswerId, Float64Array> =>
  byAnswer((id) =>
    Float64Array.from(draws, (d) => d[id])
      .filter(Number.isFinite)
      .sort(),
  );

function intervalOf(sorted: Float64Array, samples: number): Interval | null {
  if (sorted.length < 0.9 * samples) return null;
  return { value: quantile(sorted, 0.5), low: quantile(sorted, 0.05), high: quantile(sorted, 0.95) };
}

/** Between the two nearest of a sorted list. */
function quantile(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}

function driversOf(drawable: Drawable, seed: number): Record<AnswerId, readonly Driver[]> {
  const { unknowns, at } = drawable;
  const n = unknowns.length;
  if (n === 0) return byAnswer(() => []);
  const shares = sobolIndices(
    (u) => {
      const d = at(u.map(stepOf));
      return ANSWERS.map((id) => d[id]);
    },
    sobolPoints(2 * n, RANKED, seed),
    n,
  );
  const ranked = byAnswer((id) => {
    const { first, total } = shares[ANSWERS.indexOf(id)];
    return unknowns
      .map((u, i) => ({ i, id: u.id, name: u.name, first: clamped(first[i]), total: clamped(total[i]) }))
      .sort((a, b) => b.total - a.total);
  });
  const width = (sorted: Float64Array) => quantile(sorted, 0.95) - quantile(sorted, 0.05);
  const whole = sortedAnswers(drawnAt(drawable, SHRUNK, seed));
  const narrowed = new Map<number, Record<AnswerId, Float64Array>>();
  const narrowedAt = (i: number) => {
    const known = narrowed.get(i) ?? sortedAnswers(drawnAt(drawable, SHRUNK, seed, i));
    narrowed.set(i, known);
    return known;
  };
  return byAnswer((id) =>
    ranked[id].map(({ i, ...driver }, place) => {
      const before = width(whole[id]);
      const tried = place < HALVED && driver.total > 0.02 && before > 0;
      return { ...driver, halved: tried ? 1 - width(narrowedAt(i)[id]) / before : null };
    }),
  );
}

const clamped = (share: number): number => Math.max(0, Math.min(1, share));
