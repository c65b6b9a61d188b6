import {
  gmmFromKilogramMetres,
  permissibleEccentricity,
  permissibleUnbalance,
} from '../src/balance/grade.ts';
import { readTrialRuns } from '../src/balance/trial-runs.ts';
import type { BalanceRun } from '../src/project/schema.ts';
import { angularSpeedFromRpm } from '../src/quantities/units.ts';
import type { Topic } from './check.ts';

const STANDARD =
  'ISO 21940-11, Mechanical vibration: rotor balancing, procedures and tolerances for rotors with rigid behaviour: G = e_per Ω, so e_per [g mm/kg] = 9549 G / n [rpm].';
const SHREVE =
  'Shreve, Balancing Without Phase, reliabilityweb.com: readings of a worked four-run example (original 10 mils; 50 g at 0°, 120° and 240° give 7, 12 and 18 mils).';
const VAUGHAN =
  'Vaughan, Static and Dynamic Balancing Using Portable Measuring Equipment, application note 17-227: worked example in one plane (3.4 mm/s at 116°; with 2 g at 0°, 1.8 mm/s at 42°).';

const run = (
  amplitude: number,
  trialMass_g: number,
  trialAngle_deg: number,
  phase_deg: number | null = null,
): BalanceRun => ({ amplitude, trialMass_g, trialRadius_mm: 1, trialAngle_deg, phase_deg });

/** Correction mass at the radius of the trial mass, and its place as an angle within half a turn of 0. */
function correctionOf(runs: readonly BalanceRun[]) {
  const found = readTrialRuns(runs);
  if (!found.ok) throw new Error(found.message);
  const { amount_gmm, angle_deg } = found.correction;
  return { mass_g: amount_gmm, angle_deg: angle_deg > 180 ? angle_deg - 360 : angle_deg };
}

const FOUR_RUNS = [run(10, 0, 0), run(7, 50, 0), run(12, 50, 120), run(18, 50, 240)];

/**
 * The textbook's shortcut for three places a third of a turn apart, worked out here from his readings: the squares of the
 * trial amplitudes have the mean O^2 + E^2, and their unevenness points to the correction.
 */
function shortcut() {
  const [original, ...trials] = FOUR_RUNS;
  const mean = trials.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0) / 3;
  const along = (part: (t: number) => number) =>
    trials.reduce((sum, t) => sum - t.amplitude ** 2 * part((t.trialAngle_deg * Math.PI) / 180), 0);
  return {
    mass_g: (50 * original.amplitude) / Math.sqrt(mean - original.amplitude ** 2),
    angle_deg: (Math.atan2(along(Math.sin), along(Math.cos)) * 180) / Math.PI,
  };
}

/** Runs of a rotor whose answer is known: unbalance `ratio` trial masses at `heavy_deg`, by the law of cosines. */
const made = (ratio: number, heavy_deg: number): BalanceRun[] => [
  run(ratio, 0, 0),
  ...[0, 120, 240].map((place) =>
    run(Math.sqrt(ratio ** 2 + 1 + 2 * ratio * Math.cos(((place - heavy_deg) * Math.PI) / 180)), 1, place),
  ),
];

export const balanceTopic: Topic = {
  id: 'balance',
  title: 'Balance',
  intro: 'Permissible unbalance, and corrections found from trial runs with and without phase.',
  checks: [
    {
      id: 'balance-grade-eccentricity',
      title: 'Permissible eccentricity at 3000 rpm',
      unit: 'g mm/kg',
      source: STANDARD,
      status: 'computed',
      points: () =>
        [
          [6.3, 20.05],
          [16, 50.93],
        ].map(([grade, theirs]) => ({
          at: `G ${grade}`,
          ours: permissibleEccentricity(grade, angularSpeedFromRpm(3000)) * 1e6,
          theirs,
        })),
      target: { relative: 0.01 },
    },
    {
      id: 'balance-grade-unbalance',
      title: 'Permissible unbalance of a 20 g rotor at 40 000 rpm',
      unit: 'g mm',
      source: STANDARD,
      status: 'computed',
      points: () =>
        [
          [6.3, 0.0301],
          [16, 0.0764],
        ].map(([grade, theirs]) => ({
          at: `G ${grade}`,
          ours: gmmFromKilogramMetres(permissibleUnbalance(0.02, grade, angularSpeedFromRpm(40_000))),
          theirs,
        })),
      target: { relative: 0.01 },
    },
    {
      id: 'balance-four-runs-mass',
      title: 'Correction mass from four runs without phase',
      unit: 'g',
      source: SHREVE,
      status: 'computed',
      points: () => [{ at: 'four runs', ours: correctionOf(FOUR_RUNS).mass_g, theirs: shortcut().mass_g }],
      target: { relative: 0.01 },
      note: 'His readings were read; what stands against ours is worked out from them by the shortcut for equal thirds of a turn.',
    },
    {
      id: 'balance-four-runs-angle',
      title: 'Place of that mass past the first trial place',
      unit: '°',
      source: SHREVE,
      status: 'computed',
      points: () => [
        { at: 'four runs', ours: correctionOf(FOUR_RUNS).angle_deg, theirs: shortcut().angle_deg },
      ],
      target: { absolute: 3 },
      note: 'His circles do not quite meet: the readings miss each other by 3 % of the first, and two ways of evening that out differ by 2°.',
    },
    {
      id: 'balance-four-runs-made',
      title: 'Correction over trial mass, from amplitudes made for a known unbalance',
      unit: '',
      source: 'Law of cosines on the vibration of rotor and trial mass together, computed here.',
      status: 'computed',
      points: () =>
        [
          [0.4, 20],
          [1.176, 220],
          [3, 305],
        ].map(([ratio, heavy]) => ({
          at: `${ratio} at ${heavy}°`,
          ours: correctionOf(made(ratio, heavy)).mass_g,
          theirs: ratio,
        })),
      target: { relative: 0.0001 },
    },
    {
      id: 'balance-phase-mass',
      title: 'Correction mass by influence coefficient',
      unit: 'g',
      source: VAUGHAN,
      status: 'from memory',
      points: () => [
        {
          at: 'one plane',
          ours: correctionOf([run(3.4, 0, 0, 116), run(1.8, 2, 0, 42)]).mass_g,
          theirs: 2,
        },
      ],
      target: { relative: 0.01 },
    },
    {
      id: 'balance-phase-angle',
      title: 'Place of that mass past the trial mass',
      unit: '°',
      source: VAUGHAN,
      status: 'from memory',
      points: () => [
        {
          at: 'one plane',
          ours: correctionOf([run(3.4, 0, 0, 116), run(1.8, 2, 0, 42)]).angle_deg,
          theirs: -31,
        },
      ],
      target: { absolute: 1 },
      note: 'The readings were read; mass and place of the answer are from memory.',
    },
  ],
};
