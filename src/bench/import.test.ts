import fc from 'fast-check';
import { expect, it } from 'vitest';
import { benchRowSchema } from '../project/bench.ts';
import { textFromBytes } from '../project/table.ts';
import { importSteps, importTable, type Imported } from './import.ts';

const SEED = 20_267;

function taken(text: string, options: Parameters<typeof importTable>[1] = {}) {
  const imported = importTable(text, options);
  if (!imported.ok) throw new Error(imported.message);
  return imported;
}
const refused = (text: string, options: Parameters<typeof importTable>[1] = {}): string => {
  const imported = importTable(text, options);
  if (imported.ok) throw new Error('was taken');
  return imported.message;
};
const as = ({ columns }: Extract<Imported, { ok: true }>) => columns.map((c) => `${c.as} ${c.unit}`);

it('takes a table written by hand, with its units from the names', () => {
  const found = taken(
    'Throttle (%),Thrust (g),Voltage,Current (A),RPM\n0,0,12.4,0.1,0\n50,210,12.1,5.2,15000\n',
  );
  expect(as(found)).toEqual(['throttle %', 'scale g', 'voltage V', 'current A', 'rpm rpm']);
  expect(found.rows[1]).toMatchObject({
    throttle: 0.5,
    scale_g: 210,
    voltage_V: 12.1,
    current_A: 5.2,
    rpm: 15_000,
    atRest: false,
  });
  expect(found.rows[0].atRest).toBe(true);
  expect(found.notes).toEqual([]);
});

it('takes decimal commas, a byte order mark, CRLF, blank and text cells, comments', () => {
  const text =
    '\ufeff# Stand im Keller\r\nZeit (s);Gas (%);Waage (kg);Spannung (V);Notiz\r\n0;0;0,0005;12,61;leer\r\n1,5;50;0,212;12,1;\r\n\r\n# Pause\r\n3;;ERR;-;Böe\r\n4,5;100;0,498;11,42;voll\r\n';
  const found = taken(text);
  expect(as(found)).toEqual(['time s', 'throttle %', 'scale g'.replace('g', 'kg'), 'voltage V', 'note ']);
  expect(found.rows.map((row) => row.scale_g)).toEqual([0.5, 212, 498]);
  expect(found.rows[2]).toMatchObject({ t_s: 4.5, throttle: 1, voltage_V: 11.42, note: 'voll' });
  expect(found.notes.join(' ')).toMatch(
    /"Waage \(kg\)" holds a cell that is no number \(first: line 7, "ERR"\)/,
  );
  expect(found.notes.join(' ')).toMatch(/One line without a number was passed over/);
});

it.each([
  ['thrust [N]', 9.80665, 1000],
  ['thrust_kg', 0.25, 250],
  ['Force / mN', 98.0665, 10],
  ['scale oz', 1, 28.349523125],
  ['load (lbf)', 2, 907.18474],
  ['Schub in g', 3, 3],
])('%s of %f is %f g', (name, value, grams) => {
  expect(taken(`${name}\n${value}\n`).rows[0].scale_g).toBeCloseTo(grams, 9);
});

it.each([
  ['speed (Hz)', 100, 6000],
  ['n [1/min]', 6000, 6000],
  ['omega (rad/s)', 100 * Math.PI, 3000],
  ['Drehzahl U/min', 4000, 4000],
  ['rev/s', 50, 3000],
])('%s of %f is %f rpm', (name, value, rpm) => {
  expect(taken(`${name},g\n${value},1\n`).rows[0].rpm).toBeCloseTo(rpm, 9);
});

it.each([
  ['U (mV)', 'voltage_V', 11_800, 11.8],
  ['I (mA)', 'current_A', 450, 0.45],
  ['torque (mNm)', 'torque_Nm', 35, 0.035],
  ['torque (oz-in)', 'torque_Nm', 10, 0.0706155],
  ['time (min)', 't_s', 2, 120],
  ['t_ms', 't_s', 1500, 1.5],
] as const)('%s becomes %s', (name, key, value, expected) => {
  expect(taken(`${name},g\n${value},1\n`).rows[0][key]).toBeCloseTo(expected, 6);
});

it('tells throttle by its range where no unit is given, and asks where it cannot', () => {
  const throttles = (values: string) =>
    taken(
      'throttle;g\n' +
        values
          .split(' ')
          .map((v) => `${v};1`)
          .join('\n'),
    ).rows.map((r) => r.throttle);
  expect(throttles('0 0.5 1')).toEqual([0, 0.5, 1]);
  expect(throttles('0 50 100')).toEqual([0, 0.5, 1]);
  expect(throttles('990 1500 2000')).toEqual([0, 0.5, 1]);
  const odd = taken('throttle;g\n0;1\n2047;2');
  expect(odd.rows[1].throttle).toBeNull();
  expect(odd.notes[0]).toMatch(/runs from 0 to 2047 without a unit.*1\/2047/);
  const said = taken('throttle;g\n0;1\n2047;2', {
    map: [{ column: 'throttle', as: 'throttle', unit: '1/2047' }],
  });
  expect(said.rows[1].throttle).toBeCloseTo(1, 12);
});

it('reads time stamps: clock over midnight, date and time, milliseconds since 1970', () => {
  const times = (text: string) => taken(text).rows.map((row) => row.t_s);
  expect(times('Time,g\n23:59:58,1\n00:00:03.5,2')).toEqual([0, 5.5]);
  expect(times('Timestamp,g\n2026-05-03 10:00:00,1\n2026-05-03T10:01:00Z,2')).toEqual([0, 60]);
  expect(times('Clock,g\n10:15,1\n10:17,2')).toEqual([0, 120]);
  expect(times('time,g\n1780000000000,1\n1780000001500,2')).toEqual([0, 1.5]);
  expect(times('time,g\n01:30,1\n01:45.5,2')).toEqual([0, 15.5]);
});

it('takes units from a line of their own, from the cells, and pasted tables with spaces', () => {
  expect(as(taken('thrust\tvolts\trpm\nN\tmV\tHz\n1\t11000\t200\n'))).toEqual([
    'scale N',
    'voltage mV',
    'rpm Hz',
  ]);
  const cells = taken('Scale\tBattery voltage\n120 g\t11.8V\n0.3 kg\t11.2 V\n');
  expect(cells.rows.map((row) => row.scale_g)).toEqual([120, 300]);
  const pasted = taken('throttle  scale (g)  volts\n 0.2     55         12,1\n 0.4    130         11,9\n');
  expect(pasted.rows[1]).toMatchObject({ throttle: 0.4, scale_g: 130, voltage_V: 11.9 });
  expect(taken('scale g\n12,5\n13,1\n').rows.map((row) => row.scale_g)).toEqual([12.5, 13.1]);
});

it('takes marks of thousands where they stand', () => {
  expect(taken('rpm;scale g\n12.345;100,5\n23.456;200,1\n').rows.map((r) => r.rpm)).toEqual([12_345, 23_456]);
  expect(taken('rpm\tscale g\n12,345\t100.5\n23,456\t200.1\n').rows.map((r) => r.rpm)).toEqual([
    12_345, 23_456,
  ]);
  expect(taken("rpm;scale g\n12'345;100\n23 456;200\n").rows.map((r) => r.rpm)).toEqual([12_345, 23_456]);
});

it('says which of two columns it took, leaves out what is something else, and does what it is told', () => {
  const text =
    'air speed (m/s),motor temperature (C),thrust A (g),thrust B (g),efficiency (g/W)\n3,40,100,120,5\n';
  const found = taken(text);
  expect(found.columns.map((c) => c.as)).toEqual([null, null, 'scale', null, null]);
  expect(found.notes[0]).toMatch(/"thrust B \(g\)" looks like scale too/);
  expect(taken(text, { map: [{ column: 'thrust B (g)', as: 'scale' }] }).rows[0].scale_g).toBe(120);
  expect(taken(text, { map: [{ column: '5', as: 'rpm', unit: 'Hz' }] }).rows[0].rpm).toBe(300);
  expect(
    taken('eRPM,g\n70000,1', { map: [{ column: 'erpm', as: 'rpm', unit: '1/7' }] }).rows[0].rpm,
  ).toBeCloseTo(10_000, 9);
  expect(taken('eRPM,g\n70000,1').rows[0].rpm).toBeNull();
  expect(refused(text, { map: [{ column: 'nope', as: 'scale' }] })).toMatch(
    /There is no column "nope"; the columns are "air speed/,
  );
  expect(refused(text, { map: [{ column: '9', as: 'scale' }] })).toBe(
    'There is no column 9; the table has 5.',
  );
  expect(refused(text, { map: [{ column: '3', as: 'scale', unit: 'V' }] })).toMatch(
    /"V" is no unit of scale; it may be g, kg/,
  );
});

it('works out the current from power', () => {
  const found = taken('V,W,g\n10,25,100\n');
  expect(found.rows[0].current_A).toBeCloseTo(2.5, 12);
  expect(found.notes).toContain('Current was worked out from power and voltage.');
});

it.each([
  ['', /empty/],
  ['\n\n', /empty/],
  ['hello there\nno numbers\n', /No line of the table holds a number/],
  ['a1,b1\n1,2\n', /No column could be told by its name. The columns are "a1", "b1"/],
  ['1,2,3\n4,5,6\n', /No column could be told by its name. The columns are "column 1"/],
  ['throttle,scale g\n0,5,12,1\n0,6,13,4\n', /commas stand both between the columns and within the numbers/],
])('refuses %j with a sentence', (text, sentence) => {
  expect(refused(text)).toMatch(sentence);
});

it('keeps the log as it was read, of a long one the beginning, and how it was taken', () => {
  const text = 'g\r\n' + '1,5\r\n'.repeat(60_000);
  const { source } = taken(text, { name: 'scale.csv' });
  expect(source).toMatchObject({ name: 'scale.csv', length: text.length });
  expect(source.text).toBe(text.slice(0, 200_000));
  expect(source.columns).toEqual([{ column: 'g', as: 'scale', unit: 'g' }]);
});

/** A stand log at 100 a second: rest, four steps of throttle with a settling scale, rest. */
function log(rows: number, ramp = false): string {
  const lines = ['t_ms,throttle_us,thrust_g,voltage_V'];
  let scale = 0;
  let x = 1234567;
  for (let i = 0; i < rows; i++) {
    x = (x * 1103515245 + 12345) % 2147483648;
    const step = [0, 0.25, 0.5, 0.75, 1, 0][Math.min(5, Math.floor((6 * i) / rows))];
    const throttle = ramp ? i / rows : step;
    scale += (500 * throttle ** 2 - scale) * Math.min(1, 300 / rows);
    const noise = (x / 2147483648 - 0.5) * 6;
    lines.push(
      `${i * 10},${1000 + Math.round(1000 * throttle)},${(scale + noise).toFixed(2)},${(12 - throttle).toFixed(2)}`,
    );
  }
  return lines.join('\n');
}

it('thins a logger to its steady stretches, without what settles', () => {
  const found = taken(log(6000));
  expect(found.thinned).toBe(true);
  expect(found.rows.map((row) => row.throttle)).toEqual([0, 0.25, 0.5, 0.75, 1, 0]);
  const thrusts = [0, 31.25, 125, 281.25, 500, 0];
  found.rows.forEach((row, i) => expect(Math.abs(row.scale_g! - thrusts[i])).toBeLessThan(1.5));
  expect(found.rows[2].scatter_g).toBeGreaterThan(1.5);
  expect(found.rows[2].scatter_g).toBeLessThan(2.2);
  expect(found.rows.map((row) => row.atRest)).toEqual([true, false, false, false, false, true]);
  expect(found.notes.join(' ')).toMatch(/6000 readings were thinned to 6 steady stretches/);
});

it('cuts a slow ramp into steps and says so', () => {
  const found = taken(log(6000, true));
  expect(found.rows.length).toBeGreaterThan(15);
  expect(found.rows.length).toBeLessThanOrEqual(20);
  expect(found.notes.join(' ')).toMatch(/without a steady stretch, as in a slow ramp/);
});

it('takes a million rows with progress, in a few seconds', () => {
  const text = log(1_000_000);
  const start = performance.now();
  const steps = importSteps(text);
  let reports = 0;
  let last = 0;
  for (;;) {
    const step = steps.next();
    if (step.done) {
      if (!step.value.ok) throw new Error(step.value.message);
      expect(step.value.readings).toBe(1_000_000);
      expect(step.value.rows.map((row) => row.throttle)).toEqual([0, 0.25, 0.5, 0.75, 1, 0]);
      break;
    }
    expect(step.value.done).toBeGreaterThanOrEqual(last);
    last = step.value.done;
    reports++;
  }
  expect(reports).toBeGreaterThan(40);
  const took = performance.now() - start;
  expect(took).toBeLessThan(15_000);
}, 30_000);

/** Any text gives rows that a project file takes, or a sentence. */
function holds(text: string): boolean {
  const imported = importTable(text);
  if (!imported.ok) {
    expect(imported.message).toMatch(/^[A-Z"][^]*\.$/u);
    expect(imported.message.length).toBeLessThan(900);
    return false;
  }
  expect(imported.rows.length).toBeGreaterThan(0);
  for (const row of imported.rows) expect(benchRowSchema.parse(row)).toEqual(row);
  for (const note of imported.notes) expect(note).toMatch(/[.?]$/);
  return true;
}

const cell = fc.oneof(
  fc.constantFrom(
    '',
    '-',
    'ERR',
    '12,5',
    '12.5',
    '1e400',
    '-0',
    '1.234,5',
    '10:15:03',
    '120 g',
    '"a;b"',
    '"',
    'thrust (g)',
    '%',
    'NaN',
    '1e9',
    '\u2212 3',
    '#',
    '2026-13-45 99:99',
  ),
  fc.double({ noNaN: true }).map(String),
  fc.integer({ min: -2000, max: 30_000 }).map(String),
  fc.string({ maxLength: 8 }),
);
const table = fc
  .tuple(
    fc.constantFrom(',', ';', '\t', '  ', ' '),
    fc.constantFrom('\n', '\r\n', '\r', '\n\n'),
    fc.array(
      fc.constantFrom(
        'throttle',
        'thrust (g)',
        'Zeit',
        'U [mV]',
        'I',
        'rpm',
        'note',
        'W',
        'torque (gcm)',
        'x',
        '',
      ),
      { minLength: 1, maxLength: 7 },
    ),
    fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 40 }),
  )
  .map(([between, end, names, rows]) => [names, ...rows].map((row) => row.join(between)).join(end));

it(`any table gives rows that a file takes, or a sentence (seed ${SEED})`, () => {
  let read = 0;
  fc.assert(
    fc.property(table, (text) => void (read += Number(holds(text)))),
    { seed: SEED, numRuns: 1500 },
  );
  expect(read).toBeGreaterThan(300);
  expect(read).toBeLessThan(1450);
});

it(`any bytes give text or a sentence, and any text rows or a sentence (seed ${SEED})`, () => {
  const bytes = fc.oneof(
    fc.uint8Array({ maxLength: 300 }),
    fc.string({ maxLength: 300, unit: 'binary' }).map((s) => new TextEncoder().encode(s)),
    table.map((text) => new TextEncoder().encode(text)),
    table.map((text) =>
      Uint8Array.from([
        0xff,
        0xfe,
        ...[...text].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8]),
      ]),
    ),
  );
  fc.assert(
    fc.property(bytes, (input) => {
      const read = textFromBytes(input);
      if (read.ok) holds(read.text);
      else expect(read.message).toMatch(/^The file .*\.$/);
    }),
    { seed: SEED, numRuns: 800 },
  );
});

it('reads UTF-16 and the old one-byte Western set', () => {
  const wide = Uint8Array.from([0xff, 0xfe, ...[...'µ'].flatMap((c) => [c.charCodeAt(0), 0])]);
  expect(textFromBytes(wide)).toEqual({ ok: true, text: 'µ' });
  expect(textFromBytes(Uint8Array.from([0xb0, 0x43]))).toEqual({ ok: true, text: '°C' });
  expect(textFromBytes(new Uint8Array(4))).toMatchObject({ ok: false });
});
