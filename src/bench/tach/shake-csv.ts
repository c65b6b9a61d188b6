import { betweenIn, cellsOf, linesOf, numberInCell, type Decimal } from '../../project/table.ts';

export type ShakeUnit = 'm/s2' | 'g' | 'deg/s' | 'rad/s' | 'other';

/** Shaking over time, as a phone or a flight controller logs it. */
export interface ShakeLog {
  /** Rising, from 0 [s]. */
  readonly t_s: Float64Array;
  /** One to three directions, each as long as `t_s`, in `unit`. */
  readonly axes: readonly { readonly name: string; readonly values: Float64Array }[];
  readonly unit: ShakeUnit;
  /** A signal that rises once a turn at the mark on the rotor; null: none. */
  readonly mark: Float64Array | null;
  /** How the columns were taken, to be looked over. */
  readonly columns: readonly { readonly column: string; readonly as: string; readonly unit: string }[];
  readonly notes: readonly string[];
}

export type ShakeRead =
  { readonly ok: true; readonly log: ShakeLog } | { readonly ok: false; readonly message: string };

/** Columns named by the person, in place of what the names say. */
export interface ShakeColumns {
  readonly time?: string;
  readonly axes?: readonly string[];
  readonly mark?: string;
  readonly unit?: ShakeUnit;
}

const no = (message: string): ShakeRead => ({ ok: false, message });

const UNITS: readonly (readonly [RegExp, ShakeUnit, number])[] = [
  [/^(m\/s\^?2|m\/s²|m s-2|ms-2|mps2)$/, 'm/s2', 1],
  [/^mg$/, 'g', 1e-3],
  [/^g(ee)?s?$/, 'g', 1],
  [/^(deg\/s|°\/s|dps|deg_s|degps)$/, 'deg/s', 1],
  [/^(rad\/s|rad_s|radps|rps)$/, 'rad/s', 1],
];
const TIMES: readonly (readonly [RegExp, number])[] = [
  [/^(s|sec|secs|second|seconds)$/, 1],
  [/^(ms|msec|milliseconds?)$/, 1e-3],
  [/^(us|µs|μs|microseconds?)$/, 1e-6],
  [/^(ns|nanoseconds?)$/, 1e-9],
  [/^(min|minutes?)$/, 60],
];

/** Fewest readings a level can be taken from. */
export const FEWEST_READINGS = 64;

interface Named {
  readonly index: number;
  readonly column: string;
  readonly unit: string;
  readonly word: string;
}

/** "acc x (m/s2)" or "acc_x_mps2" as word and unit. */
function named(column: string, index: number): Named {
  const inBrackets = /^(.*?)\s*[([]\s*([^)\]]+)\s*[)\]]\s*$/.exec(column);
  if (inBrackets)
    return {
      index,
      column,
      word: inBrackets[1].trim().toLowerCase(),
      unit: inBrackets[2].trim().toLowerCase(),
    };
  const low = column.trim().toLowerCase();
  const tail = /^(.+?)[_ ]([^_ ]+)$/.exec(low);
  const known =
    tail && (UNITS.some(([form]) => form.test(tail[2])) || TIMES.some(([form]) => form.test(tail[2])));
  return known ? { index, column, word: tail[1], unit: tail[2] } : { index, column, word: low, unit: '' };
}

const unitOf = (text: string) => UNITS.find(([form]) => form.test(text));
const isTime = ({ word }: Named) =>
  /^(t|time|times|timestamp|zeit|elapsed|seconds?_?elapsed|clock|ms|us|s)\b/.test(word);
const isMark = ({ word }: Named) => /\b(mark|once|tach|pulse|index|rev)\b/.test(word.replaceAll('_', ' '));
const isAcceleration = ({ word, unit }: Named) =>
  ['m/s2', 'g'].includes(unitOf(unit)?.[1] ?? '') || /acc|^a[_ .]?[xyz]$|beschl/.test(word);
const isRate = ({ word, unit }: Named) =>
  ['deg/s', 'rad/s'].includes(unitOf(unit)?.[1] ?? '') || /gyr|rate|omega|^[gw][_ .]?[xyz]$/.test(word);
const isAxis = ({ word }: Named) =>
  /(^|[^a-z])[xyz]([^a-z]|$)|[_ ][xyz]$|^(a|g|w|acc|gyro|accel)[xyz]$|[^a-z][012]\]?$/.test(word);

/**
 * Shaking from a table: a line of names, then a reading a line, at any rhythm. The time and up to three directions are told by
 * their names and units ("time (ms)", "acc x [m/s2]", "gyro_y_deg/s"); acceleration is taken before rate of turn. Cells
 * between comma, semicolon or tab; decimal comma where cells stand between the last two; lines before the names and lines
 * that hold no numbers are passed over. Total.
 */
export function readShakeCsv(text: string, given: ShakeColumns = {}): ShakeRead {
  const lines = linesOf(text);
  let head: {
    readonly columns: readonly Named[];
    readonly between: ',' | ';' | '\t';
    readonly line: number;
  } | null = null;
  // Stepped by hand: a for loop left early would end the lines for the rows too.
  for (let next = lines.next(); !next.done; next = lines.next()) {
    const { text: line, number } = next.value;
    if (line.trim().startsWith('#') && !/[,;\t]/.test(line)) continue;
    const between = betweenIn(line);
    const cells = cellsOf(line.replace(/^#\s*/, ''), between);
    if (cells.length < 2 || cells.every((cell) => /^[-+.\d,e ]*$/i.test(cell))) continue;
    const columns = cells.map(named);
    if (given.time !== undefined || columns.some(isTime)) {
      head = { columns, between, line: number };
      break;
    }
    if (number > 200) break;
  }
  if (!head)
    return no(
      'There is no line of names with a column of time; the first line must name the columns, as in time_s,acc_x,acc_y,acc_z.',
    );
  const chosen = choose(head.columns, given);
  if (typeof chosen === 'string') return no(`Line ${head.line}: ${chosen}`);
  return readRows(lines, head, chosen, given);
}

interface Chosen {
  readonly time: Named;
  readonly axes: readonly Named[];
  readonly mark: Named | null;
}

function choose(columns: readonly Named[], given: ShakeColumns): Chosen | string {
  const find = (name: string) =>
    columns.find(({ column }) => column.trim() === name.trim()) ??
    columns.find(({ column }) => column.trim().toLowerCase() === name.trim().toLowerCase());
  const list = columns
    .map(({ column }) => column)
    .join(', ')
    .slice(0, 200);
  const missing = [given.time, given.mark, ...(given.axes ?? [])].find(
    (name) => name !== undefined && !find(name),
  );
  if (missing !== undefined) return `there is no column "${missing.slice(0, 40)}"; the columns are ${list}.`;
  const time = given.time === undefined ? columns.find(isTime)! : find(given.time)!;
  const others = columns.filter((one) => one !== time);
  const mark =
    given.mark === undefined ? (others.find((c) => isMark(c) && !isAxis(c)) ?? null) : find(given.mark)!;
  if (given.axes) return { time, axes: given.axes.slice(0, 3).map((name) => find(name)!), mark };
  const free = others.filter((one) => one !== mark);
  const kinds = [
    free.filter((c) => isAcceleration(c) && isAxis(c)),
    free.filter((c) => isRate(c) && isAxis(c)),
    free.filter(isAcceleration),
    free.filter(isRate),
    free.filter(isAxis),
  ];
  const axes = kinds.find((kind) => kind.length > 0)?.slice(0, 3);
  if (!axes)
    return `none of the columns is an acceleration or a rate of turn; name them with --axes, the columns are ${list}.`;
  return { time, axes, mark };
}

function readRows(
  lines: Generator<{ readonly text: string }>,
  { between }: { readonly between: ',' | ';' | '\t' },
  { time, axes, mark }: Chosen,
  given: ShakeColumns,
): ShakeRead {
  const raw: number[][] = [time, ...axes, ...(mark ? [mark] : [])].map(() => []);
  const at = [time, ...axes, ...(mark ? [mark] : [])].map(({ index }) => index);
  let [passed, back, last] = [0, 0, -Infinity];
  for (const { text } of lines) {
    const cells = cellsOf(text, between);
    const decimal: Decimal = between !== ',' && at.some((i) => /\d,\d/.test(cells[i] ?? '')) ? ',' : '.';
    const row = at.map((i) => numberInCell(cells[i] ?? '', decimal));
    if (!row.every(Number.isFinite)) passed++;
    else if (row[0] <= last) back++;
    else {
      last = row[0];
      row.forEach((value, i) => raw[i].push(value));
    }
  }
  const count = raw[0].length;
  if (count < FEWEST_READINGS)
    return no(
      `The table has ${count} ${count === 1 ? 'reading' : 'readings'} with a time and every direction; ${FEWEST_READINGS} are the least.`,
    );
  const stepSize = median(raw[0].slice(1).map((value, i) => value - raw[0][i]));
  const stated = TIMES.find(([form]) => form.test(time.unit))?.[1];
  // A phone or controller reads 20 to 8000 times a second, which tells the unit of a time that has none.
  const scale = stated ?? [1, 1e-3, 1e-6, 1e-9].find((unit) => stepSize * unit < 0.06) ?? 1;
  const t_s = Float64Array.from(raw[0], (value) => (value - raw[0][0]) * scale);
  const directions = raw.slice(1, 1 + axes.length);
  const [unit, factor, guessed] = unitFrom(axes, directions, given.unit);
  const timeUnit = { 1: 's', 0.001: 'ms', 0.000001: 'µs', 0.000000001: 'ns', 60: 'min' }[scale] ?? 's';
  const notes = [
    ...(stated === undefined ? [`The time has no unit; its steps look like ${timeUnit}.`] : []),
    ...(guessed ? [guessed] : []),
    ...(passed > 0 ? [`${passed} ${passed === 1 ? 'line' : 'lines'} without numbers passed over.`] : []),
    ...(back > 0 ? [`${back} ${back === 1 ? 'reading' : 'readings'} out of order in time left out.`] : []),
  ];
  return {
    ok: true,
    log: {
      t_s,
      axes: axes.map(({ column }, i) => ({
        name: column,
        values: Float64Array.from(directions[i], (value) => value * factor),
      })),
      unit,
      mark: mark ? Float64Array.from(raw[raw.length - 1]) : null,
      columns: [
        { column: time.column, as: 'time', unit: timeUnit },
        ...axes.map(({ column }) => ({
          column,
          as: 'direction',
          unit: unit === 'other' ? 'as logged' : unit,
        })),
        ...(mark ? [{ column: mark.column, as: 'mark once a turn', unit: '' }] : []),
      ],
      notes,
    },
  };
}

function unitFrom(
  axes: readonly Named[],
  values: readonly (readonly number[])[],
  given: ShakeUnit | undefined,
): readonly [ShakeUnit, number, string | null] {
  if (given) return [given, 1, null];
  const stated = unitOf(axes[0].unit);
  if (stated) return [stated[1], stated[2], null];
  if (axes.every(isAcceleration) && axes.length === 3) {
    const weight = median(values[0].map((_, i) => Math.hypot(...values.map((v) => v[i]))));
    if (weight > 8.5 && weight < 11)
      return ['m/s2', 1, 'No unit is named; the steady pull is that of weight in m/s2.'];
    if (weight > 0.85 && weight < 1.15)
      return ['g', 1, 'No unit is named; the steady pull is that of weight in g.'];
  }
  return ['other', 1, 'No unit is named; levels are in the unit of the log, which is enough to balance by.'];
}

export function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  return sorted.length === 0 ? NaN : sorted[sorted.length >> 1];
}
