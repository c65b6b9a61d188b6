import { powerSpectrum } from '../../numerics/fft.ts';

/** Cells of the pitch scale in an octave: doubling a frequency is a shift by this many cells. 0.24 % each. */
export const CELLS_PER_OCTAVE = 288;

/** Cells by which frequency n stands above frequency 1. */
export const cellsUp = (ratio: number): number => CELLS_PER_OCTAVE * Math.log2(ratio);

/** How loud each pitch is above the noise about it, frame by frame. */
export interface Levels {
  /** Natural log of power over the local noise, frame after frame, `cells` each; NaN where a frame holds nothing. */
  readonly level: Float32Array;
  readonly frames: number;
  readonly cells: number;
  /** Frequency of cell 0 [Hz]; cell c lies at lowest 2^(c / 288). */
  readonly lowest_Hz: number;
  /** Width of a spectral line [Hz], and middle of the first frame and step between frames [s]. */
  readonly bin_Hz: number;
  readonly start_s: number;
  readonly hop_s: number;
}

const HIGHEST_HZ = 16_000;
/** The share of bins of a band taken as free of tones. */
const QUIET_SHARE = 0.3;

/**
 * Levels of a recording on a pitch scale from `lowest_Hz` up. `size` is the frame's length, a power of two; frames overlap
 * by half (short recordings by three quarters). The noise of a frame is the 30 % quantile of bins in bands of a sixth of
 * an octave, as a mean power (power of noise is exponentially distributed: its q-quantile is -ln(1 - q) of the mean).
 */
export function levelsOf(samples: Float32Array, rate: number, size: number, lowest_Hz: number): Levels {
  const hop = samples.length > 12 * size ? size / 2 : size / 4;
  const frames = Math.max(0, Math.floor((samples.length - size) / hop) + 1);
  const bin_Hz = rate / size;
  const highest = Math.min(HIGHEST_HZ, 0.46 * rate);
  const cells = Math.max(1, Math.floor(cellsUp(highest / lowest_Hz)));
  const edges = cellEdges(cells, lowest_Hz, bin_Hz);
  const bands = bandsOf(lowest_Hz / bin_Hz, highest / bin_Hz);
  const spectrum = powerSpectrum(size);
  const power = new Float64Array(size / 2 + 1);
  const sum = new Float64Array(power.length + 1);
  const room = new Float64Array(power.length);
  const level = new Float32Array(frames * cells);
  for (let t = 0; t < frames; t++) {
    spectrum.into(samples, t * hop, power);
    if (!overNoise(power, bands, room)) {
      level.fill(NaN, t * cells, (t + 1) * cells);
      continue;
    }
    for (let k = 0; k < power.length; k++) sum[k + 1] = sum[k] + power[k];
    const upTo = (x: number) => {
      const k = Math.floor(x);
      return sum[k] + (x - k) * (sum[k + 1] - sum[k]);
    };
    for (let c = 0, at = t * cells; c < cells; c++, at++) {
      const [low, high] = [edges[2 * c], edges[2 * c + 1]];
      level[at] = Math.log(Math.max(1e-4, (upTo(high) - upTo(low)) / (high - low)));
    }
  }
  return { level, frames, cells, lowest_Hz, bin_Hz, start_s: size / 2 / rate, hop_s: hop / rate };
}

/** Where the cells begin and end in bins (bin k from k to k + 1); none is narrower than one bin. */
function cellEdges(cells: number, lowest_Hz: number, bin_Hz: number): Float64Array {
  const edges = new Float64Array(2 * cells);
  const half = 2 ** (0.5 / CELLS_PER_OCTAVE) - 1;
  for (let c = 0; c < cells; c++) {
    const middle = (lowest_Hz * 2 ** (c / CELLS_PER_OCTAVE)) / bin_Hz;
    const reach = Math.max(0.5, middle * half);
    edges[2 * c] = Math.max(0, middle + 0.5 - reach);
    edges[2 * c + 1] = middle + 0.5 + reach;
  }
  return edges;
}

interface Bands {
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/** Bands of a sixth of an octave, 24 bins at least, from a little below the lowest bin asked for to the highest. */
function bandsOf(lowest: number, highest: number): Bands {
  const from: number[] = [];
  const to: number[] = [];
  const end = Math.ceil(highest) + 2;
  for (let k = Math.max(1, Math.floor(lowest / 2)); k < end;) {
    const next = Math.min(end, k + Math.max(24, Math.round(k * 0.122)));
    from.push(k);
    to.push(next);
    k = next;
  }
  return { from: Int32Array.from(from), to: Int32Array.from(to) };
}

/** Divides power by the noise, which runs from band middle to band middle. False: the frame is silent. */
function overNoise(power: Float64Array, { from, to }: Bands, room: Float64Array): boolean {
  const noise = new Float64Array(from.length);
  let loudest = 0;
  for (let b = 0; b < from.length; b++) {
    const count = to[b] - from[b];
    for (let i = 0; i < count; i++) room[i] = power[from[b] + i];
    noise[b] = smallest(room, count, Math.floor(QUIET_SHARE * count)) / -Math.log(1 - QUIET_SHARE);
    loudest = Math.max(loudest, noise[b]);
  }
  if (!(loudest > 1e-14)) return false;
  // Where a filter has taken the noise away altogether, the tones are not to stand infinitely above it.
  const least = loudest * 1e-9;
  let b = 0;
  const middle = (i: number) => (from[i] + to[i]) / 2;
  for (let k = 0; k < power.length; k++) {
    while (b < from.length - 2 && k > middle(b + 1)) b++;
    const next = Math.min(from.length - 1, b + 1);
    const span = middle(next) - middle(b);
    const share = span > 0 ? Math.min(1, Math.max(0, (k - middle(b)) / span)) : 0;
    power[k] /= Math.max(least, noise[b] + share * (noise[next] - noise[b]));
  }
  return true;
}

/** The value at place `rank` in order of size among the first `count`, which it moves about (Hoare's selection). */
function smallest(values: Float64Array, count: number, rank: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[rank];
    let i = low;
    let j = high;
    do {
      while (values[i] < pivot) i++;
      while (pivot < values[j]) j--;
      if (i <= j) {
        const swap = values[i];
        values[i] = values[j];
        values[j] = swap;
        i++;
        j--;
      }
    } while (i <= j);
    if (j < rank) low = i;
    if (rank < i) high = j;
  }
  return values[rank];
}
