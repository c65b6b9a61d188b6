import { atmosphere } from '../src/air/atmosphere.ts';
import { runFan } from '../src/air/fan.ts';
import { rotorOfTable } from '../src/air/rotor.ts';
import { angularSpeedFromRpm, radiansFromDegrees } from '../src/quantities/units.ts';
import type { Topic } from './check.ts';

const RADIUS = 1.143;
const CHORD = 0.1905;
/** About one chord of root is bare (from memory). */
const ROOT = 0.19;
const OMEGA = angularSpeedFromRpm(1250);

/** T / (rho A (Omega R)^2) of the untwisted two-bladed rotor at `collective` degrees of blade angle. */
function thrustCoefficient(collective_deg: number): number {
  const angle = radiansFromDegrees(collective_deg);
  const rotor = rotorOfTable(
    {
      radius: [ROOT, RADIUS],
      chord: [CHORD, CHORD],
      angle: [angle, angle],
      thickness: 0.12,
      camber: 0,
      camberPosition: 0.4,
    },
    2,
  );
  const air = atmosphere(0);
  const { thrust } = runFan(rotor, null, air, { omega: OMEGA, axialSpeed: 0 });
  return thrust / (air.density * Math.PI * RADIUS ** 2 * (OMEGA * RADIUS) ** 2);
}

export const hoverTopic: Topic = {
  id: 'hover',
  title: 'A large hovering rotor',
  intro: [
    'An untwisted two-bladed rotor of NACA 0012 section, 2.29 m across, hovering at 1 250 rpm. Nothing in the model was fitted to it, so this one is blind. It is far larger',
    'and faster than anything this tool is for (Reynolds number near two million at the tip).',
  ].join('\n'),
  checks: [
    {
      id: 'hover-thrust',
      title: 'Thrust coefficient T/(ρ A (Ω R)²)',
      unit: '',
      source:
        'Caradonna and Tung, Experimental and Analytical Studies of a Model Helicopter Rotor in Hover, NASA TM 81232, 1981 (geometry read, coefficients from memory).',
      status: 'from memory',
      points: () => [
        { at: '5° blade angle', ours: thrustCoefficient(5), theirs: 0.00213 },
        { at: '8° blade angle', ours: thrustCoefficient(8), theirs: 0.00459 },
      ],
      target: { relative: 0.1 },
      missed: {
        why: 'The wake of a hovering open rotor contracts and its tip vortices pass close under the following blade; the classical tip factor does not know of either, so lightly loaded open rotors come out too strong. Inside a duct the wall holds the stream.',
        ceiling: 0.4,
      },
      note: 'where the tool compares a duct with the same rotor in the open, this error speaks for the open rotor.',
    },
  ],
};
