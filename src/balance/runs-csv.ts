import type { BalanceRun } from '../project/schema.ts';
import { balanceRunSchema } from '../project/schema.ts';

/** Runs read from a table, or one sentence that says where it fails. */
export type ReadRuns =
  | { readonly ok: true; readonly runs: readonly BalanceRun[] }
  | { readonly ok: false; readonly message: string };

const KEYS = ['amplitude', 'trialMass_g', 'trialRadius_mm', 'trialAngle_deg', 'phase_deg'] as const;
const MOST_RUNS = 24;

const no = (message: string): ReadRuns => ({ ok: false, message });

/**
 * Runs from CSV: a line of names, which are the keys of the project file, then a line for each run. `phase_deg` may be
 * left out or empty, and so may the rest of the run as it came but its amplitude. Comma, semicolon or tab between;
 * with the last two a decimal comma is taken; lines that begin with # are comments. Total.
 */
export function readRunsCsv(text: string): ReadRuns {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ line: line.trim(), number: i + 1 }))
    .filter(({ line }) => line !== '' && !line.startsWith('#'));
  if (lines.length < 2)
    return no(`The table of runs needs a line of names (${KEYS.join(', ')}) and a line for each run.`);
  if (lines.length - 1 > MOST_RUNS)
    return no(`The table has ${lines.length - 1} runs; at most ${MOST_RUNS} are taken.`);
  const between = ['\t', ';'].find((s) => lines[0].line.includes(s)) ?? ',';
  const cells = (line: string) => line.split(between).map((cell) => cell.trim());
  const head = cells(lines[0].line);
  const column = new Map(KEYS.map((key) => [key, head.indexOf(key)] as const));
  if (column.get('amplitude')! < 0)
    return no(`Line ${lines[0].number} has no column amplitude; the columns are ${KEYS.join(', ')}.`);
  const strange = head.find((name) => !(KEYS as readonly string[]).includes(name));
  if (strange !== undefined)
    return no(
      `Line ${lines[0].number} has the column "${strange.slice(0, 40)}"; the columns are ${KEYS.join(', ')}.`,
    );
  const runs: BalanceRun[] = [];
  for (const { line, number } of lines.slice(1)) {
    const row = cells(line);
    const given: Record<string, number> = {};
    for (const key of KEYS) {
      const cell = row[column.get(key)!] ?? '';
      if (cell === '') continue;
      const plain = between === ',' ? cell : cell.replace(',', '.');
      if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain))
        return no(`Line ${number}: ${key} is "${cell.slice(0, 40)}", which is no number.`);
      given[key] = Number(plain);
    }
    const parsed = balanceRunSchema.safeParse(given);
    if (!parsed.success) {
      const [{ path }] = parsed.error.issues;
      const key = String(path[0]);
      return no(
        given[key] === undefined
          ? `Line ${number} has no ${key}.`
          : `Line ${number}: ${key} is ${given[key]}, which is outside what a run can have.`,
      );
    }
    runs.push(parsed.data);
  }
  return { ok: true, runs };
}
