import type { Check, Topic } from './check.ts';
import { readTable } from './data.ts';

const OWN =
  'No outside source: invented rigs of known truth (src/bench/synthetic), run with the whole model; checks/data/diagnosis-cases.csv holds every case.';

interface Case {
  readonly kind: string;
  readonly dominates: string;
  readonly first: string;
  readonly afterOne: string;
  readonly unexplained: boolean;
  readonly inside: number;
  readonly intervals: number;
}

function cases(): Case[] {
  const table = readTable('diagnosis-cases.csv');
  const [kind, dominates, first, afterOne] = ['kind', 'dominates', 'first', 'after_one_test'].map((name) =>
    table.text(name),
  );
  const [unexplained, inside, intervals] = ['unexplained', 'inside', 'intervals'].map((name) =>
    table.column(name),
  );
  return kind.map((k, i) => ({
    kind: k,
    dominates: dominates[i],
    first: first[i],
    afterOne: afterOne[i],
    unexplained: unexplained[i] === 1,
    inside: inside[i],
    intervals: intervals[i],
  }));
}

const share = (part: number, of: number) => (100 * part) / of;
const known = () => cases().filter((c) => c.kind === 'known');

const checks: readonly Check[] = [
  {
    id: 'diagnosis-coverage',
    title: 'Truth inside the 90 % interval, over all unknowns',
    unit: '%',
    source: OWN,
    status: 'computed',
    target: { absolute: 0 },
    points: () => {
      const all = known();
      const inside = all.reduce((sum, c) => sum + c.inside, 0);
      const intervals = all.reduce((sum, c) => sum + c.intervals, 0);
      return [{ at: `${all.length} cases`, ours: share(inside, intervals), theirs: [85, 95] }];
    },
  },
  {
    id: 'diagnosis-first',
    title: 'Leading cause ranked first where one dominates',
    unit: '%',
    source: OWN,
    status: 'computed',
    target: { absolute: 0 },
    note: 'From a sweep alone some causes look the same (a jet on the pan and a blocked inlet, part throttle and a lower speed for each volt); the suggested next measurement tells most of them apart.',
    points: () => {
      const dominated = known().filter((c) => c.dominates !== '');
      const right = (pick: (c: Case) => string) =>
        share(dominated.filter((c) => pick(c) === c.dominates).length, dominated.length);
      return [
        { at: `sweep alone, ${dominated.length} cases`, ours: right((c) => c.first), theirs: [80, 100] },
        { at: 'after one suggested test', ours: right((c) => c.afterOne), theirs: [80, 100] },
      ];
    },
  },
  {
    id: 'diagnosis-unexplained',
    title: 'Called unexplained',
    unit: '%',
    source: OWN,
    status: 'computed',
    target: { absolute: 0 },
    points: () =>
      (['lacking', 'known'] as const).map((kind) => {
        const all = cases().filter((c) => c.kind === kind);
        const said = share(all.filter((c) => c.unexplained).length, all.length);
        return kind === 'lacking'
          ? { at: `${all.length} rigs with a cause the model lacks`, ours: said, theirs: [90, 100] as const }
          : { at: `${all.length} rigs with known causes`, ours: said, theirs: [0, 5] as const };
      }),
  },
];

export const benchDiagnosisTopic: Topic = {
  id: 'bench-diagnosis',
  title: 'Diagnosis of a bench run',
  intro:
    'Rig and diagnosis share one physics, so these figures say that the inference is sound, not that the model is true of a real fan; no measured fan with a known fault was at hand. A cause dominates where it takes at least 15 % of the thrust and twice what any other takes.',
  checks,
};
