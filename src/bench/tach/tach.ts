import { cellsUp, levelsOf, type Levels } from './levels.ts';
import { fansHeard, type FanHeard } from './fans.ts';
import { findHum } from './hum.ts';
import { align, readings, type Reading } from './orders.ts';
import { steadyPart, type Steady, type TrackPoint } from './steady.ts';
import { bestPath, fineCell, salienceOf } from './track.ts';
import { withoutHum } from './unhum.ts';

export type { TrackPoint };

export interface TachRequest {
  /** One channel of sound, any scale. */
  readonly samples: Float32Array;
  /** [1/s] */
  readonly sampleRate: number;
  readonly blades: number;
  /** Speeds the drive can reach [rpm]; narrower is surer. */
  readonly expect_rpm?: { readonly low: number; readonly high: number };
  /** Fans that may run at once, with like blades; 1 when left out. */
  readonly fans?: number;
}

export interface TachResult {
  readonly found: boolean;
  /** Median over the steady part; null: not found. */
  readonly rpm: number | null;
  /** Chance that the speed is right, 0 to 1; without one, the chance that there is one. */
  readonly confidence: number;
  readonly track: readonly TrackPoint[];
  readonly steady: Steady | null;
  /** Every fan told apart in the steady part, fastest first; the loudest alone where one was asked for. */
  readonly fans: readonly FanHeard[];
  /** Another speed that the tones would fit, and its chance; null: none worth naming. */
  readonly otherwise: { readonly rpm: number; readonly confidence: number } | null;
  /** Frequency of the mains whose hum was taken away; null: none heard. */
  readonly hum_Hz: 50 | 60 | null;
  /** Why nothing was found. */
  readonly reason: string | null;
}

/** Speeds looked for where nothing is known of the drive [rpm]. */
export const ANY_SPEED = { low: 1200, high: 60_000 };
/** Shorter sound holds too few turns to tell a tone from chance [s]. */
export const SHORTEST_S = 0.4;
export const MOST_BLADES = 20;

/** Salience at which a frame counts as holding the tone. */
const HEARD = 2.2;
/** Evidence [nepers] at which found and not found are even, and how fast the chance rises about it. */
const EVEN_EVIDENCE = 5;
const EVIDENCE_SCALE = 1.2;

/**
 * Speed of a fan from its sound. A frame-by-frame search for a comb of blade tones (multiples of blades x turns a second)
 * gives the way the pitch runs, tracked through drift and ramps; all frames laid over each other along it then tell which
 * of the tones that run with it is the blade tone, and which are half, double, whine of the motor or a turn of unequal
 * blades. Mains hum is taken away first. Throws RangeError on a blade count, rate or range that cannot be.
 */
export function tachometer({
  samples,
  sampleRate,
  blades,
  expect_rpm = ANY_SPEED,
  fans = 1,
}: TachRequest): TachResult {
  if (!(Number.isInteger(blades) && blades >= 1 && blades <= MOST_BLADES))
    throw new RangeError(`blades is ${blades}; it must be a whole number from 1 to ${MOST_BLADES}.`);
  if (!(sampleRate >= 4000 && sampleRate <= 400_000))
    throw new RangeError(`sampleRate is ${sampleRate}; it must be from 4000 to 400 000 a second.`);
  const { low, high } = expect_rpm;
  if (!(low > 0 && high > low))
    throw new RangeError(`expect_rpm is ${low} to ${high}; low must be below high.`);
  const perRpm = blades / 60;
  if (samples.length < SHORTEST_S * sampleRate)
    return nothing(
      `The recording lasts ${(samples.length / sampleRate).toFixed(2)} s; ${SHORTEST_S} s is the least.`,
    );
  if (low * perRpm > 0.4 * sampleRate)
    return nothing('The blade tone would lie above what the recording can hold; record at a higher rate.');
  const hum = findHum(samples, sampleRate);
  const clean = hum ? withoutHum(samples, sampleRate, hum) : samples;
  const size = frameSize(samples.length, sampleRate, low * perRpm);
  const lowest_Hz = Math.max(
    2 * (sampleRate / size),
    Math.min(low * perRpm, (low / 60) * Math.min(blades, 3)) * 0.9,
  );
  const levels = levelsOf(clean, sampleRate, size, lowest_Hz);
  const salience = salienceOf(levels, low * perRpm, high * perRpm);
  const path = bestPath(salience);
  const heard: number[] = [];
  for (let t = 0; t < levels.frames; t++)
    if (salience.value[t * salience.count + path[t]] > HEARD) heard.push(t);
  const hum_Hz = hum?.mains_Hz ?? null;
  if (heard.length < 3) return nothing(NO_TONE, hum_Hz);
  const cells = Float64Array.from(path, (k) => k + salience.first);
  const range = [cellsUp((low * perRpm) / lowest_Hz) - 1, cellsUp((high * perRpm) / lowest_Hz) + 1] as const;
  const stretches = withoutJumps(cells, heard)
    .map((frames): Stretch => {
      const aligned = align(levels, cells, frames);
      return { frames, reference: aligned.reference, readings: readings(aligned, blades, ...range) };
    })
    .filter((stretch) => stretch.readings.length > 0);
  if (stretches.length === 0) return nothing(NO_TONE, hum_Hz);
  const result = judge({ levels, cells, stretches, perRpm, hum_Hz });
  const { rpm, steady } = result;
  if (rpm === null || steady === null) return result;
  const { from_s, to_s } = steady;
  return { ...result, fans: fansHeard({ samples: clean, sampleRate, blades, rpm, from_s, to_s, fans }) };
}

const NO_TONE = 'No tone runs through the recording with multiples as blades make them.';

const nothing = (reason: string, hum_Hz: 50 | 60 | null = null, confidence = 0): TachResult => ({
  found: false,
  rpm: null,
  confidence,
  track: [],
  steady: null,
  fans: [],
  otherwise: null,
  hum_Hz,
  reason,
});

/** A power of two that parts the lowest blade tone well from its multiples, and leaves eight frames or more. */
function frameSize(length: number, rate: number, lowestTone_Hz: number): number {
  const wanted = Math.max(0.17, 9 / lowestTone_Hz) * rate;
  const most = Math.max(1024, length / 3);
  return (
    2 ** Math.floor(Math.min(Math.log2(most), Math.max(10, Math.min(16, Math.ceil(Math.log2(wanted) - 0.2)))))
  );
}

/** Frames through which the path runs without a jump, and what they say. */
interface Stretch {
  readonly frames: readonly number[];
  readonly reference: number;
  readonly readings: readonly Reading[];
}

/** A path that goes further than this between frames has left one tone for another [cells: a tenth in pitch]. */
const JUMP_CELLS = 40;

/**
 * Parts the frames where the path jumps, longest part first: before and after it may follow different tones of one fan, which
 * must not be laid over each other. Parts of fewer than three frames are dropped.
 */
function withoutJumps(cells: Float64Array, heard: readonly number[]): number[][] {
  const parts: number[][] = [];
  heard.forEach((t, i) => {
    const before = heard[i - 1];
    const joins = i > 0 && Math.abs(cells[t] - cells[before]) <= JUMP_CELLS * Math.min(4, t - before);
    if (joins) parts[parts.length - 1].push(t);
    else parts.push([t]);
  });
  return parts.filter((part) => part.length >= 3).sort((a, b) => b.length - a.length);
}

interface Case {
  readonly levels: Levels;
  readonly cells: Float64Array;
  /** Longest first. */
  readonly stretches: readonly Stretch[];
  readonly perRpm: number;
  readonly hum_Hz: 50 | 60 | null;
}

/** How likely it is that there is a fan, and that the best reading is it rather than another. */
function chancesOf(all: readonly Reading[]): { there: number; share: number } {
  const [{ evidence }] = all;
  return {
    there: 1 / (1 + Math.exp(-(evidence - EVEN_EVIDENCE) / EVIDENCE_SCALE)),
    share: 1 / all.reduce((sum, r) => sum + Math.exp((r.evidence - evidence) / 2), 0),
  };
}

function judge({ levels, cells, stretches, perRpm, hum_Hz }: Case): TachResult {
  const [{ readings: all }] = stretches;
  const [best, second] = all;
  const { there, share } = chancesOf(all);
  const rpmOf = (cell: number) => (levels.lowest_Hz * 2 ** (cell / cellsUp(2))) / perRpm;
  const of: Stretch[] = Array(levels.frames).fill(stretches[0]);
  for (const stretch of stretches) for (const t of stretch.frames) of[t] = stretch;
  const track = of.map((stretch, t): TrackPoint => {
    const [reading] = stretch.readings;
    const here = chancesOf(stretch.readings);
    const rough = cells[t] + reading.cell - stretch.reference;
    const cell = fineCell(levels, t, rough, reading.multiples);
    const shown = Number.isNaN(cell) ? 0 : frameEvidence(levels, t, cell, reading.multiples);
    return {
      t_s: levels.start_s + t * levels.hop_s,
      rpm: rpmOf(Number.isNaN(cell) ? rough : cell),
      confidence: here.there * here.share * (shown / (1 + shown)),
    };
  });
  const steady = steadyPart(track, 0.5 * Math.min(0.9, there * share));
  const chance = there * share;
  if (there < 0.5 || best.multiples.length + best.turns.length < 2) {
    const lone = all.find((r) => r.loudest > 2 && r.multiples.length === 1 && r.multiples[0] === 1);
    return nothing(
      lone
        ? `One tone alone stands out (${Math.round(rpmOf(lone.cell) * perRpm)} Hz); blades make multiples of it.`
        : NO_TONE,
      hum_Hz,
      there * 0.5,
    );
  }
  if (!steady)
    return nothing('What tone there is comes and goes or wanders as no fan does.', hum_Hz, there * 0.3);
  const other = second && {
    rpm: rpmOf(second.cell),
    confidence: chance * Math.exp((second.evidence - best.evidence) / 2),
  };
  return {
    found: true,
    rpm: steady.rpm,
    confidence: chance,
    track,
    steady,
    fans: [],
    otherwise: other && other.confidence > 0.02 ? other : null,
    hum_Hz,
    reason: null,
  };
}

/** How far the multiples stand out in one frame [nepers above what chance reaches], 0 and up. */
function frameEvidence(levels: Levels, t: number, cell: number, multiples: readonly number[]): number {
  let sum = 0;
  for (const n of multiples) {
    const c = Math.round(cell + cellsUp(n));
    const l = c < levels.cells ? levels.level[t * levels.cells + c] : 0;
    if (l > 0) sum += Math.min(l, 5);
  }
  return Math.max(0, sum - 1.2 - 0.2 * multiples.length);
}
