import { KEPT_SOURCE_CHARACTERS, MOST_BENCH_ROWS, type BenchRow, type BenchRun } from '../project/bench.ts';
import { cellsOf, linesOf } from '../project/table.ts';
import { shorten } from '../project/words.ts';
import { columnReader, type ColumnReader } from './import-column.ts';
import { findFrame, type Frame } from './import-frame.ts';
import { finishRows } from './import-rows.ts';
import { takeColumns, type ColumnTaken, type MapWish } from './import-take.ts';

/** How a log is to be taken. */
export interface ImportOptions {
  /** Name of the file, for the run. */
  readonly name?: string;
  /** What columns are, where the user says so; it goes before what their names say. */
  readonly map?: readonly MapWish[];
  /** Whether a log is thinned to its steady stretches; left out: where it is too long to be readings by hand. */
  readonly thin?: boolean;
}

export type Imported =
  | {
      readonly ok: true;
      readonly rows: BenchRow[];
      /** How every column was taken, to be confirmed. */
      readonly columns: readonly ColumnTaken[];
      /** Readings in the table before any thinning. */
      readonly readings: number;
      readonly thinned: boolean;
      /** What the user should know, in sentences. */
      readonly notes: readonly string[];
      readonly source: BenchRun['source'];
    }
  | { readonly ok: false; readonly message: string };

export interface ImportProgress {
  /** Share of the text read. */
  readonly done: number;
  readonly readings: number;
}

/** Lines between two reports of progress. */
const LINES_A_STEP = 20_000;

/** Takes a log in steps, so that a page stays awake and a person sees it move. Total: any text gives rows or a sentence. */
export function* importSteps(
  text: string,
  options: ImportOptions = {},
): Generator<ImportProgress, Imported, void> {
  const frame = findFrame(text);
  if ('message' in frame) return { ok: false, message: frame.message };
  const taken = takeColumns(frame, options.map ?? []);
  if (!taken.ok) return taken;
  const readers = taken.columns.flatMap((column) =>
    column.as === null ? [] : [columnReader(column, frame)],
  );
  const counts = { readings: 0, passedOver: 0, ragged: 0, firstRagged: 0 };
  let lines = 0;
  for (const line of linesOf(text)) {
    if (line.number < frame.firstLine) continue;
    if (++lines % LINES_A_STEP === 0) yield { done: line.end / text.length, readings: counts.readings };
    takeLine(line.text, line.number, frame, readers, counts);
  }
  yield { done: 1, readings: counts.readings };
  const finished = finishRows(readers, counts.readings, options.thin);
  if (finished.rows.length === 0)
    return { ok: false, message: 'No reading of the table could be taken: every row lacks a number.' };
  const notes = [
    ...taken.notes,
    ...readers.flatMap((reader) => reader.notes()),
    ...(counts.ragged > 0
      ? [
          `${counts.ragged === 1 ? 'One line has' : `${counts.ragged} lines have`} more cells than names (first: line ${counts.firstRagged}); what is past the names was not taken.`,
        ]
      : []),
    ...(counts.passedOver > 0
      ? [
          `${counts.passedOver === 1 ? 'One line without a number was' : `${counts.passedOver} lines without a number were`} passed over.`,
        ]
      : []),
    ...finished.notes,
  ];
  const rows = finished.rows.slice(0, MOST_BENCH_ROWS);
  if (rows.length < finished.rows.length)
    notes.push(
      `A run keeps ${MOST_BENCH_ROWS} readings; the ${finished.rows.length - rows.length} after them were not taken. Let the log be thinned to its steady stretches instead.`,
    );
  return {
    ok: true,
    rows,
    columns: taken.columns.map((column) => ({
      ...column,
      ...(readers.find((r) => r.index === column.index)?.settled() ?? {}),
    })),
    readings: counts.readings,
    thinned: finished.thinned,
    notes,
    source: sourceOf(text, options.name ?? '', taken.columns),
  };
}

/** As `importSteps`, all at once. */
export function importTable(text: string, options: ImportOptions = {}): Imported {
  const steps = importSteps(text, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function takeLine(
  text: string,
  number: number,
  frame: Frame,
  readers: readonly ColumnReader[],
  counts: { readings: number; passedOver: number; ragged: number; firstRagged: number },
): void {
  if (/^\s*"?(#|\/\/)/.test(text)) return;
  const cells = cellsOf(text, frame.between);
  if (cells.length > frame.names.length && cells.slice(frame.names.length).some((cell) => cell !== '')) {
    counts.ragged++;
    if (counts.firstRagged === 0) counts.firstRagged = number;
  }
  let any = false;
  for (const reader of readers) any = reader.take(cells[reader.index] ?? '', counts.readings, number) || any;
  if (any) counts.readings++;
  else {
    counts.passedOver++;
    for (const reader of readers) reader.drop(counts.readings);
  }
}

function sourceOf(text: string, name: string, columns: readonly ColumnTaken[]): BenchRun['source'] {
  return {
    name: shorten(name, 399),
    text: wellFormedStart(text),
    length: text.length,
    columns: columns.slice(0, 400).map((column) => ({
      column: shorten(column.name, 300),
      as: column.as ?? 'not taken',
      unit: shorten(column.unit, 18),
    })),
  };
}

/** The beginning that is kept, not cut within a character. */
const wellFormedStart = (text: string): string =>
  text.length <= KEPT_SOURCE_CHARACTERS
    ? text
    : text.slice(0, KEPT_SOURCE_CHARACTERS).replace(/[\ud800-\udbff]$/, '');
