import { sobolPoints } from '../src/numerics/sobol.ts';
import { frontOf, search, searchFrom, type Variable } from '../src/study/optimise.ts';
import { sobolIndices } from '../src/study/sensitivity.ts';
import type { Check, Point, Topic } from './check.ts';

const ZITZLER =
  'Zitzler, Deb and Thiele, Comparison of multiobjective evolutionary algorithms, Evolutionary Computation 8, 2000, 173-195: fronts of problems 1 to 3.';
const BINH =
  'Binh and Korn, MOBES: a multiobjective evolution strategy for constrained optimization problems, MENDEL 1997, 176-182.';
const ISHIGAMI =
  'Ishigami and Homma, ISUMA 1990; exact shares by integration, as in Saltelli et al., Global Sensitivity Analysis: The Primer, Wiley 2008.';

const VARIABLES = 30;
const RUNS = 25_000;

const unit: readonly Variable[] = Array.from({ length: VARIABLES }, (_, i) => ({
  name: `x${i + 1}`,
  low: 0,
  high: 1,
  whole: false,
}));

/** The front a search finds, by its first objective. */
function foundFront(
  variables: readonly Variable[],
  score: Parameters<typeof search>[1],
  evaluations: number,
): readonly (readonly number[])[] {
  return frontOf(search(variables, score, searchFrom(1, 100), evaluations).members)
    .map((m) => m.objectives)
    .toSorted((a, b) => a[0] - b[0]);
}

/** Second objective of the found front at some first ones, against the exact front there. */
function onFront(front: readonly (readonly number[])[], exact: (f1: number) => number): Point[] {
  return [0.05, 0.25, 0.5, 0.75, 0.95].map((share) => {
    const [f1, f2] = front[Math.round(share * (front.length - 1))];
    return { at: `${Math.round(share * 100)} % along`, ours: f2, theirs: exact(f1) };
  });
}

/** One of the three problems: f2 = g h(f1, g) with g from the other 29 variables, 1 on the front. */
function zdt(number: 1 | 2 | 3): Point[] {
  const h = (f1: number, g: number) =>
    number === 2
      ? 1 - (f1 / g) ** 2
      : 1 - Math.sqrt(f1 / g) - (number === 3 ? (f1 / g) * Math.sin(10 * Math.PI * f1) : 0);
  const front = foundFront(
    unit,
    (x) => {
      const g = 1 + (9 * x.slice(1).reduce((a, b) => a + b, 0)) / (VARIABLES - 1);
      return { objectives: [x[0], g * h(x[0], g)], violation: 0 };
    },
    RUNS,
  );
  return onFront(front, (f1) => h(f1, 1));
}

/** `extent`: how far the front reaches in its second objective; the target is a hundredth of it. */
const zdtCheck = (number: 1 | 2 | 3, shape: string, extent: number): Check => ({
  id: `front-${number}`,
  title: `Second objective on the front of test problem ${number} (${shape}), 30 variables, ${RUNS} runs`,
  unit: '',
  source: ZITZLER,
  status: 'from memory',
  points: () => zdt(number),
  target: { absolute: 0.01 * extent },
});

const binhKorn: Check = {
  id: 'front-limits',
  title: 'Second objective on the front of a problem with two limits, 2 000 runs',
  unit: '',
  source: `${BINH} Its front lies at x = y up to 3, then y = 3.`,
  status: 'from memory',
  points: () => {
    const front = foundFront(
      [
        { name: 'x', low: 0, high: 5, whole: false },
        { name: 'y', low: 0, high: 3, whole: false },
      ],
      ([x, y]) => ({
        objectives: [4 * x * x + 4 * y * y, (x - 5) ** 2 + (y - 5) ** 2],
        violation: Math.max(0, (x - 5) ** 2 + y * y - 25) + Math.max(0, 7.7 - (x - 8) ** 2 - (y + 3) ** 2),
      }),
      2000,
    );
    return onFront(front, (f1) => {
      const equal = Math.sqrt(f1 / 8);
      const [x, y] = equal <= 3 ? [equal, equal] : [Math.sqrt(f1 / 4 - 9), 3];
      return (x - 5) ** 2 + (y - 5) ** 2;
    });
  },
  // A hundredth of the front's reach, 4 to 50.
  target: { absolute: 0.46 },
};

const [A, B] = [7, 0.1];
const variance = A ** 2 / 8 + (B * Math.PI ** 4) / 5 + (B ** 2 * Math.PI ** 8) / 18 + 0.5;
const alone = [0.5 * (1 + (B * Math.PI ** 4) / 5) ** 2, A ** 2 / 8, 0].map((v) => v / variance);
const together = (B ** 2 * Math.PI ** 8 * 8) / 225 / variance;

const shares = () =>
  sobolIndices(
    (u) => {
      const [x, y, z] = Array.from(u, (v) => Math.PI * (2 * v - 1));
      return [Math.sin(x) + A * Math.sin(y) ** 2 + B * z ** 4 * Math.sin(x)];
    },
    sobolPoints(6, 4096, 1),
    3,
  )[0];

const sharesCheck = (id: string, title: string, of: 'first' | 'total', theirs: readonly number[]): Check => ({
  id,
  title,
  unit: '',
  source: ISHIGAMI,
  status: 'computed',
  points: () => Array.from(shares()[of], (ours, i) => ({ at: `x${i + 1}`, ours, theirs: theirs[i] })),
  target: { absolute: 0.01 },
});

export const studyTopic: Topic = {
  id: 'studies',
  title: 'Studies',
  intro:
    'The search for better designs on test problems whose fronts are known, and the ranking of unknowns on a function whose shares are known.',
  checks: [
    zdtCheck(1, 'convex', 1),
    zdtCheck(2, 'hollow', 1),
    zdtCheck(3, 'in pieces', 1.773),
    binhKorn,
    sharesCheck('shares-alone', 'Share of the variance each input brings alone', 'first', alone),
    sharesCheck('shares-total', 'The same with all it does together with others', 'total', [
      alone[0] + together,
      alone[1],
      together,
    ]),
  ],
};
