import { readFileSync } from 'node:fs';
import { prepare } from '../src/bench/diagnose/prepare.ts';
import { SWEEP } from '../src/bench/synthetic/cases.ts';
import { scoreCases, type Scored } from '../src/bench/synthetic/score.ts';
import { readProject } from '../src/project/read.ts';

/** Cases with causes the diagnosis knows, and cases with one it lacks. */
export const KNOWN_CASES = 300;
export const LACKING_CASES = 60;

const SEED = 21;

/** The two demo projects, made ready to be asked. */
const demos = () =>
  ['greenhouse-scout', 'greenhouse-scout-heavy'].map((name) => {
    const file = new URL(`../examples/greenhouse-scout/${name}.fanwright.json`, import.meta.url);
    const read = readProject(readFileSync(file));
    if (!read.ok) throw new Error(`the project ${name} does not read`);
    return prepare(read.project);
  });

/** One row a case: what was true, what was said from the readings, and after one suggested test. */
export function casesTable(known: number, lacking: number): string {
  const prepared = demos();
  const rows = [
    ...scoreCases(prepared, { count: known, seed: SEED, plan: SWEEP, tests: 1 }).map((s) => row('known', s)),
    ...scoreCases(prepared, { count: lacking, seed: SEED + 1, plan: SWEEP, tests: 0, lacks: true }).map((s) =>
      row('lacking', s),
    ),
  ];
  return `${[
    '# Invented rigs of known truth and what the diagnosis said; written by scripts/diagnosis-cases.ts, not by hand.',
    'kind,causes,dominates,first,after_one_test,unexplained,inside,intervals',
    ...rows,
  ].join('\n')}\n`;
}

function row(kind: string, { truth, dominated, firsts, unexplained, inside }: Scored): string {
  const flags = Object.values(inside);
  return [
    kind,
    truth.lacks?.id ?? (truth.causes.join('+') || 'none'),
    dominated ?? '',
    firsts[0] ?? '',
    firsts[1] ?? '',
    unexplained ? 1 : 0,
    flags.filter(Boolean).length,
    flags.length,
  ].join(',');
}
