import type { CauseId } from './causes.ts';
import type { Hump } from './posterior.ts';
import { testById, type TestId, type TestSpec } from './tests.ts';
import { UNKNOWN_IDS } from './unknowns.ts';
import type { Hypothesis, Weighed } from './weigh.ts';

/** A test with what it is expected to tell between the two causes it was asked about. */
export interface RankedTest {
  readonly test: TestSpec;
  /** Expected information [bit], at most 1 between two. */
  readonly bits: number;
  /** What either would make it show (mean), in the unit of its aim. */
  readonly first: number;
  readonly second: number;
}

const COLUMNS = UNKNOWN_IDS.length;

/** Outcomes looked at along the range of a test. */
const OUTCOMES = 240;

/** Time that goes by before any test begins [min]: small differences in length then do not decide. */
const SETTING_UP = 2;

/**
 * Tests ranked by expected information for each minute between two labels of hypotheses: the mutual information of label and
 * outcome, I = H(outcome) - sum p_i H(outcome | i), with outcomes as foretold after the readings so far.
 * Source: Lindley, On a measure of the information provided by an experiment, Ann. Math. Stat. 27 (1956) 986-1005.
 */
export function rankTests(
  weighed: Weighed,
  first: CauseId | 'nothing',
  second: CauseId | 'nothing',
): RankedTest[] {
  const { rows, hypotheses } = weighed;
  const labelled = (label: CauseId | 'nothing', other: CauseId | 'nothing') =>
    hypotheses.filter(
      (h) =>
        !h.unexplained &&
        h.chance > 1e-7 &&
        (label === 'nothing'
          ? h.causes.length === 0
          : h.causes.includes(label) && (other === 'nothing' || !h.causes.includes(other))),
    );
  const groups = [labelled(first, second), labelled(second, first)];
  const out: RankedTest[] = [];
  for (let k = rows.measuredCount; k < rows.rows.length; k++) {
    const row = rows.rows[k];
    const test = testById.get(row.test as TestId);
    if (!test) continue;
    const [a, b] = groups.map((group) => humps(group, k, row.sd));
    if (a.length === 0 || b.length === 0) continue;
    out.push({ test, bits: information(a, b), first: meanOf(a), second: meanOf(b) });
  }
  return out.sort((a, b) => worth(b) - worth(a));
}

const worth = (t: RankedTest) => t.bits / (t.test.minutes + SETTING_UP);

const meanOf = (humps: readonly Hump[]) => humps.reduce((s, h) => s + h.weight * h.mean, 0);

/** The outcome of test row `k` as a group of hypotheses foretells it, after the readings. */
function humps(group: readonly Hypothesis[], k: number, sd: number): Hump[] {
  const sum = group.reduce((s, h) => s + h.chance, 0);
  return group
    .filter((h) => h.chance > 0.002 * sum)
    .map((h) => {
      const n = Math.round(Math.sqrt(h.fit.covariance.length));
      let mean = h.told.value[k];
      let variance = sd * sd;
      for (let i = 0; i < COLUMNS; i++) {
        const gi = h.told.slope[k * COLUMNS + i] * h.spread[UNKNOWN_IDS[i]];
        if (gi === 0) continue;
        mean += gi * h.fit.mean[i];
        for (let j = 0; j < COLUMNS; j++)
          variance +=
            gi * h.fit.covariance[i * n + j] * h.told.slope[k * COLUMNS + j] * h.spread[UNKNOWN_IDS[j]];
      }
      return { weight: h.chance / sum, mean, sd: Math.sqrt(Math.max(variance, sd * sd)) };
    });
}

/** Bits an outcome tells, on average, of which of two equally likely groups is true. */
export function information(a: readonly Hump[], b: readonly Hump[]): number {
  const all = [...a, ...b];
  const low = Math.min(...all.map((h) => h.mean - 4 * h.sd));
  const high = Math.max(...all.map((h) => h.mean + 4 * h.sd));
  // Fine enough for the narrowest hump, and no finer.
  const narrow = Math.min(...all.map((h) => h.sd));
  const count = Math.min(4000, Math.max(OUTCOMES, Math.ceil((3 * (high - low)) / narrow)));
  const step = (high - low) / count;
  const density = (humps: readonly Hump[], x: number) =>
    humps.reduce((s, h) => s + (h.weight / h.sd) * Math.exp(-(((x - h.mean) / h.sd) ** 2) / 2), 0);
  let bits = 0;
  let sum = 0;
  for (let i = 0; i < count; i++) {
    const x = low + (i + 0.5) * step;
    const [pa, pb] = [density(a, x), density(b, x)];
    const mean = (pa + pb) / 2;
    sum += mean;
    if (pa > 0) bits += (pa / 2) * Math.log2(pa / mean);
    if (pb > 0) bits += (pb / 2) * Math.log2(pb / mean);
  }
  return sum > 0 ? Math.min(1, Math.max(0, bits / sum)) : 0;
}
