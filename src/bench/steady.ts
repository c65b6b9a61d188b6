/** A stretch of a log in which nothing changes: samples `from` to `to` (not in it). */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface SteadyStretches {
  readonly stretches: readonly Stretch[];
  /** `steady`: nothing changes within them; `steps`: the log is one ramp, cut into steps of even height. */
  readonly how: 'steady' | 'steps';
}

/** Blocks a log is averaged into before it is looked at, and blocks a steady stretch needs at least. */
const MOST_BLOCKS = 4000;
const LEAST_BLOCKS = 4;
/** Steps a ramp is cut into. */
const RAMP_STEPS = 20;
/** Share of a stretch at most given up to settling. */
const MOST_SETTLING = 0.5;

/**
 * Finds the steady stretches of a log by what leads it (throttle, else speed, else the scale): blocks are joined while
 * their mean stays within `tolerance` of the stretch, or three times the noise if that is more. What settles after a
 * step, seen in the `followers`, is cut off. A log with no steady stretch is cut into steps of the leading signal.
 */
export function steadyStretches(
  leader: Float64Array,
  followers: readonly Float64Array[],
  tolerance: number,
): SteadyStretches {
  const size = Math.max(1, Math.ceil(leader.length / MOST_BLOCKS));
  const blocks = blockMeans(leader, size);
  const limit = Math.max(tolerance, 3 * noiseOf(blocks));
  const found: Stretch[] = [];
  let begin = 0;
  let sum = 0;
  let n = 0;
  const close = (end: number) => {
    if (n >= LEAST_BLOCKS && !drifts(blocks, begin, end, limit))
      found.push({ from: begin * size, to: Math.min(leader.length, end * size) });
  };
  for (let i = 0; i < blocks.length; i++) {
    const value = blocks[i];
    if (Number.isNaN(value)) continue;
    if (n > 0 && Math.abs(value - sum / n) > limit) {
      close(i);
      begin = i;
      sum = 0;
      n = 0;
    }
    sum += value;
    n++;
  }
  close(blocks.length);
  const held = found.reduce((all, { from, to }) => all + to - from, 0);
  if (found.length > 0 && held > 0.2 * leader.length)
    return { stretches: found.map((s) => settled(s, followers)), how: 'steady' };
  return { stretches: rampSteps(blocks, size, leader.length), how: 'steps' };
}

/** Whether a stretch creeps from one end to the other by more than `limit`, as a piece of a slow ramp does. */
function drifts(blocks: Float64Array, from: number, to: number, limit: number): boolean {
  const third = Math.max(1, Math.floor((to - from) / 3));
  return Math.abs(meanOf(blocks, from, from + third) - meanOf(blocks, to - third, to)) > 0.6 * limit;
}

/** A stretch without its beginning, as long as a follower there is further from its later level than it scatters. */
function settled({ from, to }: Stretch, followers: readonly Float64Array[]): Stretch {
  let start = from;
  const most = from + Math.floor((to - from) * MOST_SETTLING);
  for (const follower of followers) {
    const half = follower
      .subarray(most, to)
      .filter((x) => !Number.isNaN(x))
      .sort();
    if (half.length < 3) continue;
    const middle = half[half.length >> 1];
    const spread = half[Math.floor(half.length * 0.9)] - half[Math.floor(half.length * 0.1)];
    const reach = Math.max(spread, 0.01 * Math.abs(middle), 1e-9);
    let at = most;
    while (at > start && !(Math.abs(follower[at - 1] - middle) > 1.5 * reach)) at--;
    start = Math.max(start, at);
  }
  return { from: start, to };
}

/** Runs of blocks in one of the steps between lowest and highest; the longest run of each step. */
function rampSteps(blocks: Float64Array, size: number, length: number): Stretch[] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of blocks) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!(high > low)) return blocks.length ? [{ from: 0, to: length }] : [];
  const longest = new Map<number, Stretch>();
  let begin = 0;
  const stepOf = (value: number) =>
    Math.min(RAMP_STEPS - 1, Math.floor(((value - low) / (high - low)) * RAMP_STEPS));
  for (let i = 1; i <= blocks.length; i++) {
    if (i < blocks.length && stepOf(blocks[i]) === stepOf(blocks[begin])) continue;
    const step = stepOf(blocks[begin]);
    const here = { from: begin * size, to: Math.min(length, i * size) };
    const other = longest.get(step);
    if (!Number.isNaN(step) && (!other || here.to - here.from > other.to - other.from))
      longest.set(step, here);
    begin = i;
  }
  return [...longest.values()].sort((a, b) => a.from - b.from);
}

function blockMeans(values: Float64Array, size: number): Float64Array {
  const blocks = new Float64Array(Math.ceil(values.length / size));
  for (let i = 0; i < blocks.length; i++)
    blocks[i] = meanOf(values, i * size, Math.min(values.length, (i + 1) * size));
  return blocks;
}

/** Mean of what was read in a piece; NaN where nothing was. */
export function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  let n = 0;
  for (let i = from; i < to; i++)
    if (!Number.isNaN(values[i])) {
      sum += values[i];
      n++;
    }
  return n > 0 ? sum / n : Number.NaN;
}

/** Standard deviation of what was read in a piece; NaN with fewer than two. */
export function scatterOf(values: Float64Array, from: number, to: number): number {
  const mean = meanOf(values, from, to);
  let sum = 0;
  let n = 0;
  for (let i = from; i < to; i++)
    if (!Number.isNaN(values[i])) {
      sum += (values[i] - mean) ** 2;
      n++;
    }
  return n > 1 ? Math.sqrt(sum / (n - 1)) : Number.NaN;
}

/** Noise from one block to the next (one standard deviation), blind to steps: by the median of the differences. */
function noiseOf(blocks: Float64Array): number {
  const steps: number[] = [];
  for (let i = 1; i < blocks.length; i++) {
    const step = Math.abs(blocks[i] - blocks[i - 1]);
    if (!Number.isNaN(step)) steps.push(step);
  }
  if (steps.length === 0) return 0;
  steps.sort((a, b) => a - b);
  // Median of |difference| of two normal values is 0.6745 sqrt(2) of their standard deviation.
  return steps[steps.length >> 1] / (0.6745 * Math.SQRT2);
}
