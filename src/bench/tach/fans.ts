import { align, type Aligned } from './orders.ts';
import { CELLS_PER_OCTAVE, cellsUp, levelsOf } from './levels.ts';

/** One of several fans heard at once. */
export interface FanHeard {
  readonly rpm: number;
  /** Level of its tones below the loudest fan's [dB]. */
  readonly below_dB: number;
}

interface Question {
  readonly samples: Float32Array;
  readonly sampleRate: number;
  readonly blades: number;
  /** Of the loudest fan. */
  readonly rpm: number;
  readonly from_s: number;
  readonly to_s: number;
  /** At most so many. */
  readonly fans: number;
}

/** Fans of one craft run within this share of each other. */
const NEAR = 0.22;
/** Frames this long part tones 3 Hz from each other; longer ones smear what jitters [s]. */
const FRAME_S = 0.7;
const WEIGHTS = [1, 1, 0.8, 0.6, 0.4, 0.3];
/** A fainter fan than this below the loudest is not claimed [nepers of power: 4.34 dB each]. */
const FAINTEST = 4.2;

/**
 * Fans that run at once with like blades, from the steady part: long frames laid over each other, and in them every comb of
 * blade tones near that of the loudest fan. Combs nearer to each other than a line is wide at their highest multiple count
 * as one; so do lines a turn apart from the loudest, which unequal blades make.
 */
export function fansHeard(question: Question): FanHeard[] {
  const { samples, sampleRate, blades, rpm, from_s, to_s, fans } = question;
  const alone = [{ rpm, below_dB: 0 }];
  const size = 2 ** Math.round(Math.log2(FRAME_S * sampleRate));
  const margin = size / 2;
  const part = samples.subarray(
    Math.max(0, Math.floor(from_s * sampleRate) - margin / 2),
    Math.ceil(to_s * sampleRate) + margin / 2,
  );
  if (fans < 2 || part.length < 1.5 * size) return alone;
  const tone_Hz = (rpm * blades) / 60;
  const levels = levelsOf(part, sampleRate, size, tone_Hz * 0.6);
  const frames = Array.from({ length: levels.frames }, (_, t) => t);
  const aligned = align(levels, new Float64Array(levels.frames).fill(cellsUp(1 / 0.6)), frames);
  const combs = combsNear(aligned, cellsUp(1 / 0.6));
  const [loudest] = combs;
  if (!loudest) return alone;
  const kept: typeof combs = [];
  for (const comb of combs) {
    const ratio = 2 ** ((comb.cell - loudest.cell) / CELLS_PER_OCTAVE);
    const turns = ratio * blades;
    const ofBlades = comb !== loudest && Math.abs(turns - Math.round(turns)) < 0.004 * turns;
    if (ofBlades || comb.height < loudest.height - FAINTEST) continue;
    if (kept.length < fans) kept.push(comb);
  }
  return kept
    .map(({ cell, height }) => ({
      rpm: ((levels.lowest_Hz * 2 ** (cell / CELLS_PER_OCTAVE)) / blades) * 60,
      below_dB: 4.343 * (loudest.height - height),
    }))
    .sort((a, b) => b.rpm - a.rpm);
}

interface Comb {
  readonly cell: number;
  readonly height: number;
}

/** Combs whose blade tone lies near `middle`, loudest first: peaks that come again at two multiples or more. */
function combsNear({ peaks }: Aligned, middle: number): Comb[] {
  const reach = cellsUp(1 + NEAR);
  const combs: Comb[] = [];
  // The third and second multiple part the fans best; the blade tone itself is the last to be asked.
  for (const base of [3, 2, 4, 1])
    for (const peak of peaks) {
      const cell = peak.cell - cellsUp(base);
      if (Math.abs(cell - middle) > reach) continue;
      const hits = WEIGHTS.flatMap((weight, i) => {
        const at = cell + cellsUp(i + 1);
        const hit = peaks.find((other) => Math.abs(other.cell - at) < 1.6);
        return hit ? [{ weight, over: hit.over, cell: hit.cell - cellsUp(i + 1) }] : [];
      });
      if (hits.length < 2) continue;
      const weights = hits.reduce((sum, hit) => sum + hit.weight, 0);
      const fine = hits.reduce((sum, hit) => sum + hit.weight * hit.cell, 0) / weights;
      if (combs.some((comb) => Math.abs(comb.cell - fine) < 1.6)) continue;
      combs.push({ cell: fine, height: Math.max(...hits.map(({ over }) => over)) });
    }
  return combs.sort((a, b) => b.height - a.height);
}
