import { appendFileSync } from 'node:fs';
import type { Project } from '../project/schema.ts';
import { formatMinutes, formatNumber as n, formatPercent } from '../quantities/format.ts';
import type { Figures } from '../study/figures.ts';
import { inOrder } from '../study/pool/pool.ts';
import { sweepTasks } from '../study/pool/task.ts';
import {
  designCount,
  evenValues,
  figuresIn,
  sweepPlan,
  valuesAt,
  type SweepPlan,
  type Vary,
} from '../study/sweep.ts';
import { sweepHeading, sweepLines, tableState } from '../study/sweep-table.ts';
import { BadInput } from './fault.ts';
import { fromHere, plainText, readBytes, refuseToReplace, writeWhole } from './files.ts';
import type { Io } from './io.ts';
import { threadPool } from './pool.ts';
import { columns, wrap } from './text.ts';

export interface SweepRequest {
  readonly vary: readonly string[];
  readonly sound: boolean;
  readonly jobs: number;
  readonly csv?: string;
  readonly resume?: string;
  readonly force?: boolean;
  readonly json?: boolean;
  /** Files this run reads, never to be written over. */
  readonly inputs: readonly string[];
}

/** Designs printed one by one; of more, only the best of each kind. */
const MOST_ROWS = 60;

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** "fan.tipGap_mm=0.3:0.8:6" */
export function varyFrom(text: string): Vary {
  const [path, range = ''] = text.split(/=(.*)/s);
  const parts = range.split(':').map((p) => (NUMBER.test(p.trim()) ? Number(p) : NaN));
  const [from, to, count] = parts;
  if (parts.length !== 3 || parts.some(Number.isNaN) || !Number.isInteger(count) || count < 2 || count > 1e6)
    throw new BadInput(
      `--vary is "${text.slice(0, 60)}"; it must be path=from:to:n with n from 2 values on, as in fan.tipDiameter_mm=55:75:21.`,
    );
  return { path: path.trim(), values: evenValues(path.trim(), from, to, count) };
}

/** Runs a sweep on threads and writes it as it goes. */
export async function runSweep(io: Io, project: Project, request: SweepRequest): Promise<void> {
  const made = sweepPlan(project, request.vary.map(varyFrom), { sound: request.sound });
  if (!made.ok) throw new BadInput(`--vary: ${made.why}`);
  const { plan } = made;
  const count = designCount(plan);
  const { file, done } = tableOf(plan, request);
  const pool = threadPool(Math.min(request.jobs, Math.ceil((count - done) / 64)));
  const kept: Row[] = [];
  try {
    if (request.json) io.out('[');
    for await (const block of inOrder(pool, sweepTasks(plan, done, count))) {
      if (file !== null) appendFileSync(fromHere(file), sweepLines(plan, block));
      for (let i = block.from; i < block.to; i++) {
        const row = { values: valuesAt(plan, i), figures: figuresIn(block, i) };
        if (request.json) io.out(`${i > done ? ',' : ''}\n${jsonRow(plan, row)}`);
        else keep(kept, row, count, project);
      }
      if (process.stderr.isTTY) process.stderr.write(`\r${block.to} of ${count} designs`);
    }
    if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');
  } finally {
    pool.dispose();
  }
  if (request.json) io.out('\n]\n');
  else io.out(sweepText(project, plan, kept, { count, done, file }));
}

interface Row {
  readonly values: readonly number[];
  readonly figures: Figures;
}

/** The table to write to, with its heading in it, and how many designs it holds already. */
function tableOf(plan: SweepPlan, { csv, resume, force, inputs }: SweepRequest) {
  if (csv !== undefined && resume !== undefined)
    throw new BadInput('Give --csv for a new table or --resume to carry one on, not both.');
  if (resume !== undefined) {
    const text = plainText(readBytes(resume), resume, 'the table of a sweep');
    const state = tableState(plan, text);
    if (!state.ok)
      throw new BadInput(`${resume} cannot be carried on: ${state.why}; give --csv for a new table.`);
    writeWhole(resume, text.slice(0, text.lastIndexOf('\n') + 1));
    return { file: resume, done: state.done };
  }
  if (csv === undefined) return { file: null, done: 0 };
  refuseToReplace(csv, force, inputs);
  writeWhole(csv, `${sweepHeading(plan)}\n`);
  return { file: csv, done: 0 };
}

function jsonRow({ varies }: SweepPlan, { values, figures }: Row): string {
  const inputs = Object.fromEntries(varies.map((v, i) => [v.path, values[i]]));
  return `  ${JSON.stringify({ inputs, ...figures })}`;
}

const meets = (project: Project, f: Figures): boolean =>
  f.faults === 0 &&
  f.thrustToWeight >= 1 &&
  f.hover_min >= project.brief.wanted_min &&
  f.outerWidth_mm <= project.brief.largestDuctWidth_mm &&
  !(f.speedMargin ** 2 < project.fan.safetyFactor);

/** What a long sweep is told by: the best design of each kind. */
const KINDS: readonly (readonly [name: string, better: (a: Figures, b: Figures) => boolean])[] = [
  ['longest hover', (a, b) => a.hover_min > b.hover_min],
  ['most thrust over weight', (a, b) => a.thrustToWeight > b.thrustToWeight],
  ['quietest', (a, b) => a.level_dBA < b.level_dBA],
];

/** Keeps all rows of a short sweep; of a long one, the best of each kind that meets the brief. */
function keep(kept: Row[], row: Row, count: number, project: Project): void {
  if (count <= MOST_ROWS) {
    kept.push(row);
    return;
  }
  if (!meets(project, row.figures)) return;
  KINDS.forEach(([, better], i) => {
    if (kept[i] === undefined || better(row.figures, kept[i].figures)) kept[i] = row;
  });
}

const HEAD = ['lifts', 'throttle', 'hover', 'mass', 'width', 'strength', 'sound', 'brief'];

function cells(project: Project, { values, figures: f }: Row): string[] {
  const missing = '-';
  const shown = (value: number, text: (v: number) => string) =>
    Number.isFinite(value) ? text(value) : missing;
  return [
    ...values.map((v) => String(Number(v.toPrecision(5)))),
    n(f.thrustToWeight),
    shown(f.hoverThrottle, (v) => formatPercent(v)),
    f.hover_min > 0 ? formatMinutes(f.hover_min) : missing,
    `${n(f.mass_g)} g`,
    `${n(f.outerWidth_mm)} mm`,
    shown(f.speedMargin, (v) => n(v)),
    shown(f.level_dBA, (v) => `${v.toFixed(0)} dB`),
    f.faults > 0 ? 'not built' : meets(project, f) ? 'met' : '',
  ];
}

function sweepText(
  project: Project,
  plan: SweepPlan,
  rows: readonly Row[],
  { count, done, file }: { readonly count: number; readonly done: number; readonly file: string | null },
): string {
  const names = plan.varies.map((v) => v.path);
  const long = count > MOST_ROWS;
  const carried = done > 0 ? `, ${done} of them done before` : '';
  const table = columns(
    [
      [...(long ? [''] : []), ...names, ...HEAD],
      ...rows.map((row, i) => [...(long ? [KINDS[i][0]] : []), ...cells(project, row)]),
    ],
    long ? [0] : [],
  );
  const none = `None of them meets the brief (minutes, width, strength); the table has them all.\n`;
  const note =
    'Lifts: thrust over weight at full throttle. Strength: speed at which the rotor fails over its fastest. Sound: in hover at 3 m. Brief: whether minutes, width and strength are met and nothing keeps it from being built.';
  return (
    `${project.name}: ${count} designs${carried}\n\n` +
    (long && rows.length === 0
      ? none
      : (long ? `Best that meet the brief${done > 0 ? ', of those done now' : ''}\n` : '') +
        table +
        '\n' +
        wrap(note)) +
    (file === null ? (long ? wrap('--csv FILE keeps every design.') : '') : `\nWrote ${file}.\n`)
  );
}
