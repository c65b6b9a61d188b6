import { powerSpectrum } from '../../numerics/fft.ts';

/** Mains hum in a recording: its frequency and those of its harmonics that stand out. */
export interface Hum {
  readonly mains_Hz: 50 | 60;
  readonly lines_Hz: readonly number[];
}

const SIZE = 4096;
const LAST_HARMONIC = 20;
/** Power over the noise about it from which a line counts [1]. */
const STANDS_OUT = 10;

/**
 * Mains hum, found by lines within half a hertz of multiples of 50 or 60 Hz in a spectrum of the whole recording: the
 * mains keeps its frequency to 0.2 Hz and better (common practice, no source) while a fan wanders by more. Two of the
 * first four must be there. A high multiple much louder than the low ones is taken for no hum.
 */
export function findHum(samples: Float32Array, rate: number): Hum | null {
  const every = Math.max(1, Math.floor(rate / 2700));
  const slow = decimate(samples, every);
  const slowRate = rate / every;
  if (slow.length < SIZE / 2) return null;
  const mean = new Float64Array(SIZE / 2 + 1);
  const power = new Float64Array(mean.length);
  const spectrum = powerSpectrum(SIZE);
  for (let at = 0; at === 0 || at + SIZE <= slow.length; at += SIZE / 2) {
    spectrum.into(slow, at, power);
    for (let k = 0; k < mean.length; k++) mean[k] += power[k];
  }
  const bin = slowRate / SIZE;
  const found = ([50, 60] as const).map((mains_Hz) => {
    const over: number[] = [];
    const loud: number[] = [];
    for (let n = 1; n <= LAST_HARMONIC; n++) {
      const line = lineAt(mean, (n * mains_Hz) / bin, 0.5 / bin);
      over.push(line.over);
      loud.push(line.power);
    }
    const low = over.slice(0, 4).filter((value) => value > STANDS_OUT).length;
    const loudest = Math.max(...loud.slice(0, 4));
    const lines_Hz = over.flatMap((value, i) =>
      value > STANDS_OUT / 2 && loud[i] < (i < 4 ? Infinity : 10 * loudest) ? [(i + 1) * mains_Hz] : [],
    );
    return { mains_Hz, lines_Hz, low, weight: over.slice(0, 6).reduce((sum, v) => sum + Math.log(v), 0) };
  });
  // 300 Hz is a multiple of both; the mains with more of its first lines is the one.
  const [best] = found.sort((a, b) => b.low - a.low || b.weight - a.weight);
  return best.low >= 2 ? { mains_Hz: best.mains_Hz, lines_Hz: best.lines_Hz } : null;
}

/** Power of the highest bin near a place, and how far it stands over the bins further off. */
function lineAt(mean: Float64Array, place: number, reach: number): { over: number; power: number } {
  const middle = Math.round(place);
  const near = Math.max(1, Math.round(reach));
  let peak = 0;
  const about: number[] = [];
  for (let k = Math.max(1, middle - 24); k <= Math.min(mean.length - 1, middle + 24); k++) {
    if (Math.abs(k - middle) <= near) peak = Math.max(peak, mean[k]);
    else if (Math.abs(k - middle) > near + 2) about.push(mean[k]);
  }
  about.sort((a, b) => a - b);
  const noise = about[Math.floor(about.length / 2)] ?? 0;
  // A tone that only passes by is as high a little further off.
  const beside = Math.max(mean[middle - near - 4] ?? 0, mean[middle + near + 4] ?? 0);
  return { over: peak > 4 * beside ? Math.max(1e-3, peak / Math.max(1e-30, noise)) : 1, power: peak };
}

/** Every `every`-th of the samples after two running means of that length, which keep what lies above from folding down. */
export function decimate(samples: Float32Array, every: number): Float32Array {
  const out = new Float32Array(Math.max(0, Math.floor(samples.length / every) - 1));
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    const at = i * every;
    for (let j = 0; j < every; j++)
      sum += samples[at + j] * (j + 1) + samples[at + every + j] * (every - 1 - j);
    out[i] = sum / (every * every);
  }
  return out;
}
