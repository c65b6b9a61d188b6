import { atmosphere } from '../src/air/atmosphere.ts';
import type { RotorAir } from '../src/air/rotor.ts';
import type { SectionConstants } from '../src/air/section-constants.ts';
import { formatPercent } from '../src/quantities/format.ts';
import { angularSpeedFromRpm } from '../src/quantities/units.ts';
import type { Check, Picture, Point, Series, Summary, Topic } from './check.ts';
import {
  ADVANCE_ROTOR,
  bladeOf,
  computedPoint,
  measuredPoints,
  STATIC_ROTORS,
  type MeasuredRotor,
  type SectionFit,
} from './rotor-data.ts';
import { fitOfAll, fitWithout } from './rotor-fits.ts';
import { ROTOR_MISSES } from './rotor-misses.ts';

const SOURCE =
  'Deters, Ananda and Selig, Reynolds Number Effects on the Performance of Small-Scale Propellers, AIAA 2014-2151; geometry and measurements from volume 2 of the University of Illinois data site that goes with it.';

type Name = 'CT' | 'CP';
const TARGET = { CT: 0.05, CP: 0.08 };
/** Near zero thrust a ratio means nothing: errors in axial flow are on these. */
const TYPICAL = { CT: 0.1, CP: 0.08 };

/** The two ways each rotor is computed. */
const WAYS = [
  { id: '', words: 'constants in use', fit: () => fitOfAll },
  { id: '-blind', words: 'blind', fit: fitWithout },
] as const;
type Way = (typeof WAYS)[number];

function comparison(rotor: MeasuredRotor, { fit }: Way, name: Name): Point[] {
  const { constants, camber } = fit(rotor);
  const blade = bladeOf(rotor, camber[rotor.section]);
  return measuredPoints(rotor).map((point) => ({
    at: rotor.advance ? `J ${point.J.toFixed(2)}` : `${Math.round(point.rpm)} rpm`,
    x: rotor.advance ? point.J : point.rpm,
    ours: computedPoint(blade, rotor.diameter, point, constants)[name],
    theirs: point[name],
  }));
}

function curve(rotor: MeasuredRotor, way: Way, name: Name): Check {
  const id = `rotor-${rotor.id}-${name.toLowerCase()}${way.id}`;
  return {
    id,
    title: `${name}, ${rotor.words}, ${way.words}`,
    unit: '',
    source: SOURCE,
    status: 'read',
    points: () => comparison(rotor, way, name),
    target: rotor.advance ? { absolute: TARGET[name] * TYPICAL[name] } : { relative: TARGET[name] },
    judged: 'mean',
    missed: ROTOR_MISSES[id],
    axis: rotor.advance ? 'advance ratio J' : 'speed [rpm]',
    inPicture: true,
  };
}

function picture(rotor: MeasuredRotor, name: Name): Picture {
  return {
    id: `rotor-${rotor.id}-${name.toLowerCase()}`,
    title: `${name}, ${rotor.words}, computed and measured`,
    xLabel: rotor.advance ? 'advance ratio J' : 'speed [rpm]',
    yLabel: `${name}, ${rotor.words}`,
    series: rotor.advance ? bySpeed(rotor, name) : bothWays(rotor, name),
  };
}

function bothWays(rotor: MeasuredRotor, name: Name): Series[] {
  const [inUse, blind] = WAYS.map((way) => comparison(rotor, way, name));
  const ours = (points: readonly Point[]) => points.map((p) => ({ x: p.x ?? 0, y: p.ours }));
  return [
    { name: 'line: computed; broken: computed blind', kind: 'line', colour: 0, points: ours(inUse) },
    { name: '', kind: 'broken', colour: 0, points: ours(blind) },
    {
      name: 'circles: measured',
      kind: 'circles',
      colour: 1,
      points: measuredPoints(rotor).map((p) => ({ x: p.rpm, y: p[name] })),
    },
  ];
}

/** With the constants in use alone: the blind ones lie on top of them. */
function bySpeed(rotor: MeasuredRotor, name: Name): Series[] {
  const measured = measuredPoints(rotor);
  const computed = comparison(rotor, WAYS[0], name);
  const speeds = [...new Set(measured.map(({ rpm }) => rpm))];
  return speeds.flatMap((rpm, colour): Series[] => {
    const at = measured.flatMap((p, i) =>
      p.rpm === rpm ? [{ x: p.J, ours: computed[i].ours, theirs: p[name] }] : [],
    );
    return [
      {
        name: `${Math.round(rpm)} rpm: line computed, circles measured`,
        kind: 'line',
        colour,
        points: at.map(({ x, ours }) => ({ x, y: ours })),
      },
      { name: '', kind: 'circles', colour, points: at.map(({ x, theirs }) => ({ x, y: theirs })) },
    ];
  });
}

/** Edges of the bands of chord Reynolds number at three quarters of the radius. */
const BANDS = [0, 10_000, 20_000, 40_000, 100_000];

/** Chord Reynolds number at three quarters of the radius, from the blade's speed alone. */
function reynoldsOf(blade: RotorAir, rpm: number): number {
  const wanted = 0.75 * blade.tipRadius;
  const nearest = blade.radius.reduce(
    (best, r, i) => (Math.abs(r - wanted) < Math.abs(blade.radius[best] - wanted) ? i : best),
    0,
  );
  const air = atmosphere(0);
  return (air.density * angularSpeedFromRpm(rpm) * wanted * blade.chord[nearest]) / air.viscosity;
}

const rms = (list: readonly number[]): string =>
  formatPercent(Math.sqrt(list.reduce((sum, x) => sum + x * x, 0) / list.length), 1);

/** Root mean square of the relative error of the static runs, by band of Reynolds number. */
function spread(): Summary {
  const points = STATIC_ROTORS.flatMap((rotor) => {
    const blade = bladeOf(rotor, fitOfAll.camber[rotor.section]);
    const errors = (way: Way, name: Name) =>
      comparison(rotor, way, name).map(({ ours, theirs }) => ours / (theirs as number) - 1);
    const columns = WAYS.flatMap((way) => [errors(way, 'CT'), errors(way, 'CP')]);
    return measuredPoints(rotor).map(({ rpm }, i) => ({
      reynolds: reynoldsOf(blade, rpm),
      errors: columns.map((column) => column[i]),
    }));
  });
  const line = (words: string, among: typeof points) => [
    words,
    String(among.length),
    ...[0, 1, 2, 3].map((column) => rms(among.map((p) => p.errors[column]))),
  ];
  const thousands = (re: number) => `${re / 1000} 000`;
  const rows = BANDS.slice(1).flatMap((high, i) => {
    const low = BANDS[i];
    const among = points.filter(({ reynolds }) => reynolds >= low && reynolds < high);
    return among.length > 0
      ? [line(low === 0 ? `below ${thousands(high)}` : `${thousands(low)} to ${thousands(high)}`, among)]
      : [];
  });
  return {
    title:
      'Spread of the whole rotor calculation by chord Reynolds number at three quarters of the radius: root mean square of the relative error over all static runs.',
    head: ['Reynolds number', 'points', 'CT', 'CP', 'CT, blind', 'CP, blind'],
    rows: [...rows, line('all', points)],
  };
}

/** The constants in use beside the lowest and highest of the fits that left a rotor out. */
function constantsTable(): Summary {
  const blind = STATIC_ROTORS.map(fitWithout);
  const line = (words: string, value: (fit: SectionFit) => number) => {
    const others = blind.map(value);
    return [words, String(value(fitOfAll)), `${Math.min(...others)} to ${Math.max(...others)}`];
  };
  const keys = Object.keys(fitOfAll.constants) as (keyof SectionConstants)[];
  return {
    title:
      'The constants of the section form (docs/theory.md, section 5) and the two fitted cambers, and how far they move when one rotor geometry is left out. Angles in rad.',
    head: ['constant', 'in use', 'one left out'],
    rows: [
      ...keys.map((key) => line(key, ({ constants }) => constants[key])),
      line('camber, DA sections', ({ camber }) => camber.first),
      line('camber, NR640', ({ camber }) => camber.second),
    ],
  };
}

/** The rotor that the doubts are worked out on. */
const TYPICAL_ROTOR = STATIC_ROTORS[1];

/** How far its coefficients at 5 000 rpm move for a change, as words: "3.6 %". */
function moves(name: Name, angleError_deg: number, camberError: number): string {
  const at = (angle: number, camber: number) =>
    computedPoint(
      bladeOf(TYPICAL_ROTOR, fitOfAll.camber[TYPICAL_ROTOR.section] + camber, angle),
      TYPICAL_ROTOR.diameter,
      { rpm: 5000, J: 0 },
      fitOfAll.constants,
    )[name];
  return formatPercent(Math.abs(at(angleError_deg, camberError) / at(0, 0) - 1), 1);
}

const camberWords = ({ camber }: SectionFit, section: MeasuredRotor['section']): string =>
  camber[section].toFixed(4);

const NR640 = STATIC_ROTORS[5];

export const rotorTopic: Topic = {
  id: 'rotors',
  title: 'Open rotors of known shape',
  intro: [
    'Seven static runs of five printed research propellers with published chords and blade angles, and one propeller in axial flow.',
    'Chord Reynolds numbers at three quarters of the radius are 4 000 to 75 000, which is where small ducted fans live. Each is shown two',
    'ways. **Constants in use**: those the tool works with, fitted to these very runs together with tunnel polars, so this is no test but a measure',
    'of how much the form can take up. **Blind**: constants and cambers from a fit that never saw that geometry, in no run of it. Even the blind',
    'numbers are not wholly innocent: the terms of the form were chosen, and its fixed widths tried, with all these runs in sight; the open',
    'rotor’s tip factor has one constant, set on another rotor (next but one topic). The coordinates of the two sections were not to hand, so thickness is from memory and',
    `camber comes out of the same fits: ${camberWords(fitOfAll, 'first')} of the chord for the DA sections, ${camberWords(fitOfAll, 'second')} for the NR640, whose section is only known as much like a`,
    `Clark Y of 0.0355; blind it is ${camberWords(fitWithout(NR640), 'second')}. A camber that far from what was expected is likely to hide other errors.`,
    '',
    `What such doubts weigh, computed on the ${TYPICAL_ROTOR.words} at 5 000 rpm: one degree of blade angle moves CT by ${moves('CT', 1, 0)} and CP by ${moves('CP', 1, 0)}, a hundredth`,
    `of camber moves CT by ${moves('CT', 0, 0.01)} and CP by ${moves('CP', 0, 0.01)}. No model can claim much less on a rotor known from a table.`,
  ].join('\n'),
  checks: [...STATIC_ROTORS, ADVANCE_ROTOR].flatMap((rotor) =>
    WAYS.flatMap((way) => [curve(rotor, way, 'CT'), curve(rotor, way, 'CP')]),
  ),
  summaries: () => [spread(), constantsTable()],
  pictures: () =>
    [...STATIC_ROTORS, ADVANCE_ROTOR].flatMap((rotor) => [picture(rotor, 'CT'), picture(rotor, 'CP')]),
};
