import { CELLS_PER_OCTAVE, cellsUp, type Levels } from './levels.ts';

/** Weight of the blade tone and its multiples in the first search. */
const WEIGHTS = [1, 0.8, 0.65, 0.5, 0.4, 0.3];
/** A level counts up to this many nepers of power (20 dB), so that one loud whine does not outweigh a comb. */
const CAP = 4.6;
/** What noise alone gives after the cut at 0: integral of ln(s) exp(-s) from 1. */
const NOISE_MEAN = 0.219;
/** Weight of what stands between the tones, which tells a tone from its half. */
const BETWEEN = 0.35;
/** Cost of a change by one cell between frames, and of a jump anywhere. */
const STEP_COST = 0.09;
const JUMP_COST = 14;

/** Salience of every possible blade tone in every frame. */
export interface Salience {
  readonly value: Float32Array;
  readonly frames: number;
  readonly count: number;
  /** Cell of the levels at which candidate 0 lies. */
  readonly first: number;
}

/** What each candidate from `low_Hz` to `high_Hz` would explain of each frame: its multiples less what lies between. */
export function salienceOf(levels: Levels, low_Hz: number, high_Hz: number): Salience {
  const { cells, frames, lowest_Hz } = levels;
  const first = Math.max(0, Math.floor(cellsUp(low_Hz / lowest_Hz)));
  const count = Math.max(1, Math.min(cells, Math.ceil(cellsUp(high_Hz / lowest_Hz)) + 1) - first);
  const value = new Float32Array(frames * count);
  const h = new Float32Array(cells);
  const shifts = WEIGHTS.map((weight, i) => ({ weight, by: Math.round(cellsUp(i + 1)) }));
  const between = WEIGHTS.slice(0, 4).map((weight, i) => ({
    weight: -BETWEEN * weight,
    by: Math.round(cellsUp(i + 0.5)),
  }));
  for (let t = 0; t < frames; t++) {
    const from = t * cells;
    for (let c = 0; c < cells; c++) {
      const l = levels.level[from + c];
      h[c] = l > 0 ? (l < CAP ? l : CAP) - NOISE_MEAN : l <= 0 ? -NOISE_MEAN : 0;
    }
    const at = t * count;
    for (const { weight, by } of [...shifts, ...between]) {
      const begin = Math.max(0, -first - by);
      const end = Math.min(count, cells - first - by);
      for (let k = begin; k < end; k++) value[at + k] += weight * h[first + by + k];
    }
  }
  return { value, frames, count, first };
}

/**
 * The path through the frames with the most salience, less a cost in proportion to each change of pitch, up to the cost of
 * a jump: dynamic programming (Viterbi, IEEE Transactions on Information Theory 13, 1967, 260-269). The best of all
 * earlier pitches is found by two sweeps over the candidates, so the time grows with frames x candidates only.
 */
export function bestPath({ value, frames, count }: Salience): Int32Array {
  const from = new Int16Array(frames * count);
  let score = new Float32Array(count);
  let next = new Float32Array(count);
  const origin = new Int32Array(count);
  for (let k = 0; k < count; k++) score[k] = value[k];
  for (let t = 1; t < frames; t++) {
    let top = 0;
    for (let k = 1; k < count; k++) if (score[k] > score[top]) top = k;
    const jump = score[top] - JUMP_COST;
    for (let k = 0; k < count; k++) origin[k] = k;
    for (let k = 1; k < count; k++)
      if (score[k - 1] - STEP_COST > score[k]) {
        score[k] = score[k - 1] - STEP_COST;
        origin[k] = origin[k - 1];
      }
    for (let k = count - 2; k >= 0; k--)
      if (score[k + 1] - STEP_COST > score[k]) {
        score[k] = score[k + 1] - STEP_COST;
        origin[k] = origin[k + 1];
      }
    const at = t * count;
    for (let k = 0; k < count; k++) {
      const near = score[k] >= jump;
      next[k] = (near ? score[k] : jump) + value[at + k];
      from[at + k] = near ? origin[k] : top;
    }
    [score, next] = [next, score];
  }
  const path = new Int32Array(frames);
  let k = 0;
  for (let i = 1; i < count; i++) if (score[i] > score[k]) k = i;
  for (let t = frames - 1; t >= 0; t--) {
    path[t] = k;
    k = from[t * count + k];
  }
  return path;
}

/**
 * Cell of the blade tone in frame `t` to a fraction, near `cell`: the middle of the louder of its multiples, each found by
 * a parabola over its peak and weighted by its number and loudness. NaN where none stands out.
 */
export function fineCell(levels: Levels, t: number, cell: number, multiples: readonly number[]): number {
  const { cells, level, lowest_Hz, bin_Hz } = levels;
  let sum = 0;
  let weights = 0;
  for (const n of multiples) {
    const expected = cell + cellsUp(n);
    // A line at low pitch covers many cells; search no further than its own half width, or five cells.
    const width = (CELLS_PER_OCTAVE / Math.LN2) * (bin_Hz / (lowest_Hz * 2 ** (expected / CELLS_PER_OCTAVE)));
    const reach = Math.round(Math.min(24, Math.max(5, width)));
    const middle = Math.round(expected);
    if (middle - reach < 1 || middle + reach > cells - 2) continue;
    let top = middle - reach;
    for (let c = middle - reach + 1; c <= middle + reach; c++)
      if (level[t * cells + c] > level[t * cells + top]) top = c;
    const peak = level[t * cells + top];
    if (!(peak > 1.6) || top === middle - reach || top === middle + reach) continue;
    const arm = Math.max(1, Math.round(width / 2));
    const a = level[t * cells + Math.max(0, top - arm)];
    const b = level[t * cells + Math.min(cells - 1, top + arm)];
    const bend = a - 2 * peak + b;
    const shift = bend < -1e-6 ? Math.max(-1, Math.min(1, (a - b) / 2 / bend)) * arm : 0;
    // The error of a line in cells shrinks with its pitch and with its level.
    const weight = Math.min(4, peak) * Math.min(1, 4 / width) ** 2;
    sum += weight * (top + shift - cellsUp(n));
    weights += weight;
  }
  return weights > 0 ? sum / weights : NaN;
}
