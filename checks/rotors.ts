import { atmosphere } from '../src/air/atmosphere.ts';
import { runFan } from '../src/air/fan.ts';
import { rotorOfTable } from '../src/air/rotor.ts';
import { formatPercent } from '../src/quantities/format.ts';
import { angularSpeedFromRpm, radiansFromDegrees } from '../src/quantities/units.ts';
import type { Check, Topic } from './check.ts';
import { readTable } from './data.ts';

const SOURCE =
  'Deters, Ananda and Selig, Reynolds Number Effects on the Performance of Small-Scale Propellers, AIAA 2014-2151; geometry and measurements from volume 2 of the University of Illinois data site that goes with it.';

/** 5.0 inches. */
const TIP_RADIUS = 0.127 / 2;

/** Thickness from memory (about a tenth); camber found by fitting these rotors, so it may hide other errors. */
const SECTION = { thickness: 0.1, camber: 0.027, camberPosition: 0.4 };

interface Rotor {
  readonly id: string;
  readonly words: string;
  readonly geometry: string;
  readonly measured: string;
  readonly blades: number;
}

const ROTORS: readonly Rotor[] = [
  {
    id: 'narrow-two-blades',
    words: 'DA4002, two blades',
    geometry: 'da4002_5.0x3.75_geometry.csv',
    measured: 'da4002_5.0x3.75_2blades_static.csv',
    blades: 2,
  },
  {
    id: 'wide-four-blades',
    words: 'DA4022, four blades',
    geometry: 'da4022_5.0x3.75_geometry.csv',
    measured: 'da4022_5.0x3.75_4blades_static.csv',
    blades: 4,
  },
];

interface Coefficients {
  readonly CT: number;
  readonly CP: number;
}

/** CT = T / (rho n^2 D^4) and CP = P / (rho n^3 D^5) of the rotor in still air of the standard day, n in turns a second. */
function coefficients(rotor: Rotor, speed_rpm: number, angleError_deg = 0, camberError = 0): Coefficients {
  const table = readTable(rotor.geometry);
  const inRadii = (name: string) => table.column(name).map((ratio) => ratio * TIP_RADIUS);
  const blades = rotorOfTable(
    {
      radius: inRadii('r_R'),
      chord: inRadii('c_R'),
      angle: table.column('beta_deg').map((angle) => radiansFromDegrees(angle + angleError_deg)),
      ...SECTION,
      camber: SECTION.camber + camberError,
    },
    rotor.blades,
  );
  const air = atmosphere(0);
  const run = runFan(blades, null, air, { omega: angularSpeedFromRpm(speed_rpm), axialSpeed: 0 });
  const n = speed_rpm / 60;
  const diameter = 2 * TIP_RADIUS;
  return {
    CT: run.thrust / (air.density * n ** 2 * diameter ** 4),
    CP: run.shaftPower / (air.density * n ** 3 * diameter ** 5),
  };
}

function curve(rotor: Rotor, name: 'CT' | 'CP', target: number): Check {
  return {
    id: `rotor-${rotor.id}-${name.toLowerCase()}`,
    title: `${name}, ${rotor.words}`,
    unit: '',
    source: SOURCE,
    status: 'read',
    points: () => {
      const table = readTable(rotor.measured);
      const theirs = table.column(name);
      return table.column('rpm').map((rpm, i) => ({
        at: `${Math.round(rpm)} rpm`,
        x: rpm,
        ours: coefficients(rotor, rpm)[name],
        theirs: theirs[i],
      }));
    },
    target: { relative: target },
    judged: 'mean',
    axis: 'speed [rpm]',
  };
}

/** How far the first rotor's coefficients move for a change, as words: "3.6 %". */
function moves(name: keyof Coefficients, angleError_deg: number, camberError: number): string {
  const changed = coefficients(ROTORS[0], 5000, angleError_deg, camberError)[name];
  return formatPercent(Math.abs(changed / coefficients(ROTORS[0], 5000)[name] - 1), 1);
}

export const rotorTopic: Topic = {
  id: 'rotors',
  title: 'Open rotors of known shape, standing still',
  intro: [
    'Two printed research propellers of 127 mm with published chords and blade angles, run on a test stand without forward',
    'speed. Chord Reynolds numbers at three quarters of the radius are about 5 000 to 30 000, which is where small ducted fans',
    'live. **This is not a blind test:** the constants of the section model were fitted, among others, to static runs from',
    'this very paper, and the camber of their section (0.027 of the chord) was found in the same fit, because its coordinates',
    'were not to hand; its thickness (a tenth) is from memory. What such doubts weigh, computed on the first rotor at',
    `5 000 rpm: one degree of blade angle moves CT by ${moves('CT', 1, 0)} and CP by ${moves('CP', 1, 0)}, a hundredth of`,
    `camber moves CT by ${moves('CT', 0, 0.01)} and CP by ${moves('CP', 0, 0.01)}. No model can claim much less on a rotor known from a table.`,
  ].join('\n'),
  checks: ROTORS.flatMap((rotor) => [curve(rotor, 'CT', 0.05), curve(rotor, 'CP', 0.08)]),
};
