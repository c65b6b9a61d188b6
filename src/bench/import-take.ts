import { shorten } from '../project/words.ts';
import { isBlank, numberWithUnit, stampInCell } from './import-cells.ts';
import { readColumnName } from './import-columns.ts';
import type { Frame } from './import-frame.ts';
import {
  KEPT_UNIT,
  multiplierNamed,
  QUANTITIES,
  quantitiesWith,
  unitNamed,
  unitsOf,
  type Quantity,
  type UnitRule,
} from './import-units.ts';

/** What the user says a column is. */
export interface MapWish {
  /** Name of the column, or its number counted from 1. */
  readonly column: string;
  readonly as: Quantity | 'nothing';
  /** A unit, or a number or fraction to multiply by. */
  readonly unit?: string;
}

/** Where the unit of a column comes from. */
export type UnitFrom = 'said' | 'name' | 'line of units' | 'cells' | 'values' | 'usual';

/** How one column was taken. */
export interface ColumnTaken {
  /** Counted from 0. */
  readonly index: number;
  readonly name: string;
  readonly as: Quantity | null;
  readonly unit: string;
  readonly unitFrom: UnitFrom;
  readonly rule: UnitRule | null;
  /** First cell as it stands in the table, and what was read from it in the unit rows keep; null: nothing yet. */
  readonly cell: string;
  readonly reads: number | null;
}

export type Taken =
  | { readonly ok: true; readonly columns: readonly ColumnTaken[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly message: string };

/** Decides what each column holds: what the user says, else its name, else its unit. */
export function takeColumns(frame: Frame, wishes: readonly MapWish[]): Taken {
  const notes: string[] = [];
  const columns = frame.names.map((name, index) => guess(frame, name, index, notes));
  const said = new Set<number>();
  for (const wish of wishes) {
    const at = columnMeant(frame.names, wish.column);
    if (typeof at === 'string') return { ok: false, message: at };
    const wished = asWished(columns[at], wish);
    if (typeof wished === 'string') return { ok: false, message: wished };
    columns[at] = wished;
    said.add(at);
  }
  for (const quantity of QUANTITIES) {
    const rivals = columns.filter((column) => column.as === quantity);
    if (rivals.length < 2) continue;
    const wished = rivals.filter(({ index }) => said.has(index));
    if (wished.length > 1)
      return {
        ok: false,
        message: `Two columns are said to be ${quantity}: "${wished[0].name}" and "${wished[1].name}"; one can be.`,
      };
    const best =
      wished[0] ??
      rivals.find(({ unitFrom }) => unitFrom === 'name' || unitFrom === 'line of units') ??
      rivals[0];
    for (const other of rivals)
      if (other !== best) {
        columns[other.index] = { ...other, as: null };
        if (wished.length === 0)
          notes.push(
            `"${shorten(other.name, 40)}" looks like ${quantity} too; "${shorten(best.name, 40)}" was taken.`,
          );
      }
  }
  if (!columns.some(({ as }) => as !== null && as !== 'time' && as !== 'note'))
    return {
      ok: false,
      message: `No column could be told by its name. The columns are ${listNames(frame.names)}; say which is which, for example column 2 as scale in g.`,
    };
  return { ok: true, columns, notes };
}

function guess(frame: Frame, name: string, index: number, notes: string[]): ColumnTaken {
  const cell = frame.sample.map((row) => row[index] ?? '').find((text) => !isBlank(text)) ?? '';
  const base = { index, name, cell, reads: null };
  const says = frame.named ? readColumnName(name) : { as: null, unit: null, strange: null };
  const ofLine = frame.units[index] ?? '';
  if (says.strange !== null)
    notes.push(
      `"${shorten(name, 40)}" was not taken: "${shorten(says.strange, 20)}" is no unit of it that is known here.`,
    );
  const none: ColumnTaken = { ...base, as: null, unit: '', unitFrom: 'usual', rule: null };
  if (says.as === null) {
    const [only, second] = ofLine === '' || says.strange !== null ? [] : quantitiesWith(ofLine);
    if (!only || second || isForeign(name)) return stampColumn(none);
    const rule = unitNamed(only, ofLine);
    return { ...base, as: only, unit: rule?.unit ?? '', unitFrom: 'line of units', rule };
  }
  const lineRule = unitNamed(says.as, ofLine);
  if (lineRule)
    return { ...base, as: says.as, unit: lineRule.unit, unitFrom: 'line of units', rule: lineRule };
  if (says.unit) return { ...base, as: says.as, unit: says.unit.unit, unitFrom: 'name', rule: says.unit };
  if (ofLine !== '' && quantitiesWith(ofLine).length > 0) return none;
  const behind = numberWithUnit(cell, frame.decimal);
  const cellRule = behind && unitNamed(says.as, behind.unit);
  if (cellRule) return { ...base, as: says.as, unit: cellRule.unit, unitFrom: 'cells', rule: cellRule };
  return { ...base, as: says.as, unit: KEPT_UNIT[says.as], unitFrom: 'usual', rule: null };
}

/** A name that means something else keeps its column out, whatever the unit beside it. */
const isForeign = (name: string): boolean => /temp|wind|air|error|target|date/i.test(name);

/** An unnamed column of time stamps is time. */
function stampColumn(column: ColumnTaken): ColumnTaken {
  const isTime =
    !isForeign(column.name) && /[:T]/.test(column.cell) && stampInCell(column.cell, true) !== null;
  return isTime ? { ...column, as: 'time', unit: 's', unitFrom: 'cells' } : column;
}

function columnMeant(names: readonly string[], wanted: string): number | string {
  const bare = wanted.trim().toLowerCase();
  const exact = names.findIndex((name) => name.toLowerCase() === bare);
  if (exact >= 0) return exact;
  if (/^\d+$/.test(bare)) {
    const index = Number(bare) - 1;
    if (index >= 0 && index < names.length) return index;
    return `There is no column ${bare}; the table has ${names.length}.`;
  }
  const near = names.flatMap((name, i) => (name.toLowerCase().startsWith(bare) && bare !== '' ? [i] : []));
  if (near.length === 1) return near[0];
  return `There is no column "${shorten(wanted, 40)}"; the columns are ${listNames(names)}.`;
}

function asWished(column: ColumnTaken, { as, unit }: MapWish): ColumnTaken | string {
  if (as === 'nothing') return { ...column, as: null, unit: '', rule: null };
  if (unit === undefined || unit.trim() === '') {
    const rule =
      column.as === as ? column.rule : (readColumnName(`${as} (${bracketed(column.name)})`).unit ?? null);
    return {
      ...column,
      as,
      unit: rule?.unit ?? KEPT_UNIT[as],
      unitFrom: rule ? 'name' : 'usual',
      rule,
    };
  }
  const rule = unitNamed(as, unit) ?? multiplierNamed(unit);
  if (!rule)
    return `"${shorten(unit, 20)}" is no unit of ${as}; it may be ${unitsOf(as) || 'none'}, or a number or fraction to multiply by, such as 1/7.`;
  return { ...column, as, unit: rule.unit, unitFrom: 'said', rule };
}

const bracketed = (name: string): string => /[([{]\s*([^)\]}]*?)\s*[)\]}]/.exec(name)?.[1] ?? '';

function listNames(names: readonly string[]): string {
  const shown = names.slice(0, 12).map((name) => `"${shorten(name, 40)}"`);
  return shown.join(', ') + (names.length > 12 ? ` and ${names.length - 12} more` : '');
}
