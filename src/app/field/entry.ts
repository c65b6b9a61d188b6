import type { FieldFacts } from './describe.ts';

export type Entry =
  { readonly ok: true; readonly value: number | null } | { readonly ok: false; readonly why: string };

/** A limit as a person would write it: no exponent, at most six decimals. */
function plain(value: number): string {
  return String(Number(value.toFixed(6))).replace('-', '−');
}

/** "0 to 20 mm", or "1 to 12". */
export function rangeInWords({ min, max, unit }: Pick<FieldFacts, 'min' | 'max' | 'unit'>): string {
  return `${plain(min)} to ${plain(max)}${unit ? ' ' + unit : ''}`;
}

/**
 * Reads what a person typed into a number field. A comma may stand for the decimal point; the unit may be typed after
 * the number. Says in one sentence what would be accepted.
 */
export function readEntry(typed: string, facts: FieldFacts): Entry {
  const text = typed.trim();
  const wanted = `${facts.whole ? 'a whole number' : 'a number'} from ${rangeInWords(facts)}`;
  if (text === '') {
    if (facts.nullable) return { ok: true, value: null };
    return { ok: false, why: `${facts.label} is empty; it takes ${wanted}.` };
  }
  let bare = text.replace('−', '-');
  if (facts.unit && bare.toLowerCase().endsWith(facts.unit.toLowerCase()))
    bare = bare.slice(0, -facts.unit.length).trim();
  const value = /^[-+]?(\d+([.,]\d*)?|[.,]\d+)(e[-+]?\d+)?$/i.test(bare)
    ? Number(bare.replace(',', '.'))
    : Number.NaN;
  if (!Number.isFinite(value))
    return { ok: false, why: `"${text}" is not a number; ${facts.label} takes ${wanted}.` };
  if (facts.whole && !Number.isInteger(value))
    return { ok: false, why: `${facts.label} takes ${wanted}, so ${plain(value)} is not possible.` };
  if (value < facts.min || value > facts.max)
    return { ok: false, why: `${facts.label} takes ${wanted}; ${plain(value)} lies outside.` };
  return { ok: true, value };
}

/** A number as it stands in a field: all that was given, no more than nine digits. */
export function writeEntry(value: number | null): string {
  return value === null ? '' : String(Number(value.toPrecision(9)));
}

/** One press of an arrow key: about a hundredth of the value, a round number. */
export function stepFor(value: number, facts: FieldFacts): number {
  if (facts.whole) return 1;
  const size = Math.abs(value) || facts.max / 100;
  const step = 10 ** Math.floor(Math.log10(size) - 1);
  return Math.max(step, 0.001);
}

/** The value one step on, on the grid of the step, within the limits. */
export function stepped(value: number, by: number, facts: FieldFacts): number {
  const step = Math.abs(by);
  const next = Math.round((value + by) / step) * step;
  return Number(Math.min(facts.max, Math.max(facts.min, next)).toFixed(6));
}
