import { BadInput } from './fault.ts';
import { plainText } from './files.ts';

/** A rotor as papers print it: one row a station, hub to tip after reading. */
export interface RotorTable {
  readonly radius_mm: readonly number[];
  readonly chord_mm: readonly number[];
  readonly angle_deg: readonly number[];
  readonly thickness_ratio: readonly number[] | null;
  readonly camber_ratio: readonly number[] | null;
  /** Columns that are not read. */
  readonly ignored: readonly string[];
}

const COLUMNS = {
  radius_mm: { unit: 'mm', min: 0, max: 50_000, must: true },
  chord_mm: { unit: 'mm', min: 0, max: 10_000, must: true },
  angle_deg: { unit: '°', min: -90, max: 90, must: true },
  thickness_ratio: { unit: '', min: 0.005, max: 0.4, must: false },
  camber_ratio: { unit: '', min: -0.15, max: 0.15, must: false },
} as const;
type Column = keyof typeof COLUMNS;
const NAMES = Object.keys(COLUMNS) as Column[];

interface Row {
  readonly line: number;
  readonly values: Readonly<Partial<Record<Column, number>>>;
}

/**
 * Reads a rotor table: a heading line with `radius_mm,chord_mm,angle_deg` and optionally `thickness_ratio,camber_ratio`
 * in any order, then a row a station in any order. Decimal point; cells parted by comma, semicolon or tab; lines that
 * begin with # and empty lines are skipped; a byte order mark and either line ending are fine. Throws BadInput that
 * names the line.
 */
export function readRotorTable(bytes: Uint8Array, file: string): RotorTable {
  const lines = plainText(bytes, file, 'a rotor table')
    .split(/\r\n|\n|\r/)
    .map((text, i) => ({ text: text.trim(), line: i + 1 }))
    .filter(({ text }) => text !== '' && !text.startsWith('#'));
  if (lines.length === 0)
    throw new BadInput(
      `${file} is empty; a rotor table begins with the heading radius_mm,chord_mm,angle_deg.`,
    );
  const [heading, ...body] = lines;
  const part = /[,;\t]/.exec(heading.text)?.[0] ?? ',';
  const split = (text: string) =>
    text.split(part).map((cell) =>
      cell
        .trim()
        .replace(/^"(.*)"$/, '$1')
        .trim(),
    );
  const names = split(heading.text).map((name) => name.toLowerCase());
  for (const name of NAMES) {
    const times = names.filter((n) => n === name).length;
    if (times > 1)
      throw new BadInput(`${file} line ${heading.line}: the column ${name} stands ${times} times.`);
    if (times === 0 && COLUMNS[name].must)
      throw new BadInput(
        `${file} line ${heading.line}: the column ${name} is missing; the heading must hold radius_mm,chord_mm,angle_deg.`,
      );
  }
  const rows = body.map(({ text, line }) => readRow(split(text), names, file, line));
  return sorted(rows, names, file);
}

function readRow(cells: readonly string[], names: readonly string[], file: string, line: number): Row {
  if (cells.length !== names.length)
    throw new BadInput(
      `${file} line ${line}: ${cells.length} ${cells.length === 1 ? 'value' : 'values'} where the heading has ${names.length} columns (numbers are written with a point, as in 12.5).`,
    );
  const values: Partial<Record<Column, number>> = {};
  for (const name of NAMES) {
    const at = names.indexOf(name);
    if (at < 0) continue;
    const { min, max, unit } = COLUMNS[name];
    const cell = cells[at];
    const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(cell) ? Number(cell) : NaN;
    if (!(value >= min && value <= max)) {
      const found = cell === '' ? 'empty' : Number.isNaN(value) ? `"${cell.slice(0, 40)}"` : cell;
      const range = `${min} to ${max}${unit === '°' ? '°' : unit && ' ' + unit}`;
      throw new BadInput(`${file} line ${line}: ${name} is ${found}; it must be a number from ${range}.`);
    }
    values[name] = value;
  }
  return { line, values };
}

function sorted(rows: readonly Row[], names: readonly string[], file: string): RotorTable {
  if (rows.length < 2)
    throw new BadInput(
      `${file} has ${rows.length} ${rows.length === 1 ? 'station' : 'stations'}; a rotor needs at least 2, hub and tip.`,
    );
  const order = [...rows].sort((a, b) => a.values.radius_mm! - b.values.radius_mm! || a.line - b.line);
  for (let i = 1; i < order.length; i++) {
    const [before, after] = [order[i - 1], order[i]];
    if (before.values.radius_mm === after.values.radius_mm)
      throw new BadInput(
        `${file} line ${after.line}: radius_mm ${after.values.radius_mm} already stands in line ${before.line}; each station needs its own radius.`,
      );
  }
  if (order.every((row) => row.values.chord_mm === 0))
    throw new BadInput(`${file}: chord_mm is 0 in every line; there is no blade.`);
  const column = (name: Column) => order.map((row) => row.values[name]!);
  const optional = (name: Column) => (names.includes(name) ? column(name) : null);
  return {
    radius_mm: column('radius_mm'),
    chord_mm: column('chord_mm'),
    angle_deg: column('angle_deg'),
    thickness_ratio: optional('thickness_ratio'),
    camber_ratio: optional('camber_ratio'),
    ignored: names.filter((name) => name !== '' && !NAMES.includes(name as Column)),
  };
}
