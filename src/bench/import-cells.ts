import { numberInCell, type Decimal } from '../project/table.ts';

/** Cells that say "not read". */
const BLANKS = new Set(['', '-', '--', '---', '—', '–', '?', 'na', 'n/a', 'nan', 'null', 'none', 'nil']);
export const isBlank = (cell: string): boolean => cell === '' || BLANKS.has(cell.toLowerCase());

/** A cell without the remark behind its number: "3.2 # gust". */
export const withoutRemark = (cell: string): string => cell.replace(/\s+(#|\/\/).*$/, '').trim();

/** A number with a unit written behind it, as in "120 g" or "11,8V". */
export function numberWithUnit(cell: string, decimal: Decimal): { value: number; unit: string } | null {
  const parts = /^([-+\u2212\u2013]?[\d.,'’\u00a0\u2009\u202f ]*\d\.?)\s*([a-zµμ%°/][^\d]*)$/i.exec(cell);
  if (!parts) return null;
  const value = numberInCell(parts[1], decimal);
  return Number.isNaN(value) ? null : { value, unit: parts[2].trim() };
}

/** What kind of time stamp a cell holds. */
export type Stamp = 'clock' | 'date';

const DATE = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]+(\d{1,2}:\d{2}.*))?$/;
const DAY_FIRST = /^(\d{1,2})[./](\d{1,2})[./](\d{4})[T ,]+(\d{1,2}:\d{2}.*)$/;
const CLOCK = /^(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d*)?))?([.,]\d+)?\s*(am|pm)?z?(?:[+-]\d{2}:?\d{2})?$/i;
const DAY_S = 86_400;

/**
 * Seconds of a time stamp, or null: `hh:mm:ss`, `mm:ss.s`, `hh:mm` (with `clock`; else `mm:ss`), with a date before it
 * or not. Only differences mean something. A zone is passed over: a log has one.
 */
export function stampInCell(cell: string, clock: boolean): { seconds: number; stamp: Stamp } | null {
  const iso = DATE.exec(cell);
  const days = iso ?? DAY_FIRST.exec(cell);
  if (days) {
    const [a, b, c] = days.slice(1, 4).map(Number);
    const day = iso ? Date.UTC(a, b - 1, c) : Date.UTC(c, b - 1, a);
    const time = days[4] === undefined ? 0 : clockSeconds(days[4].trim(), true);
    return time === null ? null : { seconds: day / 1000 + time, stamp: 'date' };
  }
  const seconds = clockSeconds(cell, clock);
  return seconds === null ? null : { seconds, stamp: 'clock' };
}

function clockSeconds(text: string, clock: boolean): number | null {
  const parts = CLOCK.exec(text);
  if (!parts) return null;
  const [, first, second, third, fraction, half] = parts;
  const part = fraction === undefined ? 0 : Number(fraction.replace(',', '.'));
  if (third === undefined && (!clock || fraction !== undefined))
    return Number(first) * 60 + Number(second) + part;
  const noon = half?.toLowerCase() === 'pm' && Number(first) < 12 ? 12 : 0;
  const midnight = half?.toLowerCase() === 'am' && first === '12' ? -12 : 0;
  const rest = third === undefined ? 0 : Number(third.replace(',', '.'));
  return (Number(first) + noon + midnight) * 3600 + Number(second) * 60 + rest + part;
}

/** Time stamps made to run on over midnight, from the first one. */
export function sinceFirst(seconds: Float64Array, stamp: Stamp): void {
  let first = Number.NaN;
  let days = 0;
  let before = Number.NaN;
  for (let i = 0; i < seconds.length; i++) {
    const raw = seconds[i];
    if (Number.isNaN(raw)) continue;
    if (Number.isNaN(first)) first = raw;
    if (stamp === 'clock' && raw < before - DAY_S / 2) days++;
    before = raw;
    seconds[i] = raw + days * DAY_S - first;
  }
}
