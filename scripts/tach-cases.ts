/**
 * Holds the tachometer to more random cases than a test has time for, and prints how well its stated chances hold:
 * `node scripts/cli.mjs --run scripts/tach-cases.ts [cases] [first seed] [seconds of sound each]`.
 */
import { randomCase } from '../src/bench/tach/cases.ts';
import { makeRecording } from '../src/bench/tach/recordings.ts';
import { tachometer } from '../src/bench/tach/tach.ts';

const [cases = 500, first = 0, seconds = 3] = process.argv.slice(2).map(Number);
let [lost, outside, octaves] = [0, 0, 0];
const errors: number[] = [];
const chances: { readonly said: number; readonly right: boolean }[] = [];
for (let seed = first; seed < first + cases; seed++) {
  const { request, blades, truth, expect_rpm } = randomCase(seed, seconds);
  const { sampleRate } = request;
  const { rpm, confidence } = tachometer({ samples: makeRecording(request), sampleRate, blades, expect_rpm });
  const error = rpm === null ? NaN : Math.abs(rpm / truth - 1);
  if (rpm === null) lost++;
  else if (error > 0.005) outside++;
  else errors.push(error);
  if (error > 0.1) octaves++;
  chances.push({ said: confidence, right: error <= 0.005 });
  if (!(error <= 0.005))
    console.log(`seed ${seed}: ${rpm === null ? 'not found' : Math.round(rpm)} for ${Math.round(truth)} rpm`);
}
errors.sort((a, b) => a - b);
const percent = (share: number) => `${(100 * share).toFixed(3)} %`;
console.log(`${cases} cases: ${octaves} octave errors, ${outside} outside 0.5 %, ${lost} not found`);
console.log(
  `error: median ${percent(errors[errors.length >> 1])}, 95 in 100 below ${percent(errors[Math.floor(0.95 * errors.length)])}`,
);
for (const [low, high] of [
  [0, 0.5],
  [0.5, 0.8],
  [0.8, 0.95],
  [0.95, 0.99],
  [0.99, 1.01],
]) {
  const group = chances.filter(({ said }) => said >= low && said < high);
  const right = group.filter((one) => one.right).length;
  console.log(`  chance said ${low} to ${Math.min(1, high)}: right ${right} of ${group.length}`);
}
