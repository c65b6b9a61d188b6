import {
  cellsOf,
  linesOf,
  numberInCell,
  type Between,
  type Decimal,
  type TableLine,
} from '../project/table.ts';
import { isBlank, numberWithUnit, stampInCell, withoutRemark } from './import-cells.ts';
import { bareUnit, isUnitLine } from './import-columns.ts';

/** How a table is laid out, found from its first lines. */
export interface Frame {
  readonly between: Between;
  readonly decimal: Decimal;
  /** Names of the columns; "column 2" where the table gives none. */
  readonly names: readonly string[];
  /** Units from a line of their own under the names; '' where none. */
  readonly units: readonly string[];
  readonly named: boolean;
  /** Number of the first line of readings. */
  readonly firstLine: number;
  /** First readings, to guess from. */
  readonly sample: readonly (readonly string[])[];
}

/** Lines looked at to find the layout. */
const LOOKED_AT = 400;
const CANDIDATES: readonly Between[] = ['\t', ';', ',', 'spaces', 'space', ''];

const isComment = (text: string): boolean => /^\s*"?(#|\/\/)/.test(text);

const readable = (cell: string): boolean =>
  !Number.isNaN(numberInCell(cell, '.')) ||
  !Number.isNaN(numberInCell(cell, ',')) ||
  stampInCell(cell, false) !== null ||
  numberWithUnit(cell, '.') !== null ||
  numberWithUnit(cell, ',') !== null;

interface Scored {
  readonly between: Between;
  readonly width: number;
  readonly score: number;
}

/** The layout of a table, or the sentence that says why it has none. Total. */
export function findFrame(text: string): Frame | { readonly message: string } {
  const lines: TableLine[] = [];
  for (const line of linesOf(text)) {
    lines.push(line);
    if (lines.length >= LOOKED_AT) break;
  }
  const body = lines.filter((line) => !isComment(line.text));
  if (body.length === 0)
    return {
      message: 'The table is empty; it needs a line of names, such as throttle and scale, and readings.',
    };
  const best = CANDIDATES.map((between) => scored(body, between)).reduce((a, b) =>
    b.score > a.score + 1e-9 ? b : a,
  );
  if (best.score === 0)
    return { message: 'No line of the table holds a number; it needs readings below a line of names.' };
  const { between, width } = best;
  const first = body.findIndex(({ text: line }) => isReading(cellsOf(line, between), width));
  const start = body[Math.max(0, first)];
  const above = lines.filter(
    (line) => line.number < start.number && cellsOf(uncommented(line.text), between).length > 0,
  );
  const heads = above
    .map((line) => cellsOf(uncommented(line.text), between))
    .filter((cells) => {
      const said = cells.filter((cell) => cell !== '').length;
      return said >= Math.max(1, Math.ceil(width / 2)) && cells.length <= width + 1;
    });
  const unitLine = heads.length > 1 && isUnitLine(heads.at(-1)!) ? heads.at(-1)! : null;
  const head = (unitLine ? heads.at(-2) : heads.at(-1)) ?? null;
  if (between === ',' && head && head.length > 1 && width >= 2 * head.length - 1 && width > head.length)
    return {
      message: `Line ${start.number} has ${width} cells under ${head.length} names: commas stand both between the columns and within the numbers. Save the table with semicolons or tabs between the columns.`,
    };
  const sample = body
    .filter((line) => line.number >= start.number)
    .map((line) => cellsOf(line.text, between).map(withoutRemark));
  const names = Array.from({ length: Math.max(width, head?.length ?? 0) }, (_, i) => {
    const name = head?.[i]?.trim() ?? '';
    return name === '' ? `column ${i + 1}` : name;
  });
  return {
    between,
    decimal: decimalOf(sample, between),
    names,
    units: names.map((_, i) => bareUnit(unitLine?.[i] ?? '')),
    named: head !== null,
    firstLine: start.number,
    sample,
  };
}

const uncommented = (text: string): string => text.replace(/^\s*(#+|\/\/)\s*/, '');

const isReading = (cells: readonly string[], width: number): boolean => {
  const numbers = cells.filter((cell) => readable(withoutRemark(cell))).length;
  return numbers > 0 && cells.length <= width + 1 && numbers >= Math.min(2, Math.ceil(width / 2));
};

/** How well the lines fall into readings with this between the cells: share of readable cells, in lines of one width. */
function scored(lines: readonly TableLine[], between: Between): Scored {
  const rows = lines
    .map(({ text }) => cellsOf(text, between).map(withoutRemark))
    .filter((cells) => cells.some(readable));
  if (rows.length === 0) return { between, width: 0, score: 0 };
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  const [width, often] = [...counts].reduce((a, b) =>
    b[1] > a[1] || (b[1] === a[1] && b[0] > a[0]) ? b : a,
  );
  if (width === 1 && between !== '') return { between, width, score: 0 };
  let read = 0;
  let said = 0;
  for (const cells of rows)
    for (const cell of cells) {
      if (isBlank(cell)) continue;
      said++;
      if (readable(cell)) read++;
    }
  const share = (read / Math.max(1, said)) * (0.5 + (0.5 * often) / rows.length);
  return { between, width, score: share * decimalDoubt(lines, rows, between, width) };
}

/** A comma between whole numbers on every line, under one name or none, is a decimal comma in one column. */
function decimalDoubt(
  lines: readonly TableLine[],
  rows: readonly (readonly string[])[],
  between: Between,
  width: number,
): number {
  if (between !== ',' || width !== 2) return 1;
  const head = lines.find(({ text }) => !cellsOf(text, ',').some(readable));
  const oneName = !head || cellsOf(head.text, ',').length === 1;
  return oneName && rows.every(([a, b]) => /^[-+]?\d+$/.test(a) && /^\d+$/.test(b ?? '')) ? 0.1 : 1;
}

/** What marks decimals: the comma where a number shows one that can't be a mark of thousands. */
function decimalOf(sample: readonly (readonly string[])[], between: Between): Decimal {
  let points = false;
  let grouped = false;
  for (const cell of sample.flat()) {
    if (/^[-+\u2212]?\d{1,3}(,\d{3})+(\D|$)/.test(cell) && !cell.startsWith('0')) grouped = true;
    else if (/^[-+\u2212]?[\d.' \u00a0]*,\d+(\D|$)/.test(cell)) return ',';
    if (/\d\.\d/.test(cell)) points = true;
  }
  // A semicolon between the cells is how places with decimal commas write their tables.
  return grouped && !points && between !== ',' && (between === ';' || !everyGroupedIsLarge(sample))
    ? ','
    : '.';
}

/** "12,345" beside nothing else: thousands where at least three numbers stand so. */
function everyGroupedIsLarge(sample: readonly (readonly string[])[]): boolean {
  const commas = sample.flat().filter((cell) => /^\d{1,3}(,\d{3})+$/.test(cell));
  return commas.length >= 3;
}
