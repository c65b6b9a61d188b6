/**
 * `npm run speed`: how long the core takes on this machine. A benchmark, not a test: it judges nothing.
 * `npm run speed -- --record` also adds a row to speed/results.csv.
 */
import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { solveAnnulus, type AnnulusInput } from '../src/air/annulus.ts';
import { sectionStream } from '../src/air/section.ts';
import { assess } from '../src/assess/assess.ts';
import { loadKernel } from '../src/make/kernel.ts';
import { make } from '../src/make/make.ts';
import { readProject } from '../src/project/read.ts';
import { formatNumber } from '../src/quantities/format.ts';

const DEMO = new URL('../examples/greenhouse-scout/greenhouse-scout.fanwright.json', import.meta.url);
const RESULTS = new URL('results.csv', import.meta.url);

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

const quantile = (sorted: Float64Array, share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];

/** An annulus at 75 % of the demo's blade, hovering speed. */
const annulus: AnnulusInput = {
  ducted: true,
  bladeCount: 5,
  hubRadius: 0.011,
  tipRadius: 0.038,
  radius: 0.0313,
  solidity: 0.285,
  bladeAngle: 0.4,
  bladeSpeed: 70,
  axialSpeed: 0,
  head: 1.1,
  headReversed: 2,
  gapShare: 0.03,
  swirlFactor: 1,
  swirlRecovery: 0,
  exitSuction: 0,
};
const stream = sectionStream(
  { thickness: 0.08, camber: 0.05, camberPosition: 0.5, trailingEdge: 0.04 },
  55_000,
);

/** As `runFan` does it in its first round: nothing known of the root. */
const solve = () => solveAnnulus(annulus, stream, NaN, 1e-13, force);
const force = new Float64Array(2);

const firstCall = times(1, () => assess(project))[0];
times(100, () => assess(project));
const warm = times(300, () => assess(project));
const BATCH = 1000;
times(20, () => {
  for (let i = 0; i < BATCH; i++) solve();
});
const annuli = times(50, () => {
  for (let i = 0; i < BATCH; i++) solve();
});
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

const rows: readonly (readonly [key: string, words: string, value: number])[] = [
  ['assess_first_ms', 'assess(demo), first call [ms]', firstCall],
  ['assess_median_ms', 'assess(demo), warm, median [ms]', quantile(warm, 0.5)],
  ['assess_p95_ms', 'assess(demo), warm, 95 in 100 below [ms]', quantile(warm, 0.95)],
  [
    'assess_per_s',
    'assess(demo), calls a second, one thread',
    1000 / (warm.reduce((a, b) => a + b) / warm.length),
  ],
  ['annulus_us', 'one annulus solved, median [µs]', (quantile(annuli, 0.5) * 1000) / BATCH],
  ['make_cold_ms', 'make(demo), first call, kernel loaded [ms]', makeCold],
  ['make_warm_ms', 'make(demo), warm, median of 9 [ms]', quantile(makeWarm, 0.5)],
];

const machine = `${cpus().length} cores, ${cpus()[0]?.model.trim() ?? 'unknown processor'}, Node ${process.versions.node}`;
console.log(machine);
for (const [, words, value] of rows) console.log(`  ${words.padEnd(46)}${formatNumber(value).padStart(10)}`);

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
