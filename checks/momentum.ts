import { atmosphere } from '../src/air/atmosphere.ts';
import { runFan } from '../src/air/fan.ts';
import { idealPower } from '../src/air/momentum.ts';
import { idealPassage } from '../src/air/passage.ts';
import { rotorOfTable } from '../src/air/rotor.ts';
import { findRoot } from '../src/numerics/root.ts';
import type { Topic } from './check.ts';

const SOURCE =
  'Rankine-Froude momentum theory of open and ducted rotors at rest; e.g. Leishman, Principles of Helicopter Aerodynamics, 2nd ed., Cambridge 2006, chapters 2 and 6.';

const EXIT_RATIOS = [0.8, 1, 1.2];
const DENSITY = 1.225;
const AREA = 0.004;

/** [rad/s] */
const OMEGA = 3000;

/** Any blade will do: what is checked holds for all of them. */
const rotor = rotorOfTable(
  {
    radius: [0.011, 0.025, 0.038],
    chord: [0.01, 0.0115, 0.011],
    angle: [0.8, 0.5, 0.35],
    thickness: 0.08,
    camber: 0.05,
    camberPosition: 0.5,
  },
  5,
);

/** The rotor's part of the thrust in a duct without losses. */
function rotorShare(exitRatio: number): number {
  const run = runFan(rotor, idealPassage(exitRatio), atmosphere(0), {
    omega: OMEGA,
    axialSpeed: 0,
    ideal: true,
  });
  return run.rotorThrust / run.thrust;
}

/** Thrust that `power` buys, by the tool's own least-power relation. */
const thrustFor = (power: number, exitRatio: number | null): number =>
  findRoot((thrust) => idealPower(thrust, AREA, exitRatio, DENSITY, 0) - power, 0, 100);

export const momentumTopic: Topic = {
  id: 'momentum',
  title: 'Ideal limits',
  intro: 'What momentum alone allows, with every loss switched off. σ is the exit area over the disc area.',
  checks: [
    {
      id: 'ideal-rotor-share',
      title: 'Share of the thrust on the rotor, lossless duct',
      unit: '',
      source: SOURCE,
      status: 'computed',
      points: () =>
        EXIT_RATIOS.map((ratio) => ({
          at: `σ = ${ratio}`,
          ours: rotorShare(ratio),
          theirs: 1 / (2 * ratio),
        })),
      target: { relative: 1e-6 },
      note: 'from the whole annulus calculation of a five-bladed rotor; the rest of the thrust is on lip and duct.',
    },
    {
      id: 'ideal-thrust-ratio',
      title: 'Thrust over that of the open rotor, equal power',
      unit: '',
      source: SOURCE,
      status: 'computed',
      points: () =>
        EXIT_RATIOS.map((ratio) => ({
          at: `σ = ${ratio}`,
          ours: thrustFor(50, ratio) / thrustFor(50, null),
          theirs: Math.cbrt(2 * ratio),
        })),
      target: { relative: 1e-6 },
    },
    {
      id: 'ideal-power-ratio',
      title: 'Power over that of the open rotor, equal thrust',
      unit: '',
      source: SOURCE,
      status: 'computed',
      points: () =>
        EXIT_RATIOS.map((ratio) => ({
          at: `σ = ${ratio}`,
          ours: idealPower(2, AREA, ratio, DENSITY, 0) / idealPower(2, AREA, null, DENSITY, 0),
          theirs: 1 / Math.sqrt(2 * ratio),
        })),
      target: { relative: 1e-6 },
    },
    {
      id: 'ideal-open-power',
      title: 'Least power of an open rotor, 1 N through 40 cm²',
      unit: 'W',
      source: SOURCE,
      status: 'computed',
      points: () => [
        {
          at: '1.225 kg/m³',
          ours: idealPower(1, AREA, null, DENSITY, 0),
          theirs: 1 / Math.sqrt(2 * DENSITY * AREA),
        },
      ],
      target: { relative: 1e-6 },
    },
  ],
};
