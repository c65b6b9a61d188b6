import { assess } from '../../assess/assess.ts';
import type { BenchRun } from '../../project/bench.ts';
import type { Project } from '../../project/schema.ts';
import { formatNumber as n, formatPercent } from '../../quantities/format.ts';
import type { Interval } from '../../quantities/interval.ts';
import { shortfallOf } from '../../study/shortfall.ts';
import { ROTOR_CAUTIONS } from '../../strength/words.ts';
import { withCause } from '../calibrate.ts';
import { atBench, reduceRun } from '../reduce.ts';
import type { Reduced } from '../types.ts';
import type { CauseSpec } from './causes.ts';
import { evidenceOf } from './from-run.ts';
import { intervalOf, likeliest, takenBy } from './posterior.ts';
import { prepare } from './prepare.ts';
import { signsOf } from './signs.ts';
import type { CauseFinding, DesignFinding, Diagnosis, NextMeasurement } from './types.ts';
import { nextTests, rankedCauses, unexplained } from './verdict.ts';
import { weigh, type Weighed } from './weigh.ts';
import { CAUSE_WORDS, oddsWords } from './words.ts';

/** Causes less likely than this get no line, unless fewer than two are left. */
const WORTH_A_LINE = 0.04;
const MOST_CAUSES = 5;
const MOST_TESTS = 3;

/** A shortfall smaller than this is none: within what meters and model tell. */
const NO_SHORTFALL = 0.03;

/** A cause less likely than this is not taken as true for the change that would bring most. */
const LIKELY = 0.4;

/**
 * Why the fan on the bench gives what it gives: causes with their chances, what speaks for and against each, what to measure
 * next, and the change that would bring most. Null where the run holds no reading with the fans running. Pure; some 0.2 s.
 */
export function diagnose(
  project: Project,
  run: BenchRun,
  reduced: Reduced = reduceRun(project, run),
): Diagnosis | null {
  if (reduced.points.length === 0) return null;
  const prepared = prepare(atBench(project, run), reduced.air);
  const weighed = weigh(prepared, evidenceOf(prepared.model, run, reduced));
  const design = designFinding(project, run, reduced);
  const { rows, teller, sound } = weighed;
  const point = rows.points[rows.top];
  const predicted = teller.soundThrust[rows.top] * sound.told.top;
  const shortfall = 1 - point.thrust / predicted;
  const missing = predicted - point.thrust;
  const at = { throttle: point.throttle, measured_N: point.thrust, predicted_N: predicted, shortfall };
  const ranked = rankedCauses(weighed);
  const causes = ranked
    .filter((c, i) => c.chance >= WORTH_A_LINE || (i < 2 && c.chance > 0.01))
    .slice(0, MOST_CAUSES)
    .map((c) =>
      finding(
        weighed,
        weighed.specs.find((s) => s.id === c.id)!,
        c.chance,
        shortfall > NO_SHORTFALL ? missing / teller.soundThrust[rows.top] : null,
      ),
    );
  const odd = unexplained(weighed);
  const next = nextTests(weighed).slice(0, MOST_TESTS).map(measurement);
  const draft = { at, causes, nothingAmiss: sound.chance, unexplained: odd, design, next };
  const bestChange = odd.flagged ? null : bestOf(project, weighed, causes);
  return {
    ...draft,
    bestChange,
    sentences: sentencesOf({ ...draft, bestChange }),
    cautions: ROTOR_CAUTIONS,
  };
}

function finding(weighed: Weighed, spec: CauseSpec, chance: number, missing: number | null): CauseFinding {
  const { name, size, fix } = CAUSE_WORDS[spec.id];
  const interval = spec.unknown && intervalOf(weighed, spec.unknown, spec.id);
  return {
    id: spec.id,
    name,
    chance,
    odds: oddsWords(chance),
    share: missing === null ? null : scaled(takenBy(weighed, spec.id), missing),
    size:
      spec.unknown && interval
        ? { unknown: spec.unknown, interval, words: size ? size(interval) : '' }
        : null,
    ...signsOf(weighed, spec.id),
    fix,
    belongsTo: spec.belongsTo,
  };
}

const scaled = (i: Interval, by: number): Interval => ({
  value: i.value / by,
  low: Math.min(i.low / by, i.high / by),
  high: Math.max(i.low / by, i.high / by),
});

const measurement = ({ test, bits }: ReturnType<typeof nextTests>[number]): NextMeasurement => ({
  test: test.id,
  minutes: test.minutes,
  bits,
  words: `${/^(whether|which|what)/.test(test.name) ? 'See' : 'Measure'} ${test.name} (about ${test.minutes} min).`,
  how: test.how,
  caution: test.caution ?? null,
});

/** What is missing by design: the craft as predicted, at the mass it was weighed at. */
function designFinding(project: Project, run: BenchRun, reduced: Reduced): DesignFinding {
  const assessment = assess(project);
  const predicted = assessment.fan.full.thrust_N / reduced.needed_N.value;
  const weighed = run.observed.craftMass_g;
  const heavier = weighed === null ? null : weighed / assessment.craft.mass_g - 1;
  const sentences: string[] = [];
  if (heavier !== null && heavier > 0.03)
    sentences.push(
      `The craft weighs ${formatPercent(heavier)} more than its parts add up to; that asks for as much more thrust, whatever the fans give.`,
    );
  if (predicted < 1) {
    sentences.push(
      `Even with every fan as drawn it would lift ${n(predicted, 2)} times its weight: this is a matter of the design, not of the build.`,
    );
    sentences.push(...shortfallOf(project).sentences.slice(1, 2));
  }
  return { predictedThrustToWeight: predicted, heavier, sentences };
}

/** Putting the likeliest cause right, or the best change of the fan with that cause taken as true, whichever brings more. */
function bestOf(
  project: Project,
  weighed: Weighed,
  causes: readonly CauseFinding[],
): Diagnosis['bestChange'] {
  const [first] = causes;
  const taken = first && first.chance >= LIKELY ? first : null;
  const best = taken ? likeliest(weighed, taken.id) : null;
  const at = taken && best ? best.takes[best.causes.indexOf(taken.id)] : 0;
  const right = taken && taken.belongsTo !== 'bench' && at > 0 && at < 1 ? at / (1 - at) : 0;
  const calibration = taken
    ? withCause(project.calibration, { id: taken.id, value: taken.size?.interval.value ?? 0 })
    : project.calibration;
  const [help] = assess({ ...project, calibration }).helps;
  if (taken && at >= 1) return { words: `${taken.fix} Without that it gives nothing.`, gain: null };
  if (taken && right >= (help?.gain ?? 0) && right > 0.01)
    return { words: `${taken.fix} That would bring about ${formatPercent(right)} more thrust.`, gain: right };
  return help ? { words: help.text, gain: help.gain } : null;
}

function sentencesOf(d: Omit<Diagnosis, 'sentences' | 'cautions'>): string[] {
  const { at, causes, unexplained: odd, design, next, bestChange } = d;
  const where = at.throttle === null ? 'there' : `at ${formatPercent(at.throttle)} throttle`;
  const out: string[] = [];
  const pull = `${n(at.measured_N)} N for each fan ${where}, where ${n(at.predicted_N)} N were expected`;
  if (at.measured_N < 0) out.push(`It pulls the wrong way: ${pull}.`);
  else if (at.shortfall > NO_SHORTFALL) out.push(`It gives ${pull}: ${formatPercent(at.shortfall)} less.`);
  else if (at.shortfall < -NO_SHORTFALL) out.push(`It gives ${pull}: ${formatPercent(-at.shortfall)} more.`);
  else out.push(`It gives ${pull}: as much as expected.`);
  const [first, second] = causes;
  if (odd.flagged)
    out.push(
      'No cause known here explains these readings together. Look for what changes along the throttle: a rotor that slips on its shaft, a controller that loses step, blades that bend, a scale that drifts; then read again, slowly, up and down.',
    );
  else if (!first || d.nothingAmiss > Math.max(0.5, first.chance))
    out.push(
      `Nothing need be amiss: ordinary scatter of print, parts and meters covers it (${oddsWords(d.nothingAmiss)}).`,
    );
  else {
    if (first.chance < 0.5) out.push('No one cause stands out from these readings alone.');
    out.push(causeSentence(first));
    if (second && second.chance > 0.1) out.push(`Next likely, ${second.odds}: ${lower(second.name)}.`);
  }
  out.push(...design.sentences);
  if (next.length > 0 && !odd.flagged && (!first || first.chance < 0.95))
    out.push(`${next[0].words} ${next[0].how}`);
  if (first && first.belongsTo === 'bench' && first.chance >= LIKELY) out.push(`First of all: ${first.fix}`);
  if (bestChange && !odd.flagged) out.push(`What would bring most: ${bestChange.words}`);
  return out;
}

function causeSentence(c: CauseFinding): string {
  const size = c.size && c.size.words !== '' ? `: ${c.size.words}` : '';
  const share =
    c.share && c.share.value > 0.02
      ? `; it alone would explain ${formatPercent(Math.min(2, c.share.value))} of the shortfall`
      : '';
  return `Likeliest, ${c.odds}: ${lower(c.name)}${size}${share}.`;
}

const lower = (text: string) => text[0].toLowerCase() + text.slice(1);
