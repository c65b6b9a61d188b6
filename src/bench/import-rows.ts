import type { BenchRow } from '../project/bench.ts';
import { describePath } from '../project/path.ts';
import { formatNumber, formatPercent } from '../quantities/format.ts';
import type { ColumnReader } from './import-column.ts';
import type { Quantity } from './import-units.ts';
import { meanOf, scatterOf, steadyStretches, type SteadyStretches } from './steady.ts';

/** More readings than a person writes by hand; a log this long is thinned. */
const BY_HAND = 200;

const KEYS = {
  time: 't_s',
  throttle: 'throttle',
  scale: 'scale_g',
  voltage: 'voltage_V',
  current: 'current_A',
  rpm: 'rpm',
  torque: 'torque_Nm',
} as const;
type Kept = keyof typeof KEYS;
const KEPT = Object.keys(KEYS) as Kept[];

type Columns = Partial<Record<Quantity, Float64Array>>;

export interface FinishedRows {
  readonly rows: BenchRow[];
  readonly thinned: boolean;
  readonly notes: readonly string[];
}

/** Rows from the columns, thinned to steady stretches where wished or where nobody wrote so many by hand. */
export function finishRows(readers: readonly ColumnReader[], count: number, thin?: boolean): FinishedRows {
  const notes: string[] = [];
  const columns: Columns = {};
  for (const reader of readers) if (reader.as !== 'note') columns[reader.as] = reader.values(count);
  currentFromPower(columns, count, notes);
  for (const quantity of KEPT) keepWithin(quantity, columns[quantity], notes);
  const texts = readers.find((reader) => reader.as === 'note')?.texts ?? new Map<number, string>();
  if (!(thin ?? count > BY_HAND)) {
    const rows = Array.from({ length: count }, (_, i) => rowOf(columns, i, i + 1, texts));
    return { rows: rows.filter(holdsAnything), thinned: false, notes };
  }
  const found = stretchesOf(columns, count);
  const rows = found.stretches.map(({ from, to }) => rowOf(columns, from, to, texts)).filter(holdsAnything);
  return { rows, thinned: true, notes: [...notes, thinnedWords(found, count)] };
}

const holdsAnything = (row: BenchRow): boolean =>
  KEPT.some((quantity) => quantity !== 'time' && row[KEYS[quantity]] !== null);

function stretchesOf(columns: Columns, count: number): SteadyStretches {
  const { throttle, rpm, scale } = columns;
  const leader = [throttle, rpm, scale, columns.current, columns.voltage].find((c) => c && spanOf(c) > 0);
  const followers = [scale, rpm].filter((c) => c !== undefined);
  if (!leader) return { stretches: [{ from: 0, to: count }], how: 'steady' };
  return steadyStretches(leader, followers, leader === throttle ? 0.005 : 0.01 * spanOf(leader));
}

function spanOf(values: Float64Array): number {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high > low ? high - low : 0;
}

const whole = (count: number): string => formatNumber(count, Math.max(3, String(count).length));

function thinnedWords({ stretches, how }: SteadyStretches, count: number): string {
  const n = stretches.length;
  const all = whole(count);
  if (how === 'steps')
    return `${all} readings without a steady stretch, as in a slow ramp; they were cut into ${n} ${n === 1 ? 'step' : 'steps'}, each kept as its mean. The scale may lag behind in a ramp: hold each throttle a few seconds to be surer.`;
  const held = stretches.reduce((sum, { from, to }) => sum + to - from, 0) / count;
  return `${all} readings were thinned to ${n} steady ${n === 1 ? 'stretch' : 'stretches'}, each kept as its mean with its scatter; ${formatPercent(1 - held)} of them stood where something was still changing.`;
}

function rowOf(columns: Columns, from: number, to: number, texts: ReadonlyMap<number, string>): BenchRow {
  const mean = (quantity: Quantity): number | null => {
    const values = columns[quantity];
    const value = values ? meanOf(values, from, to) : Number.NaN;
    return Number.isNaN(value) ? null : value;
  };
  const scatter = columns.scale && to - from > 1 ? scatterOf(columns.scale, from, to) : Number.NaN;
  const throttle = mean('throttle');
  const rpm = mean('rpm');
  const said = new Set<string>();
  for (let i = from; i < to && texts.size > 0 && said.size < 5; i++)
    if (texts.has(i)) said.add(texts.get(i)!);
  return {
    t_s: mean('time'),
    throttle,
    scale_g: mean('scale'),
    voltage_V: mean('voltage'),
    current_A: mean('current'),
    rpm,
    torque_Nm: mean('torque'),
    atRest: standsStill(throttle, rpm),
    samples: to - from,
    scatter_g: Number.isNaN(scatter) ? null : scatter,
    note: [...said].join('; '),
    leftOut: false,
  };
}

/** No throttle and no speed, as far as either was read; a rotor at less than one turn a second stands. */
const standsStill = (throttle: number | null, rpm: number | null): boolean =>
  throttle === null ? rpm !== null && rpm < 60 : throttle < 0.0005 && (rpm === null || rpm < 60);

/** Power and voltage give the current where no column does. */
function currentFromPower(columns: Columns, count: number, notes: string[]): void {
  const { power, voltage } = columns;
  if (columns.current || !power) return;
  if (!voltage) {
    notes.push('Power was read but no voltage; without it the current is not known and power was not taken.');
    return;
  }
  const current = new Float64Array(count);
  for (let i = 0; i < count; i++) current[i] = voltage[i] > 0 ? power[i] / voltage[i] : Number.NaN;
  columns.current = current;
  notes.push('Current was worked out from power and voltage.');
}

/** Takes out what no rig can have read. */
function keepWithin(quantity: Kept, values: Float64Array | undefined, notes: string[]): void {
  const field = describePath(`builds.0.bench.0.rows.0.${KEYS[quantity]}`);
  if (!values || field?.min === undefined || field.max === undefined) return;
  let out = 0;
  for (let i = 0; i < values.length; i++)
    if (values[i] < field.min || values[i] > field.max) {
      values[i] = Number.NaN;
      out++;
    }
  if (out > 0)
    notes.push(
      `${whole(out)} ${out === 1 ? 'value' : 'values'} of ${quantity} lay outside ${formatNumber(field.min)} to ${formatNumber(field.max)} ${field.unit} and ${out === 1 ? 'was' : 'were'} taken as not read. Is the unit right?`,
    );
}
