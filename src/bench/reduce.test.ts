import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { seededRandom } from '../numerics/random.ts';
import { benchRunSchema, type BenchRun } from '../project/bench.ts';
import { readProject } from '../project/read.ts';
import { GRAVITY } from '../quantities/constants.ts';
import { compareRun } from './compare.ts';
import { reduceRun } from './reduce.ts';

const read = readProject(
  readFileSync(new URL('../../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url)),
);
if (!read.ok) throw new Error('the example does not read');
const { project } = read;
const fans = project.craft.fanCount;

const runOf = (part: Record<string, unknown>): BenchRun => benchRunSchema.parse(part);
const gramsOf = (newtons: number) => (newtons / GRAVITY) * 1000;

/** What the assessment predicts at some throttles, as rows of one fan that presses on a scale. */
const predicted = [0.3, 0.5, 0.7, 0.9, 1].map((throttle) => ({
  throttle,
  at: assess(project, { throttle }).fan.atThrottle!,
}));
const rowsOf = (thrustFactor = 1, fansRunning = 1) =>
  predicted.map(({ throttle, at }) => ({
    throttle,
    scale_g: gramsOf(at.thrust_N * thrustFactor * fansRunning),
    voltage_V: at.batteryVoltage_V,
    current_A: at.batteryCurrent_A * fansRunning,
    rpm: at.rpm,
  }));
const pressing = { kind: 'fan pressing down', scaleResolution_g: 0.1 };
const rest = { throttle: 0, scale_g: 0, rpm: 0 };

it('gives back thrust, torque, power, figure of merit and grams a watt of a run made of predictions', () => {
  const reduced = reduceRun(project, runOf({ rig: pressing, rows: [rest, ...rowsOf(), rest] }));
  expect(reduced.points.map((p) => p.throttle)).toEqual([0.3, 0.5, 0.7, 0.9, 1]);
  reduced.points.forEach((point, i) => {
    const { at } = predicted[i];
    expect(point.thrust_N.value).toBeCloseTo(at.thrust_N, 9);
    expect(point.electricalPower_W!.value).toBeCloseTo(at.electricalPower_W, 6);
    // Back through the motor's equations: an exact inverse of the drive.
    expect(point.torque_Nm!.value / at.torque_Nm).toBeCloseTo(1, 5);
    expect(point.torqueFrom).toBe('motor');
    expect(point.figureOfMerit!.value / at.figureOfMerit).toBeCloseTo(1, 4);
    expect(point.gramsPerWatt!.value / at.gramsPerWatt).toBeCloseTo(1, 6);
    for (const interval of [point.thrust_N, point.torque_Nm!, point.ct!, point.cp!, point.figureOfMerit!])
      expect(interval.low < interval.value && interval.value < interval.high).toBe(true);
  });
  expect(reduced.hoverShare!.atThisThrottle.value).toBeCloseTo(assess(project).craft.thrustToWeight, 6);
  expect(reduced.hoverShare!.extrapolated).toBe(false);
});

it('carries part throttle on to full, says so, and holds the truth in its interval', () => {
  const truth = assess(project).craft.thrustToWeight;
  for (const upTo of [1, 2, 3]) {
    const { hoverShare } = reduceRun(
      project,
      runOf({ rig: pressing, rows: [rest, ...rowsOf().slice(0, upTo)] }),
    );
    const { fullThrottle, extrapolated, words } = hoverShare!;
    expect(extrapolated).toBe(true);
    expect(fullThrottle!.value / truth).toBeCloseTo(1, 2);
    expect(fullThrottle!.low).toBeLessThan(truth);
    expect(fullThrottle!.high).toBeGreaterThan(truth);
    expect(words).toMatch(
      /^This is \d+\s% \(\d+ to \d+\) of what hover needs at this throttle \(\d0\s%\); full throttle would give \d+\s% \(\d+ to \d+\), carried on beyond what was read\./,
    );
  }
});

it('learns from lower throttles that thrust grows otherwise than the model says', () => {
  // The drive of the project, but a thrust that falls behind at low speed, as with a blade too small for its air.
  const steeper = (i: number) => predicted[i].at.thrust_N * predicted[i].throttle ** 0.8;
  const rows = [0, 1, 2].map((i) => ({ throttle: predicted[i].throttle, scale_g: gramsOf(steeper(i)) }));
  const { hoverShare, needed_N } = reduceRun(project, runOf({ rig: pressing, rows: [rest, ...rows, rest] }));
  const truth = steeper(4) / needed_N.value;
  const unlearned = (steeper(2) * predicted[4].at.thrust_N) / predicted[2].at.thrust_N / needed_N.value;
  expect(hoverShare!.fullThrottle!.value / truth).toBeGreaterThan((1 + unlearned / truth) / 2);
  const { low, high } = hoverShare!.fullThrottle!;
  expect(low).toBeLessThan(truth);
  expect(high).toBeGreaterThan(truth);
});

it('takes the craft on the scale, a lever and a load cell hung either way', () => {
  const thrust = predicted[4].at.thrust_N;
  const one = (rig: object, scale_g: number, zero_g: number) =>
    reduceRun(
      project,
      runOf({
        rig,
        rows: [
          { ...rest, scale_g: zero_g },
          { throttle: 1, scale_g },
        ],
      }),
    );
  const craft = one({ kind: 'craft on the scale', fansRunning: fans }, 640 - fans * gramsOf(thrust), 640);
  expect(craft.points[0].thrust_N.value).toBeCloseTo(thrust, 9);
  const lever = one({ kind: 'lever', leverRatio: 0.5 }, 100 + 2 * gramsOf(thrust), 100);
  expect(lever.points[0].thrust_N.value).toBeCloseTo(thrust, 9);
  const cell = one({ kind: 'load cell' }, 10 - gramsOf(thrust), 10);
  expect(cell.points[0].thrust_N.value).toBeCloseTo(thrust, 9);
  expect(cell.remarks.map((r) => r.path)).toContain('rig.reading');
  const wrong = one({ kind: 'fan pressing down' }, 10 - gramsOf(thrust), 10);
  expect(wrong.points[0].thrust_N.value).toBeCloseTo(-thrust, 9);
  expect(wrong.remarks.find((r) => r.path === 'rig.reading')?.text).toMatch(/wrong way/);
  expect(wrong.hoverShare!.words).toMatch(/pushes the wrong way/);
});

it('takes drift out along the run and uses time where every row has it', () => {
  const drift = (t: number) => 0.2 * t;
  const rows = [0, 10, 20, 50, 100].map((t_s, i) => ({
    t_s,
    throttle: i === 0 || i === 4 ? 0 : 0.25 * i,
    scale_g: drift(t_s) + (i === 0 || i === 4 ? 0 : 100 * i),
  }));
  const { points, zero, remarks } = reduceRun(
    project,
    runOf({ rig: { ...pressing, scaleResolution_g: 1 }, rows }),
  );
  points.forEach((p, i) => expect(gramsOf(p.thrust_N.value)).toBeCloseTo(100 * (i + 1), 9));
  expect(zero).toMatchObject({ from: 'readings at rest', first_g: 0, last_g: 20 });
  expect(remarks.map((r) => r.text).join(' ')).toMatch(/drifted by 20.0 g/);
});

it('says where the zero comes from when no rest was read', () => {
  const zeroOf = (rig: object) =>
    reduceRun(project, runOf({ rig, rows: [{ throttle: 1, scale_g: 50 }] })).zero;
  expect(zeroOf({ kind: 'craft on the scale' }).from).toBe('mass of the craft');
  expect(zeroOf({ kind: 'craft on the scale', massAtRest_g: 612 })).toMatchObject({
    from: 'mass at rest',
    first_g: 612,
  });
  expect(zeroOf({ kind: 'load cell' }).from).toBe('taken as zero');
});

it('joins repeats, and their scatter widens the interval', () => {
  const of = (grams: number[]) =>
    reduceRun(
      project,
      runOf({
        rig: { ...pressing, scaleError_ratio: 0 },
        rows: [rest, ...grams.map((scale_g) => ({ throttle: 0.5, scale_g })), rest],
      }),
    );
  const calm = of([100, 100.1, 99.9]);
  const wild = of([100, 110, 90]);
  expect(calm.points).toHaveLength(1);
  expect(calm.points[0].rows).toEqual([1, 2, 3]);
  expect(gramsOf(calm.points[0].thrust_N.value)).toBeCloseTo(100, 9);
  // Student: 2.92 x 10 / sqrt(3)
  expect(gramsOf(wild.points[0].thrustOwn_N)).toBeCloseTo((2.92 * 10) / Math.sqrt(3), 1);
  expect(gramsOf(calm.points[0].thrustOwn_N)).toBeLessThan(0.3);
});

it(`9 of 10 intervals of thrust hold the truth, over 400 rigs (seed 7)`, () => {
  const { even, normal } = seededRandom(7);
  let inside = 0;
  let count = 0;
  for (let k = 0; k < 400; k++) {
    const step = [0.1, 1, 2, 5][k % 4];
    const scale = 1 + (0.01 / 1.645) * normal();
    const noise = 0.5 + 1.5 * even();
    const shown = (grams: number) => Math.round((grams * scale + noise * normal()) / step) * step;
    const rows = [
      { ...rest, scale_g: shown(0) },
      ...[0.4, 0.4, 0.4, 0.8, 0.8, 0.8].map((throttle) => ({ throttle, scale_g: shown(300 * throttle) })),
      { ...rest, scale_g: shown(0) },
    ];
    const { points } = reduceRun(project, runOf({ rig: { ...pressing, scaleResolution_g: step }, rows }));
    for (const p of points) {
      count++;
      const truth = (300 * p.throttle! * GRAVITY) / 1000;
      if (p.thrust_N.low <= truth && truth <= p.thrust_N.high) inside++;
    }
  }
  expect(inside / count).toBeGreaterThan(0.85);
  expect(inside / count).toBeLessThan(0.98);
});

it('uses the air of the bench, the weighed mass, and leaves readings out', () => {
  const rows = [rest, { throttle: 1, scale_g: 100 }, { throttle: 1, scale_g: 900, leftOut: true }];
  const warm = reduceRun(
    project,
    runOf({ rig: pressing, rows, air: { temperature_C: 35, pressure_hPa: 900 } }),
  );
  expect(warm.air.density).toBeCloseTo(90_000 / (287.05287 * 308.15), 6);
  expect(gramsOf(warm.points[0].thrust_N.value)).toBeCloseTo(100, 9);
  expect(warm.unused).toBe(1);
  const heavy = reduceRun(project, runOf({ rig: pressing, rows, observed: { craftMass_g: 1000 } }));
  expect(heavy.neededFrom).toBe('weighed');
  expect(gramsOf(heavy.needed_N.value)).toBeGreaterThanOrEqual(1000 / fans);
});

it('tells what the rig does: a pan that catches the jet, a table near the exit', () => {
  const effects = (rig: object) =>
    reduceRun(project, runOf({ rig, rows: [rest, { throttle: 1, scale_g: -50 }] })).rigEffects;
  const caught = effects({ kind: 'fan lifting off', panWidth_mm: 400, distanceToPan_mm: 20 });
  expect(caught.find((e) => e.id === 'jet on the pan')!.factor.value).toBeCloseTo(0, 6);
  expect(
    effects({ kind: 'fan lifting off', panWidth_mm: 30, distanceToPan_mm: 100 })[0].factor.value,
  ).toBeGreaterThan(0.7);
  expect(effects({ kind: 'fan lifting off', distanceToPan_mm: 2000 })).toEqual([]);
  expect(effects({ kind: 'load cell', panWidth_mm: 400 })).toEqual([]);
});

it('refuses a torque that the motor cannot have at that speed, and says so', () => {
  const rows = [rest, { throttle: 1, scale_g: 100, voltage_V: 5, current_A: 2, rpm: 60_000 }];
  const { points, remarks } = reduceRun(
    project,
    runOf({
      rig: pressing,
      rows: [...rows, { throttle: 0.6, scale_g: 50, voltage_V: 5, current_A: 1, rpm: 60_000 }],
    }),
  );
  expect(points[0].torque_Nm).toBeNull();
  expect(remarks.map((r) => r.text).join(' ')).toMatch(/cannot have at once/);
});

it('compares: as predicted all round; weak blades on the air side; a weak pack on the drive side', () => {
  const bench = { rig: pressing, battery: { charge_ratio: 0.5 } };
  const four = { ...bench, rig: { ...pressing, fansRunning: fans } };
  const compare = (part: object, rows: object[]) => {
    const run = runOf({
      ...part,
      rows: [{ ...rest, current_A: project.craft.auxiliaryPower_W / 12 }, ...rows],
    });
    const found = compareRun(project, run, reduceRun(project, run));
    return { ...found, last: found.points.at(-1)!.ratios };
  };
  const same = compare(four, rowsOf(1, fans));
  expect(same.last.air!.value).toBeCloseTo(1, 6);
  expect(same.last.drive!.value).toBeCloseTo(1, 1);
  expect(same.last.total!.low).toBeLessThan(1);
  expect(same.last.total!.high).toBeGreaterThan(1);
  const weak = compare(four, rowsOf(0.7, fans));
  expect(weak.last.air!.value).toBeCloseTo(0.7, 6);
  expect(weak.last.air!.low).toBeGreaterThan(0.5);
  expect(weak.words.at(-1)).toMatch(/lies on the air side/);
  const slow = compare(
    four,
    predicted.map(({ throttle, at }) => ({
      throttle,
      scale_g: gramsOf(at.thrust_N * 0.64 * fans),
      rpm: at.rpm * 0.8,
      voltage_V: at.batteryVoltage_V * 0.78,
    })),
  );
  expect(Math.abs(slow.last.air!.value - 1)).toBeLessThan(0.05);
  expect(slow.last.drive!.value).toBeLessThan(0.72);
  expect(slow.last.pack!.value * slow.last.motor!.value).toBeCloseTo(slow.last.drive!.value, 6);
  expect(slow.last.pack!.value).toBeLessThan(0.75);
  expect(slow.words.at(-1)).toMatch(/lies on the drive side/);
  const lone = compare(bench, [{ throttle: 1, scale_g: 80 }]);
  expect(lone.words.join(' ')).toMatch(/cannot be told apart; a recording/);
});

it('any run the schema takes reduces and compares without a throw or a stray number (seed 11)', () => {
  const maybe = (low: number, high: number) =>
    fc.option(fc.double({ min: low, max: high, noNaN: true }), { nil: null });
  const row = fc.record({
    t_s: maybe(0, 1000),
    throttle: maybe(0, 1),
    scale_g: maybe(-2000, 2000),
    voltage_V: maybe(-1, 30),
    current_A: maybe(-1, 80),
    rpm: maybe(0, 90_000),
    torque_Nm: maybe(-1, 1),
    atRest: fc.boolean(),
    leftOut: fc.boolean(),
  });
  const rig = fc.record({
    kind: fc.constantFrom('craft on the scale', 'fan pressing down', 'fan lifting off', 'lever', 'load cell'),
    fansRunning: fc.integer({ min: 1, max: 12 }),
    massAtRest_g: maybe(0, 1000),
    distanceToPan_mm: maybe(0, 2000),
    panWidth_mm: maybe(1, 2000),
  });
  fc.assert(
    fc.property(fc.array(row, { maxLength: 8 }), rig, (rows, rigPart) => {
      const run = runOf({ rows, rig: rigPart });
      const reduced = reduceRun(project, run);
      const { words } = compareRun(project, run, reduced);
      for (const text of [
        ...words,
        ...reduced.remarks.map((r) => r.text),
        reduced.hoverShare?.words ?? 'none.',
      ])
        expect(text).not.toMatch(/NaN|undefined|Infinity|unknown rpm/);
      for (const p of reduced.points) expect(Number.isFinite(p.thrust_N.low + p.thrust_N.high)).toBe(true);
    }),
    { seed: 11, numRuns: 60 },
  );
});
