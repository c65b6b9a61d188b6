import { liftDrag, sectionStream, zeroLiftPerCamber } from '../src/air/section.ts';
import { degreesFromRadians, radiansFromDegrees } from '../src/quantities/units.ts';
import type { Check, Topic } from './check.ts';
import { readTable } from './data.ts';

const TUNNEL =
  'Selig and others, Summary of Low-Speed Airfoil Data, volume 1, University of Illinois; wind-tunnel polars.';

interface Polar {
  readonly id: string;
  readonly words: string;
  readonly file: string;
  readonly reynolds: number;
  /** Known misses of lift, with the ceiling. */
  readonly missedLift?: Check['missed'];
  readonly shape: { readonly thickness: number; readonly camber: number; readonly camberPosition: number };
}

const NACA_6409 = { thickness: 0.09, camber: 0.06, camberPosition: 0.4 };

const POLARS: readonly Polar[] = [
  {
    id: 'naca6409-61000',
    words: 'NACA 6409, Re 61 000',
    file: 'naca6409.csv',
    reynolds: 61_000,
    shape: NACA_6409,
    missedLift: {
      why: 'In the tunnel the section loses more lift at this Reynolds number than the form takes away, most of all at low and negative angles.',
      ceiling: 0.16,
    },
  },
  {
    id: 'naca6409-200600',
    words: 'NACA 6409, Re 200 600',
    file: 'naca6409.csv',
    reynolds: 200_600,
    shape: NACA_6409,
  },
];

function curve(polar: Polar, name: 'Cl' | 'Cd'): Check {
  return {
    id: `section-${polar.id}-${name.toLowerCase()}`,
    title: `${name}, ${polar.words}`,
    unit: '',
    source: TUNNEL,
    status: 'read',
    points: () => {
      const table = readTable(polar.file);
      const stream = sectionStream({ ...polar.shape, trailingEdge: 0 }, polar.reynolds);
      const theirs = table.column(name);
      const alpha = table.column('alpha_deg');
      return table.column('Re').flatMap((re, i) => {
        if (re !== polar.reynolds) return [];
        const { cl, cd } = liftDrag(stream, radiansFromDegrees(alpha[i]));
        return [{ at: `${alpha[i]}°`, x: alpha[i], ours: name === 'Cl' ? cl : cd, theirs: theirs[i] }];
      });
    },
    target: name === 'Cl' ? { absolute: 0.1 } : { relative: 0.25 },
    judged: 'mean',
    missed: name === 'Cl' ? polar.missedLift : undefined,
    axis: 'angle of attack [°]',
  };
}

export const sectionTopic: Topic = {
  id: 'sections',
  title: 'Blade sections in a wind tunnel',
  intro: [
    'Lift and drag of one cambered section whose shape its name defines, at two Reynolds numbers; mean error along the polar.',
    'Not a blind test: tunnel polars of this collection were among the data that the section model was fitted to.',
  ].join('\n'),
  checks: [
    {
      id: 'section-zero-lift',
      title: 'Zero-lift angle by thin-section theory',
      unit: '°',
      source:
        'Thin-section theory for the NACA four-digit mean line of 2 % camber at 40 % chord; worked example in many textbooks, e.g. Anderson, Fundamentals of Aerodynamics, for 2412.',
      status: 'from memory',
      points: () => [
        { at: '2 % at 40 %', ours: degreesFromRadians(zeroLiftPerCamber(0.4) * 0.02), theirs: -2.08 },
      ],
      target: { absolute: 0.02 },
    },
    ...POLARS.flatMap((polar) => [curve(polar, 'Cl'), curve(polar, 'Cd')]),
  ],
};
