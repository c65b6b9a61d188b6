/** The measurements of `npm run speed`; speed.ts bundles and starts it: node measure.js ROOT SCRATCH [--record]. */
import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { runFan } from '../src/air/fan.ts';
import { centreBodyOutline } from '../src/air/flow/outline.ts';
import { solveFlow, type FlowCase } from '../src/air/flow/solve.ts';
import { rotorOfFan } from '../src/air/rotor.ts';
import { assess } from '../src/assess/assess.ts';
import { modelOf } from '../src/assess/model.ts';
import { makeRecording } from '../src/bench/tach/recordings.ts';
import { tachometer } from '../src/bench/tach/tach.ts';
import { loadKernel } from '../src/make/kernel.ts';
import { printSet } from '../src/make/layers/set.ts';
import { make } from '../src/make/make.ts';
import { makePart } from '../src/make/part.ts';
import { readProject } from '../src/project/read.ts';
import { formatNumber } from '../src/quantities/format.ts';
import { evenValues, sweepBlocks, sweepPlan } from '../src/study/sweep.ts';
import { uncertaintyOf } from '../src/study/uncertainty.ts';
import { fanProfiles } from '../src/shape/profiles.ts';
import { kernelClock } from './kernel-time.ts';
import { buildYardstick } from './yardstick.ts';

const [root, scratch] = process.argv.slice(2, 4);
const DEMO = join(root, 'examples/greenhouse-scout/greenhouse-scout.fanwright.json');
const RESULTS = join(root, 'speed/results.csv');

const read = readProject(readFileSync(DEMO));
if (!read.ok) throw new Error('The demo project cannot be read.');
const { project } = read;

/** Milliseconds of each of `count` calls. */
function times(count: number, call: () => unknown): Float64Array {
  const spent = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const began = performance.now();
    call();
    spent[i] = performance.now() - began;
  }
  return spent.sort();
}

const quantile = (sorted: ArrayLike<number>, share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];

const median = (values: readonly number[]): number => quantile(Float64Array.from(values).sort(), 0.5);

const ANNULI = 40;
const TURNS = 101;
const ROUNDS = 10;
const SPEEDS = Array.from({ length: 25 }, (_, i) => 800 + 50 * i);

/** Largest difference of thrust or torque from the C program's, over its size, that counts as the same. */
const SAME = 1e-9;

interface PointTimes {
  readonly ours_us: number;
  readonly c_us: number;
  readonly ratio: number;
  readonly difference: number;
}

/**
 * Time of one operating point of the demo's ducted fan in 40 annuli, here and in C by turns, so that both meet the same
 * machine; c_us and the rest NaN where there is no C compiler. Throws where the two do not agree.
 */
function operatingPoint(): PointTimes {
  const model = modelOf(project);
  const { passage, air } = model;
  if (!passage) throw new Error('The demo has no duct.');
  const rotor = rotorOfFan(project.fan, {}, ANNULI);
  const run = (omega: number) => runFan(rotor, passage, air, { omega, axialSpeed: 0 });
  const ours = (rounds: number) => {
    // Once through before the clock starts, as the C program does.
    SPEEDS.forEach(run);
    const began = performance.now();
    for (let k = 0; k < rounds; k++) for (const omega of SPEEDS) run(omega);
    return ((performance.now() - began) * 1000) / (rounds * SPEEDS.length);
  };
  ours(300);
  const yardstick = buildYardstick(join(root, 'speed/annulus.c'), scratch);
  if (!yardstick) {
    console.log('No C compiler on this machine, so the comparison with C is left out.');
    const alone = Array.from({ length: TURNS }, () => ours(ROUNDS));
    return { ours_us: median(alone), c_us: NaN, ratio: NaN, difference: NaN };
  }
  const { thrust, torque } = yardstick.run(rotor, passage, air, SPEEDS, 1);
  const differs = (a: number, b: number) => Math.abs(a / b - 1);
  const difference = Math.max(
    ...SPEEDS.map(run).flatMap((r, i) => [differs(r.thrust, thrust[i]), differs(r.torque, torque[i])]),
  );
  if (!(difference <= SAME))
    throw new Error(
      `speed/annulus.c and runFan differ by ${difference} of thrust or torque: not the same solve.`,
    );
  const here: number[] = [];
  const there: number[] = [];
  for (let turn = 0; turn < TURNS; turn++) {
    here.push(ours(ROUNDS));
    there.push(yardstick.run(rotor, passage, air, SPEEDS, ROUNDS).each_ns / 1000);
  }
  return {
    ours_us: median(here),
    c_us: median(there),
    ratio: median(here.map((t, i) => t / there[i])),
    difference,
  };
}

/** Potential flow about the demo's duct and body, 150 and 50 elements, at its hover thrust. */
function panelCase(): FlowCase {
  const model = modelOf(project);
  const { duct, hub, motor, seat, tailCone, layout } = fanProfiles(project.fan, project.motor);
  if (!duct) throw new Error('The demo has no duct.');
  return {
    duct,
    centreBody: centreBodyOutline(
      [hub, motor, seat, tailCone].filter((p) => p !== null),
      true,
    ),
    discZ: layout.rotorZ,
    density: model.air.density,
    freeStream: 0,
    duty: { thrust: model.needed },
    ductPanels: 150,
    centrePanels: 50,
  };
}

/** A minute of a fan in noise as loud as itself, with hum: the longer way through the tachometer. */
function minuteOfSound(): () => unknown {
  const sampleRate = 48_000;
  const samples = makeRecording({
    seed: 1,
    sampleRate,
    duration_s: 60,
    fans: [{ rpm: () => 14_200, blades: 5 }],
    noise_dB: 0,
    pink: 0.5,
    hum: { mains_Hz: 50, level_dB: 0 },
    jitter: 0.001,
  });
  return () => tachometer({ samples, sampleRate, blades: 5, expect_rpm: { low: 1500, high: 28_000 } });
}

/**
 * Milliseconds a design of a sweep in tip diameter and speed per volt takes, without sound, on one thread, and by how much
 * memory has grown after it [MB].
 */
function sweepTimes(): { readonly each_ms: number; readonly grown_MB: number } {
  const side = (path: string, from: number, to: number) => ({ path, values: evenValues(path, from, to, 60) });
  const made = sweepPlan(
    project,
    [side('fan.tipDiameter_mm', 55, 70), side('motor.velocityConstant_rpmPerV', 2500, 4500)],
    { sound: false },
  );
  if (!made.ok) throw new Error(made.why);
  const blocks = sweepBlocks(made.plan);
  blocks.next();
  const before = process.memoryUsage().rss;
  const began = performance.now();
  let designs = 0;
  for (const { from, to } of blocks) designs += to - from;
  return {
    each_ms: (performance.now() - began) / designs,
    grown_MB: (process.memoryUsage().rss - before) / 1e6,
  };
}

const firstCall = times(1, () => assess(project))[0];
times(100, () => assess(project));
const warm = times(300, () => assess(project));
times(2, () => uncertaintyOf(project));
const intervals = times(9, () => uncertaintyOf(project));
const swept = sweepTimes();
const point = operatingPoint();
const flow = panelCase();
times(10, () => solveFlow(flow));
const panels = times(31, () => solveFlow(flow));
const listen = minuteOfSound();
times(2, listen);
const heard = times(9, listen);
const begunCold = performance.now();
const kernel = await loadKernel();
await make(project, { kernel });
const makeCold = performance.now() - begunCold;
const makeWarm = new Float64Array(9);
for (let i = 0; i < makeWarm.length; i++) {
  const began = performance.now();
  await make(project, { kernel });
  makeWarm[i] = performance.now() - began;
}
makeWarm.sort();
// The yardstick of solids: of the same work, the part that the kernel itself takes.
const clock = kernelClock(kernel);
const shares: number[] = [];
for (let i = 0; i < 5; i++) {
  clock.take();
  const began = performance.now();
  await make(project, { kernel });
  shares.push((performance.now() - began) / clock.take());
}
clock.stop();
// Layers of 0.1 mm, ways to lie not searched: what "Read the layers" does before it compares ways.
const thin = { ...project, printer: { ...project.printer, layer_mm: 0.1 } };
const set = await make(thin, { kernel });
const layers = times(5, () => printSet(kernel, thin, set, { ways: false }));
const layersAndWays = times(5, () => printSet(kernel, thin, set));
let turn_deg = 0;
const otherBlade = () => {
  turn_deg += 0.01;
  const blade = project.fan.blade.map((s) => ({ ...s, angle_deg: s.angle_deg + turn_deg }));
  return makePart(kernel, { ...project, fan: { ...project.fan, blade } }, 'rotor', { quality: 'coarse' });
};
times(3, otherBlade);
const bladeChanged = times(21, otherBlade);

const rows: readonly (readonly [key: string, words: string, value: number])[] = [
  ['assess_first_ms', 'assess(demo), first call [ms]', firstCall],
  ['assess_median_ms', 'assess(demo), warm, median [ms]', quantile(warm, 0.5)],
  ['assess_p95_ms', 'assess(demo), warm, 95 in 100 below [ms]', quantile(warm, 0.95)],
  [
    'assess_per_s',
    'assess(demo), calls a second, one thread',
    1000 / (warm.reduce((a, b) => a + b) / warm.length),
  ],
  ['fan_us', 'operating point, 40 annuli, median [µs]', point.ours_us],
  ['fan_c_us', 'the same in C, median [µs]', point.c_us],
  ['fan_over_c', `TypeScript over C, median of ${TURNS} turns`, point.ratio],
  ['fan_c_difference', 'largest difference from C, relative', point.difference],
  ['panels_ms', 'potential flow, 200 elements, median [ms]', quantile(panels, 0.5)],
  ['make_cold_ms', 'make(demo), first call, kernel loaded [ms]', makeCold],
  ['make_warm_ms', 'make(demo), warm, median of 9 [ms]', quantile(makeWarm, 0.5)],
  ['tach_minute_ms', 'tachometer, 60 s of sound, median of 9 [ms]', quantile(heard, 0.5)],
  ['make_over_kernel', 'make(demo) over the kernel’s own time, median of 5', median(shares)],
  ['blade_ms', 'other blade to a new rotor to look at, median [ms]', quantile(bladeChanged, 0.5)],
  ['layers_ms', 'demo set layer by layer at 0.1 mm, median of 5 [ms]', quantile(layers, 0.5)],
  ['layers_ways_ms', 'the same with the ways to lay each part [ms]', quantile(layersAndWays, 0.5)],
  ['intervals_2000_ms', 'intervals of 2 000 samples with drivers, median [ms]', quantile(intervals, 0.5)],
  ['sweep_design_ms', 'sweep, one design without sound, one thread [ms]', swept.each_ms],
  ['sweep_grown_MB', 'memory grown over 3 536 designs [MB]', swept.grown_MB],
];

const shown = (value: number) => (Math.abs(value) < 1e-3 ? value.toExponential(1) : formatNumber(value));

const machine = `${cpus().length} cores, ${cpus()[0]?.model.trim() ?? 'unknown processor'}, Node ${process.versions.node}`;
console.log(machine);
for (const [, words, value] of rows)
  if (!Number.isNaN(value)) console.log(`  ${words.padEnd(46)}${shown(value).padStart(10)}`);

if (process.argv.includes('--record')) {
  if (!existsSync(RESULTS))
    writeFileSync(RESULTS, ['date', 'machine', ...rows.map(([key]) => key)].join(',') + '\n');
  const cells = [
    new Date().toISOString().slice(0, 10),
    `"${machine}"`,
    ...rows.map(([, , v]) => v.toPrecision(4)),
  ];
  appendFileSync(RESULTS, cells.join(',') + '\n');
  console.log('recorded in speed/results.csv');
}
