import type { BalanceRun } from '../project/schema.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantities/units.ts';
import { against, wholeTurn, type Moment } from './correction.ts';
import { fitAmplitudes } from './fit-amplitudes.ts';

/** One circle of the construction: a trial run about its place on the circle of the first run. In units of vibration. */
export interface TrialCircle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly angle_deg: number;
}

/** What trial runs say. */
export type TrialAnswer =
  | {
      readonly ok: true;
      readonly method: 'with phase' | 'without phase';
      readonly unbalance: Moment;
      /** What to add to take it away. */
      readonly correction: Moment;
      /** Vibration of the rotor as it came, and of the trial mass alone (of a mean one where they differ). */
      readonly original: number;
      readonly effect: number;
      readonly meanTrial_gmm: number;
      /** Root mean square of what the readings miss the answer by, over the first reading; null: nothing to compare. */
      readonly misfit: number | null;
      /** Circles of the construction and where they meet; empty for unequal trial moments or with phase. */
      readonly circles: readonly TrialCircle[];
      readonly meeting: { readonly x: number; readonly y: number };
    }
  | { readonly ok: false; readonly message: string };

const moment = (run: BalanceRun): number => run.trialMass_g * run.trialRadius_mm;

/**
 * Unbalance from runs on the stand at one speed: one as the rotor came (trial mass 0) and others with a trial mass.
 * Vibration is taken to answer in proportion, so a trial moment u at angle t gives V = V0 + h u e^(i t).
 * - Phase read (first run and a trial run or more): influence coefficient h = (V - V0) / (u e^(i t)), by least squares over
 *   the trial runs; the correction is -V0 / h.
 * - Amplitudes only, three places or more: the circle construction. About each place on a circle of the first reading
 *   draw the trial reading; the circles meet at M, the correction lies toward M and is u |V0| / |M|. Where they do not
 *   quite meet, M has the least sum of squares of missed amplitude.
 */
export function readTrialRuns(runs: readonly BalanceRun[]): TrialAnswer {
  const first = runs.filter((run) => moment(run) === 0);
  const trials = runs.filter((run) => moment(run) > 0);
  if (first.length === 0)
    return no('There is no run of the rotor as it came; enter one with a trial mass of 0 g.');
  if (first.length > 1)
    return no(
      `${first.length} runs have a trial mass or radius of 0; keep one, the run of the rotor as it came.`,
    );
  const [original] = first;
  if (!(original.amplitude > 0))
    return no('The vibration of the rotor as it came is 0; there is nothing to correct, or it was not read.');
  if (trials.length === 0)
    return no(
      'There is no run with a trial mass yet; the correction needs one with phase, or three without.',
    );
  const phased = trials.filter((run) => run.phase_deg !== null);
  if (original.phase_deg !== null && phased.length > 0) return withPhase(original, phased);
  if (trials.length < 3)
    return no(
      `${trials.length} run${trials.length > 1 ? 's' : ''} with a trial mass and no phase leave more than one answer; run it at three places, a third of a turn apart.`,
    );
  return withoutPhase(original.amplitude, trials);
}

const no = (message: string): TrialAnswer => ({ ok: false, message });

const SAME_PLACE =
  'The trial mass changed nothing that can be told from the readings; use a heavier one, or read the vibration more finely.';

const NO_MEETING =
  'The circles do not meet: a mass at three places cannot lower or raise the vibration everywhere. Read all runs again at one speed, with the rig clamped the same.';

function withPhase(original: BalanceRun, trials: readonly BalanceRun[]): TrialAnswer {
  const vector = (run: BalanceRun) => polar(run.amplitude, radiansFromDegrees(run.phase_deg ?? 0));
  const v0 = vector(original);
  let re = 0;
  let im = 0;
  let squares = 0;
  for (const run of trials) {
    const v = vector(run);
    const u = polar(moment(run), radiansFromDegrees(run.trialAngle_deg));
    const [dx, dy] = [v.x - v0.x, v.y - v0.y];
    re += u.x * dx + u.y * dy;
    im += u.x * dy - u.y * dx;
    squares += moment(run) ** 2;
  }
  const h = { x: re / squares, y: im / squares };
  const size = Math.hypot(h.x, h.y);
  const mean = Math.sqrt(squares / trials.length);
  if (!(size * mean > 1e-6 * original.amplitude)) return no(SAME_PLACE);
  let missed = 0;
  for (const run of trials) {
    const v = vector(run);
    const u = polar(moment(run), radiansFromDegrees(run.trialAngle_deg));
    missed += (v0.x + h.x * u.x - h.y * u.y - v.x) ** 2 + (v0.y + h.x * u.y + h.y * u.x - v.y) ** 2;
  }
  const correction: Moment = {
    amount_gmm: original.amplitude / size,
    angle_deg: wholeTurn((original.phase_deg ?? 0) + 180 - degreesFromRadians(Math.atan2(h.y, h.x))),
  };
  return answer('with phase', correction, original.amplitude, size * mean, mean, {
    misfit: trials.length > 1 ? Math.sqrt(missed / trials.length) / original.amplitude : null,
    circles: [],
  });
}

function withoutPhase(original: number, trials: readonly BalanceRun[]): TrialAnswer {
  const mean = trials.reduce((sum, run) => sum + moment(run), 0) / trials.length;
  const readings = trials.map((run) => ({
    amplitude: run.amplitude,
    angle: radiansFromDegrees(run.trialAngle_deg),
    share: moment(run) / mean,
  }));
  const fit = fitAmplitudes(original, readings);
  if (!fit) return no('The trial mass must sit at three different places; a third of a turn apart is best.');
  const effect = Math.hypot(fit.x, fit.y);
  if (!(effect > 1e-6 * original)) return no(fit.missed > 0.05 * original ? NO_MEETING : SAME_PLACE);
  const equal = readings.every(({ share }) => Math.abs(share - 1) < 1e-3);
  const correction: Moment = {
    amount_gmm: (mean * original) / effect,
    angle_deg: wholeTurn(degreesFromRadians(Math.atan2(fit.y, fit.x))),
  };
  return answer('without phase', correction, original, effect, mean, {
    misfit: fit.missed / original,
    circles: equal
      ? readings.map(({ amplitude, angle }, i) => ({
          ...polar(original, angle),
          radius: amplitude,
          angle_deg: trials[i].trialAngle_deg,
        }))
      : [],
  });
}

function answer(
  method: 'with phase' | 'without phase',
  correction: Moment,
  original: number,
  effect: number,
  meanTrial_gmm: number,
  rest: { readonly misfit: number | null; readonly circles: readonly TrialCircle[] },
): TrialAnswer {
  return {
    ok: true,
    method,
    correction,
    unbalance: against(correction),
    original,
    effect,
    meanTrial_gmm,
    meeting: polar(effect, radiansFromDegrees(correction.angle_deg)),
    ...rest,
  };
}

const polar = (size: number, angle: number) => ({ x: size * Math.cos(angle), y: size * Math.sin(angle) });
