import type { Random } from '../../numerics/random.ts';
import { seededRandom } from '../../numerics/random.ts';
import type { CauseId } from '../diagnose/causes.ts';
import type { Evidence } from '../diagnose/evidence.ts';
import { nextTests, rankedCauses, unexplained } from '../diagnose/verdict.ts';
import { intervalOf } from '../diagnose/posterior.ts';
import type { Prepared } from '../diagnose/prepare.ts';
import { UNKNOWN_IDS, type UnknownId } from '../diagnose/unknowns.ts';
import { weigh, type Weighed } from '../diagnose/weigh.ts';
import { drawCause, drawTruth, specsOf } from './cases.ts';
import { LACKS, type Lack } from './lacking.ts';
import { syntheticRig, type RigPlan, type SyntheticRig, type Truth } from './rig.ts';

/** One invented case and what the diagnosis made of it. */
export interface Scored {
  readonly truth: Truth;
  /** Thrust the leading cause takes over that of the sound fan. */
  readonly taken: number;
  /** Whether one cause takes at least `DOMINATES` and twice what any other does. */
  readonly dominated: CauseId | null;
  /** First of the ranked causes, from the readings alone, and after each suggested test that was made. */
  readonly firsts: readonly (CauseId | null)[];
  /** Chance of the true leading cause at each of those. */
  readonly chances: readonly number[];
  readonly unexplained: boolean;
  /** For each unknown with a spread: whether its truth lies in its 90 % interval. */
  readonly inside: Partial<Record<UnknownId, boolean>>;
}

/** Share of the sound fan's thrust one cause must take to count as the one that dominates. */
export const DOMINATES = 0.15;

export interface CasesAsked {
  readonly count: number;
  readonly seed: number;
  readonly plan: RigPlan;
  /** How many suggested tests are made one after the other. */
  readonly tests: number;
  /** Faults the diagnosis has no cause for, in turn; none: only known causes. */
  readonly lacks?: boolean;
  /** Causes at work in case `i`; left out: one in six none, two in three one, the rest two. */
  readonly causesIn?: (random: Random) => number;
}

const usual = (random: Random) => {
  const x = random.even();
  return x < 1 / 6 ? 0 : x < 5 / 6 ? 1 : 2;
};

/** Runs invented cases from a seed and holds each diagnosis against its truth. */
export function scoreCases(prepared: readonly Prepared[], asked: CasesAsked): Scored[] {
  const random = seededRandom(asked.seed);
  return Array.from({ length: asked.count }, (_, i) => {
    const own = prepared[i % prepared.length];
    const specs = specsOf(own.model, asked.plan);
    const lacks: Lack | null = asked.lacks
      ? { id: LACKS[i % LACKS.length], size: 0.5 + 0.5 * random.even() }
      : null;
    const number = lacks ? 0 : (asked.causesIn ?? usual)(random);
    const causes = [];
    let left = specs;
    while (causes.length < number) {
      const cause = drawCause(left, random);
      causes.push(cause);
      left = left.filter((s) => s.id !== cause.id && (cause.turn === 'right' || s.turn === 'right'));
    }
    const truth = drawTruth(own.model, asked.plan, causes, random, lacks);
    return scoreCase(own, truth, asked, random);
  });
}

function scoreCase(prepared: Prepared, truth: Truth, { plan, tests }: CasesAsked, random: Random): Scored {
  const rig = syntheticRig(prepared.model, truth, plan, random);
  const shares = truth.causes.map((c) => takenAlone(prepared, truth, c, plan, rig));
  const order = shares.map((s, i) => ({ s: Math.abs(s), i })).sort((a, b) => b.s - a.s);
  const leading = order.length > 0 ? truth.causes[order[0].i] : null;
  const taken = order.length > 0 ? order[0].s : 0;
  const dominated = taken >= DOMINATES && taken >= 2 * (order[1]?.s ?? 0) ? leading : null;
  let evidence: Evidence = rig.evidence;
  let weighed = weigh(prepared, evidence);
  const first = weighed;
  const firsts: (CauseId | null)[] = [rankedCauses(weighed)[0]?.id ?? null];
  const chances = [chanceNow(weighed, leading)];
  for (let k = 0; k < tests; k++) {
    const [next] = nextTests(weighed);
    if (next) {
      const value = rig.outcome(
        next.test,
        weighed.teller.soundThrust[weighed.rows.points.length - 1],
        random,
      );
      evidence = { ...evidence, facts: [...evidence.facts, { test: next.test.id, value, sd: next.test.sd }] };
      weighed = weigh(prepared, evidence);
    }
    firsts.push(rankedCauses(weighed)[0]?.id ?? null);
    chances.push(chanceNow(weighed, leading));
  }
  return {
    truth,
    taken,
    dominated,
    firsts,
    chances,
    unexplained: unexplained(first).flagged,
    inside: insideOf(first, truth),
  };
}

const chanceNow = (weighed: Weighed, cause: CauseId | null) =>
  cause === null ? weighed.sound.chance : (rankedCauses(weighed).find((c) => c.id === cause)?.chance ?? 0);

function insideOf(weighed: Weighed, truth: Truth): Scored['inside'] {
  const inside: Partial<Record<UnknownId, boolean>> = {};
  for (const id of UNKNOWN_IDS) {
    if (!(weighed.sound.spread[id] > 0)) continue;
    const { low, high } = intervalOf(weighed, id);
    inside[id] = truth.u[id] >= low && truth.u[id] <= high;
  }
  return inside;
}

/** What a cause alone takes of the sound fan's thrust at the top throttle, by the whole model. */
function takenAlone(
  prepared: Prepared,
  truth: Truth,
  cause: CauseId,
  plan: RigPlan,
  rig: SyntheticRig,
): number {
  if (truth.causes.length === 0) return 0;
  const spec = specsOf(prepared.model, plan).find((s) => s.id === cause);
  if (!spec) return 0;
  const without = {
    ...truth,
    u: { ...truth.u },
    turn: spec.turn === 'right' ? truth.turn : ('right' as const),
  };
  if (spec.unknown) (without.u as Record<UnknownId, number>)[spec.unknown] = 0;
  const quiet = { even: () => 0.5, normal: () => 0 };
  const top = (t: Truth, p = rig) => {
    const points = (p ?? syntheticRig(prepared.model, t, plan, quiet)).evidence.points;
    return points[points.length - 1].thrust;
  };
  const fixed = top(without, syntheticRig(prepared.model, without, plan, quiet));
  const faulty = top(truth, syntheticRig(prepared.model, truth, plan, quiet));
  return (fixed - faulty) / Math.max(Math.abs(fixed), 1e-6);
}

/** Counts of a scored batch. */
export interface Tally {
  readonly cases: number;
  readonly inside: number;
  readonly intervals: number;
  readonly dominated: number;
  /** Cases where the dominating cause was ranked first: from readings alone, then after each test. */
  readonly right: readonly number[];
  readonly unexplained: number;
}

export function tally(scored: readonly Scored[]): Tally {
  const flags = scored.flatMap((s) => Object.values(s.inside));
  const dominated = scored.filter((s) => s.dominated !== null);
  const rounds = scored[0]?.firsts.length ?? 0;
  return {
    cases: scored.length,
    inside: flags.filter(Boolean).length,
    intervals: flags.length,
    dominated: dominated.length,
    right: Array.from(
      { length: rounds },
      (_, k) => dominated.filter((s) => s.firsts[k] === s.dominated).length,
    ),
    unexplained: scored.filter((s) => s.unexplained).length,
  };
}
