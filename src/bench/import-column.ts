import { numberInCell, type Decimal } from '../project/table.ts';
import { shorten } from '../project/words.ts';
import {
  isBlank,
  numberWithUnit,
  sinceFirst,
  stampInCell,
  withoutRemark,
  type Stamp,
} from './import-cells.ts';
import type { Frame } from './import-frame.ts';
import type { ColumnTaken } from './import-take.ts';
import { unitNamed, type Quantity, type UnitRule } from './import-units.ts';

/** Reads one column cell by cell and keeps its numbers. */
export interface ColumnReader {
  readonly index: number;
  readonly as: Quantity;
  /** Takes the cell of a row; true where it is a reading (time and notes are none by themselves). */
  take(cell: string, row: number, line: number): boolean;
  /** Forgets what was taken of a row that turned out to hold no reading. */
  drop(row: number): void;
  /** The first `count` rows in the unit rows keep; NaN: not read. */
  values(count: number): Float64Array;
  readonly texts: ReadonlyMap<number, string>;
  /** Unit and first value as settled by all values. */
  settled(): Partial<ColumnTaken>;
  notes(): string[];
}

/** Longest note a row keeps. */
const LONGEST_NOTE = 400;

export function columnReader(column: ColumnTaken, frame: Frame): ColumnReader {
  const as = column.as!;
  const { decimal } = frame;
  const clock = /clock|uhr|day|hour|heure/i.test(column.name);
  let kept = new Float64Array(1024).fill(Number.NaN);
  let filled = 0;
  const texts = new Map<number, string>();
  const odd = { count: 0, cell: '', line: 0 };
  let stamp: Stamp | null = null;
  let stamps = 0;
  let settled: { rule: UnitRule; from: ColumnTaken['unitFrom']; note: string | null } | null = null;

  const put = (row: number, value: number) => {
    if (row >= kept.length) {
      const grown = new Float64Array(2 * kept.length).fill(Number.NaN);
      grown.set(kept);
      kept = grown;
    }
    kept[row] = value;
    filled = Math.max(filled, row + 1);
  };
  const read = (cell: string): number => {
    const plain = numberInCell(cell, decimal);
    if (!Number.isNaN(plain)) return plain;
    if (as === 'time') {
      const found = stampInCell(cell, clock);
      if (found) {
        stamp = found.stamp;
        stamps++;
        return found.seconds;
      }
    }
    return withUnit(cell, column, decimal);
  };

  return {
    index: column.index,
    as,
    texts,
    take(cell, row, line) {
      if (as === 'note') {
        if (cell !== '') texts.set(row, shorten(cell, LONGEST_NOTE));
        return false;
      }
      if (isBlank(cell)) return false;
      let value = read(cell);
      if (Number.isNaN(value)) value = read(withoutRemark(cell));
      if (Number.isNaN(value)) {
        if (odd.count++ === 0) Object.assign(odd, { cell, line });
        return false;
      }
      put(row, value);
      return as !== 'time';
    },
    drop(row) {
      if (row < kept.length) kept[row] = Number.NaN;
      filled = Math.min(filled, row);
      texts.delete(row);
    },
    values(count) {
      const values = new Float64Array(count).fill(Number.NaN);
      values.set(kept.subarray(0, Math.min(count, filled)));
      settled ??= settle(column, values, stamp !== null && stamps > 0);
      if (as === 'time' && stamp !== null) sinceFirst(values, stamp);
      else {
        const { factor, offset } = settled.rule;
        for (let i = 0; i < count; i++) values[i] = values[i] * factor + offset;
        if (as === 'time' && Math.abs(values.find((t) => !Number.isNaN(t)) ?? 0) > 1e7)
          sinceFirst(values, 'date');
        if (as === 'throttle') clampThrottle(values);
      }
      return values;
    },
    settled() {
      if (!settled) return {};
      const value = read(withoutRemark(column.cell));
      const reads = Number.isNaN(value) || stamp ? null : value * settled.rule.factor + settled.rule.offset;
      return {
        unit: stamp ? (stamp === 'date' ? 'date and time' : 'clock') : settled.rule.unit,
        unitFrom: stamp ? 'cells' : settled.from,
        reads,
      };
    },
    notes() {
      const found: string[] = [];
      if (settled?.note) found.push(settled.note);
      if (odd.count > 0)
        found.push(
          `"${shorten(column.name, 40)}" holds ${odd.count === 1 ? 'a cell that is' : `${odd.count} cells that are`} no number (first: line ${odd.line}, "${shorten(odd.cell, 30)}"); taken as not read.`,
        );
      return found;
    },
  };
}

/** A number with a unit behind it, brought to the unit of the column; NaN where it is none of this quantity. */
function withUnit(cell: string, { as, rule }: ColumnTaken, decimal: Decimal): number {
  const found = numberWithUnit(cell, decimal);
  const own = found && unitNamed(as!, found.unit);
  if (!own) return Number.NaN;
  if (!rule) return own.factor === 1 && own.offset === 0 ? found.value : Number.NaN;
  return (found.value * own.factor + own.offset - rule.offset) / rule.factor;
}

type Settled = { rule: UnitRule; from: ColumnTaken['unitFrom']; note: string | null };

/** The unit of a column whose name gives none, from all of its values. */
function settle(column: ColumnTaken, values: Float64Array, stamped: boolean): Settled {
  if (column.rule) return { rule: column.rule, from: column.unitFrom, note: null };
  const as = column.as!;
  const rule = (unit: string): UnitRule => unitNamed(as, unit) ?? { unit, factor: 1, offset: 0 };
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (as === 'throttle') return throttleRule(column.name, low, high, rule);
  if (as === 'time' && !stamped && looksLikeMilliseconds(values))
    return {
      rule: rule('ms'),
      from: 'values',
      note: `"${shorten(column.name, 40)}" has no unit; its whole-number steps look like milliseconds.`,
    };
  return { rule: rule(column.unit), from: column.unitFrom, note: null };
}

function throttleRule(name: string, low: number, high: number, rule: (unit: string) => UnitRule): Settled {
  if (high <= 1.0001) return { rule: rule('0..1'), from: 'values', note: null };
  if (low >= -1 && high <= 105) return { rule: rule('%'), from: 'values', note: null };
  if (high >= 900 && high <= 2300 && low >= 700) return { rule: rule('us'), from: 'values', note: null };
  return {
    rule: { unit: 'unknown', factor: Number.NaN, offset: 0 },
    from: 'values',
    note: `"${shorten(name, 40)}" runs from ${low} to ${high} without a unit and was not taken; say its unit (0..1, %, us) or the fraction to multiply by, such as 1/${Math.round(high)}.`,
  };
}

/** Whole numbers that rise by ten or more a row, or a count of milliseconds since 1970. */
function looksLikeMilliseconds(values: Float64Array): boolean {
  const steps: number[] = [];
  let before = Number.NaN;
  for (const value of values.subarray(0, 2000)) {
    if (value > 1e11) return true;
    if (Number.isNaN(value)) continue;
    if (!Number.isInteger(value)) return false;
    if (!Number.isNaN(before)) steps.push(value - before);
    before = value;
  }
  if (steps.length < 50) return false;
  steps.sort((a, b) => a - b);
  return steps[steps.length >> 1] >= 5;
}

/** What passes the ends by a little is the end: pulses of 990 or 2010 us are none and full. */
function clampThrottle(values: Float64Array): void {
  for (let i = 0; i < values.length; i++) {
    if (values[i] < 0 && values[i] > -0.15) values[i] = 0;
    if (values[i] > 1 && values[i] < 1.15) values[i] = 1;
  }
}
