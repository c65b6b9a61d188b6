import { CELLS_PER_OCTAVE, cellsUp, type Levels } from './levels.ts';

/** All frames laid over each other so that the path is level: the log levels, averaged. */
export interface Aligned {
  /** Mean level above what noise alone gives [nepers of power]. */
  readonly over: Float64Array;
  /** What chance leaves in `over` away from tones: one standard deviation. */
  readonly chance: Float64Array;
  /** Cell of the path's own pitch, and the width of a line there [cells of width at cell c: see lineWidth]. */
  readonly reference: number;
  readonly peaks: readonly Peak[];
  readonly levels: Levels;
}

export interface Peak {
  readonly cell: number;
  readonly over: number;
}

/** Standard deviation of ln(s) for s exponentially distributed: pi / sqrt 6. Neighbouring frames share half their sound. */
const LOG_SPREAD = 1.283;
const EULER = 0.5772;
const MOST_PEAKS = 60;

/** Half width of a spectral line [cells] at a cell. */
export const lineWidth = ({ bin_Hz, lowest_Hz }: Levels, cell: number): number =>
  ((CELLS_PER_OCTAVE / Math.LN2) * bin_Hz) / (lowest_Hz * 2 ** (cell / CELLS_PER_OCTAVE));

/** Averages the frames in `use`, each moved so that its path cell comes to the middle one of all. */
export function align(levels: Levels, path: ArrayLike<number>, use: readonly number[]): Aligned {
  const { cells, level } = levels;
  const order = use.map((t) => path[t]).sort((a, b) => a - b);
  const reference = Math.round(order[Math.floor(order.length / 2)]);
  const sum = new Float64Array(cells);
  const count = new Float64Array(cells);
  for (const t of use) {
    const by = Math.round(path[t]) - reference;
    const from = t * cells;
    for (let c = Math.max(0, -by); c < Math.min(cells, cells - by); c++) {
      const l = level[from + c + by];
      if (l === l) {
        sum[c] += l;
        count[c]++;
      }
    }
  }
  const over = new Float64Array(cells).fill(NaN);
  const chance = new Float64Array(cells).fill(NaN);
  for (let c = 0; c < cells; c++) {
    if (count[c] < 0.3 * use.length || count[c] === 0) continue;
    // A cell wider than a bin averages several, which narrows the spread and lifts the mean of the logarithm.
    const bins = Math.max(1, 1 / lineWidth(levels, c) / 1.5);
    over[c] = sum[c] / count[c] + EULER / bins;
    chance[c] = (LOG_SPREAD * 1.2) / Math.sqrt(count[c] * bins);
  }
  return { over, chance, reference, levels, peaks: peaksOf(over, chance, levels) };
}

function peaksOf(over: Float64Array, chance: Float64Array, levels: Levels): Peak[] {
  const peaks: Peak[] = [];
  for (let c = 2; c < over.length - 2; c++) {
    const here = over[c];
    if (!(here > Math.max(0.3, 4.5 * chance[c]))) continue;
    const reach = Math.max(2, Math.round(lineWidth(levels, c)));
    let top = true;
    for (let d = 1; d <= reach && top; d++)
      top = !(over[c - d] > here) && !(over[c + d] >= here && d > 0 && over[c + d] !== here);
    if (!top || over[c - 1] === here) continue;
    const arm = Math.max(1, Math.round(reach / 2));
    const [a, b] = [over[Math.max(0, c - arm)], over[Math.min(over.length - 1, c + arm)]];
    const bend = a - 2 * here + b;
    const shift = bend < -1e-9 ? Math.max(-1, Math.min(1, (a - b) / 2 / bend)) * arm : 0;
    peaks.push({ cell: c + shift, over: here });
  }
  return peaks
    .sort((a, b) => b.over - a.over)
    .slice(0, MOST_PEAKS)
    .sort((a, b) => a.cell - b.cell);
}

/** One reading of the averaged spectrum: which pitch is the blade tone. */
export interface Reading {
  readonly cell: number;
  /** Log likelihood over that of tones without order [nepers]. */
  readonly evidence: number;
  /** Multiples of the blade tone that stand out, and multiples of the turn that are none of these. */
  readonly multiples: readonly number[];
  readonly turns: readonly number[];
  /** The loudest of the first multiples [nepers of power over noise]. */
  readonly loudest: number;
}

/** Falls of the multiples tried, each as likely [nepers of power from one to the next]. */
const FALLS = [0.5, 1, 1.6, 2.3];
const MULTIPLES = 10;
const STRAY = 0.06;
const STRAY_SPAN = 12;

const normal = (x: number, mean: number, spread: number): number =>
  Math.exp(-0.5 * ((x - mean) / spread) ** 2) / (spread * 2.5066);

/**
 * The likeliest blade tones, best first. A candidate says where lines are: multiples n of the blade tone, each lower than
 * the last by one of FALLS, with a spread of 1.8 nepers; other multiples of the turn, faint (unequal blades); and elsewhere strays
 * only. The evidence is the log likelihood of the peaks over that of strays everywhere. Half and double of a tone lose on
 * lines that are missing, or on loud ones that they call faint.
 */
export function readings(aligned: Aligned, blades: number, lowCell: number, highCell: number): Reading[] {
  const { peaks } = aligned;
  const found: Reading[] = [];
  for (const peak of peaks)
    for (let n = 1; n <= 4; n++) {
      const cell = peak.cell - cellsUp(n);
      if (cell < lowCell || cell > highCell) continue;
      const reading = weigh(aligned, blades, cell);
      if (reading) found.push(reading);
    }
  found.sort((a, b) => b.evidence - a.evidence);
  const kept: Reading[] = [];
  for (const one of found) if (kept.every((other) => Math.abs(other.cell - one.cell) > 6)) kept.push(one);
  return kept;
}

function weigh(aligned: Aligned, blades: number, start: number): Reading | null {
  const { over, chance, levels } = aligned;
  let cell = start;
  const lineOf = (ratio: number): number | null => {
    const at = cell + cellsUp(ratio);
    return at > over.length - 4 || at < 2 || Number.isNaN(over[Math.round(at)]) ? null : at;
  };
  const multiples = () => {
    const hits: { n: number; peak: Peak }[] = [];
    for (let n = 1; n <= MULTIPLES; n++) {
      const at = lineOf(n);
      const peak = at === null ? null : nearest(aligned, at);
      if (peak) hits.push({ n, peak });
    }
    return hits;
  };
  let hits = multiples();
  if (hits.length === 0) return null;
  // The lines together place the tone better than the one it was guessed from.
  const weight = ({ peak }: { peak: Peak }) =>
    Math.min(4, peak.over) * Math.min(1, 4 / lineWidth(levels, peak.cell)) ** 2;
  cell =
    hits.reduce((sum, hit) => sum + weight(hit) * (hit.peak.cell - cellsUp(hit.n)), 0) /
    hits.reduce((sum, hit) => sum + weight(hit), 0);
  hits = multiples();
  if (hits.length === 0) return null;
  const heightOf = (n: number) => hits.find((hit) => hit.n === n)?.peak.over ?? 0;
  const loudest = Math.max(heightOf(1), heightOf(2) + 0.5, heightOf(3) + 1);
  let evidence = 0;
  const background = (height: number, spread: number) =>
    (1 - STRAY) * normal(height, 0, spread) + STRAY / STRAY_SPAN;
  const byFall = FALLS.map((fall) => {
    let sum = 0;
    for (let n = 1; n <= MULTIPLES; n++) {
      const at = lineOf(n);
      if (at === null) continue;
      const expected = Math.max(0, loudest - fall * (n - 1));
      const spread = 0.3 + chance[Math.round(at)];
      const height = heightOf(n);
      const line =
        0.88 * normal(height, expected, Math.hypot(1.8, spread)) + 0.12 * normal(height, 0, spread);
      // Below the noise a line cannot be told from none.
      const shown = expected > 1 ? line : Math.max(line, background(height, spread));
      sum += Math.log(shown / background(height, spread));
    }
    return sum;
  });
  const likeliest = Math.max(...byFall);
  evidence +=
    likeliest + Math.log(byFall.reduce((sum, one) => sum + Math.exp(one - likeliest), 0) / FALLS.length);
  let uneven = 0;
  const turns: number[] = [];
  const turnCell = cell - cellsUp(blades);
  for (let k = 1; k <= 3 * blades; k++) {
    if (k % blades === 0) continue;
    const at = turnCell + cellsUp(k);
    if (at < 2 || at > over.length - 4 || Number.isNaN(over[Math.round(at)])) continue;
    // Lines a turn apart must be three bins apart to be told from one another.
    if (k * lineWidth(levels, at) * 3 > CELLS_PER_OCTAVE / Math.LN2) continue;
    const peak = nearest(aligned, at);
    const height = peak?.over ?? 0;
    const spread = 0.3 + chance[Math.round(at)];
    const faint = 0.5 * normal(height, 0, spread) + 0.5 * normal(height, Math.max(0, loudest - 4.5), 1.8);
    uneven += Math.max(-3, Math.log(faint / background(height, spread)));
    if (peak) turns.push(k);
  }
  // Blades all alike, or not, as likely as each other; only unlike ones show lines once a turn.
  const high = Math.max(0, uneven);
  evidence += high + Math.log(0.5 * Math.exp(-high) + 0.5 * Math.exp(uneven - high));
  evidence -= leftLouder(aligned, cell, blades, loudest) + alternation(heightOf, hits.length);
  return { cell, evidence, multiples: hits.map(({ n }) => n), turns, loudest };
}

/**
 * Cost of tones louder than the blade tone that are none of its multiples [nepers]: whine may be, seldom more. Only up to
 * four times the blade tone, past which much else may sound.
 */
function leftLouder({ peaks, levels }: Aligned, cell: number, blades: number, loudest: number): number {
  let cost = 0;
  for (const peak of peaks) {
    if (peak.over < loudest || peak.cell > cell + cellsUp(4.2) || peak.cell < cell - cellsUp(blades))
      continue;
    const ratio = 2 ** ((peak.cell - cell) / CELLS_PER_OCTAVE);
    const n = Math.max(1, Math.round(ratio));
    const reach = Math.max(3, lineWidth(levels, peak.cell));
    if (Math.abs(peak.cell - cell - cellsUp(n)) > reach) cost += Math.min(2.5, 0.8 * (peak.over - loudest));
  }
  return Math.min(6, cost);
}

/**
 * Cost of a pattern in the multiples [nepers]: where every second or third is louder than those beside it, the tone is a half
 * or a third of the blade tone, and what lies between are turns of unlike blades. Multiples stray by a neper by themselves.
 */
function alternation(heightOf: (n: number) => number, count: number): number {
  if (count < 2) return 0;
  let cost = 0;
  for (const every of [2, 3]) {
    let sum = 0;
    let terms = 0;
    for (let n = every; n <= 3 * every && n < MULTIPLES; n += every) {
      const here = heightOf(n);
      if (here === 0) break;
      sum += here - (heightOf(n - 1) + heightOf(n + 1)) / 2;
      terms++;
    }
    if (terms === 0) continue;
    const louder = sum / terms - 0.3;
    if (louder > 0) cost = Math.max(cost, (0.5 * louder ** 2 * terms) / 1.2 ** 2);
  }
  return Math.min(8, cost);
}

/** The highest peak within half a line's width, or 0.6 %, of a cell. */
function nearest({ peaks, levels }: Aligned, at: number): Peak | null {
  const reach = Math.max(2.5, Math.min(0.5 * lineWidth(levels, at), 12));
  let best: Peak | null = null;
  for (const peak of peaks)
    if (Math.abs(peak.cell - at) <= reach && (!best || peak.over > best.over)) best = peak;
  return best;
}
