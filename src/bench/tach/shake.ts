import type { Interval } from '../../quantities/interval.ts';
import { median, type ShakeLog, type ShakeUnit } from './shake-csv.ts';

/** Shaking once a turn. */
export type ShakeAnswer =
  | {
      readonly ok: true;
      /** Speed at which the shaking peaks, near the one given [rpm]. */
      readonly rpm: number;
      /** Amplitude (half of peak to peak) of all directions together, with its 90 % interval. */
      readonly level: Interval;
      readonly unit: ShakeUnit;
      readonly perAxis: readonly { readonly name: string; readonly amplitude: number }[];
      /** Whether it stands out from what shakes at other speeds. */
      readonly standsOut: boolean;
      /** Angle after the mark at which the strongest direction peaks [degrees]; null without a mark. */
      readonly phase_deg: number | null;
      readonly rate_Hz: number;
    }
  | { readonly ok: false; readonly message: string };

const no = (message: string): ShakeAnswer => ({ ok: false, message });

/** The speed given may be off by this share. */
const SEARCH = 0.03;
/** Sound and shaking this near the fastest a log can hold are not read. */
const HIGHEST_SHARE = 0.45;

/**
 * Once-per-turn level from a log of any rhythm: a sine of the speed is fitted by least squares, block by block (a rotor's speed
 * wanders), at speeds near the given one; the one with the most power is taken (Lomb, Astrophysics and Space Science 39,
 * 1976, 447-462). The noise comes from the same fit at speeds beside it: it is taken out of the level and gives the
 * interval together with the scatter of the blocks. With a mark the angle of the rotor comes from the mark itself.
 */
export function shakeLevel(log: ShakeLog, rpm: number): ShakeAnswer {
  if (!(rpm > 0)) throw new RangeError(`shakeLevel: rpm is ${rpm}; it must be above 0.`);
  const { t_s, axes } = log;
  const steps = Array.from(t_s.subarray(1), (t, i) => t - t_s[i]);
  const rate_Hz = 1 / median(steps);
  const turn_Hz = rpm / 60;
  if (turn_Hz > HIGHEST_SHARE * rate_Hz)
    return no(
      `${Math.round(rpm)} rpm are ${turn_Hz.toFixed(0)} turns a second, and the log has ${rate_Hz.toFixed(0)} readings a second: at least ${Math.ceil(turn_Hz / HIGHEST_SHARE)} are needed. Run below ${Math.floor(HIGHEST_SHARE * rate_Hz * 60)} rpm, or log faster.`,
    );
  const duration = t_s[t_s.length - 1];
  if (duration * turn_Hz < 20)
    return no(`The log holds ${(duration * turn_Hz).toFixed(0)} turns; 20 are the least. Log for longer.`);
  const blocks = blocksOf(t_s, Math.max(1, 16 / turn_Hz));
  const values = axes.map((axis) => axis.values);
  const power = (f: number) => meanPower(t_s, values, blocks, f);
  const width = 1 / Math.max(1, 16 / turn_Hz);
  const marked = log.mark && angleFromMark(t_s, log.mark);
  const best_Hz = marked ? marked.turn_Hz : peakNear(power, turn_Hz, width);
  if (marked && Math.abs(marked.turn_Hz / turn_Hz - 1) > 0.1)
    return no(
      `The mark goes by ${(marked.turn_Hz * 60).toFixed(0)} times a minute, which is not the ${Math.round(rpm)} rpm given; check both.`,
    );
  const beside = [-9, -7, -5, -4, 4, 5, 7, 9]
    .map((k) => best_Hz + k * width)
    .filter((f) => f > width && f < 0.5 * rate_Hz)
    .map((f) => meanPower(t_s, values, blocks, f).total);
  const noise = median(beside);
  const here = power(best_Hz);
  const total = Math.sqrt(Math.max(0, here.total - noise));
  const count = blocks.length;
  // A block's squared amplitude scatters by 2 A sigma; noise is 2 sigma^2 over both quadratures.
  const sigma = Math.sqrt(noise / 2);
  const mean = here.each.reduce((sum, v) => sum + v, 0) / count;
  const scatter = Math.sqrt(here.each.reduce((sum, v) => sum + (v - mean) ** 2, 0) / Math.max(1, count - 1));
  const error = 1.645 * Math.max(sigma / Math.sqrt(count), count > 2 ? scatter / Math.sqrt(count) : sigma);
  const low = Math.max(0, total - error);
  const high = Math.max(total + error, Math.sqrt(noise) * 1.2);
  return {
    ok: true,
    rpm: best_Hz * 60,
    level: { value: total, low, high },
    unit: log.unit,
    perAxis: axes.map(({ name }, i) => ({
      name,
      amplitude: Math.sqrt(Math.max(0, here.perAxis[i] - noise / axes.length)),
    })),
    standsOut: here.total > 4 * noise,
    phase_deg: marked ? phaseOf(marked.angle, values, here.perAxis) : null,
    rate_Hz,
  };
}

type Block = readonly [from: number, to: number];

/** Blocks of readings of `length_s` each; a rest shorter than half of one is left out. */
function blocksOf(t_s: Float64Array, length_s: number): Block[] {
  const blocks: Block[] = [];
  let from = 0;
  for (let i = 0; i < t_s.length; i++)
    if (t_s[i] - t_s[from] >= length_s) {
      blocks.push([from, i]);
      from = i;
    }
  if (blocks.length === 0 || t_s[t_s.length - 1] - t_s[from] > 0.7 * length_s)
    blocks.push([from, t_s.length]);
  return blocks.filter(([a, b]) => b - a >= 12);
}

interface Power {
  /** Mean over the blocks of the squared amplitude, of each direction and of all. */
  readonly perAxis: readonly number[];
  readonly total: number;
  /** Amplitude of all directions, block by block. */
  readonly each: readonly number[];
}

function meanPower(
  t_s: Float64Array,
  values: readonly Float64Array[],
  blocks: readonly Block[],
  f: number,
): Power {
  const perAxis = values.map(() => 0);
  const each = blocks.map(([from, to]) => {
    let sum = 0;
    values.forEach((v, i) => {
      const [a, b] = fitSine(v, from, to, (k) => 2 * Math.PI * f * t_s[k]);
      const squared = a * a + b * b;
      perAxis[i] += squared / blocks.length;
      sum += squared;
    });
    return Math.sqrt(sum);
  });
  return { perAxis, total: perAxis.reduce((sum, v) => sum + v, 0), each };
}

/** Least squares of m + a cos x + b sin x: [a, b]. */
function fitSine(
  v: Float64Array,
  from: number,
  to: number,
  angle: (k: number) => number,
): readonly [number, number] {
  const n = to - from;
  let [sc, ss, cc, cs, s2, sv, vc, vs] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (let k = from; k < to; k++) {
    const x = angle(k);
    const [c, s] = [Math.cos(x), Math.sin(x)];
    sc += c;
    ss += s;
    cc += c * c;
    cs += c * s;
    s2 += s * s;
    sv += v[k];
    vc += v[k] * c;
    vs += v[k] * s;
  }
  cc -= (sc * sc) / n;
  cs -= (sc * ss) / n;
  s2 -= (ss * ss) / n;
  vc -= (sv * sc) / n;
  vs -= (sv * ss) / n;
  const det = cc * s2 - cs * cs;
  return det > 1e-9 * n * n ? [(vc * s2 - vs * cs) / det, (vs * cc - vc * cs) / det] : [0, 0];
}

/** The frequency near `middle` with the most power: a coarse search, then halving of the step. */
function peakNear(power: (f: number) => Power, middle: number, width: number): number {
  const step = width / 4;
  const reach = Math.min(60, Math.max(2, Math.ceil((SEARCH * middle) / step)));
  let best = middle;
  let top = -1;
  for (let k = -reach; k <= reach; k++) {
    const f = middle + k * step;
    const { total } = power(f);
    if (total > top) [top, best] = [total, f];
  }
  for (let d = step / 2; d > width / 100; d /= 2)
    for (const f of [best - d, best + d]) {
      const { total } = power(f);
      if (total > top) [top, best] = [total, f];
    }
  return best;
}

/** Angle of the rotor at each reading [rad], 0 where the mark rises; null where it does not rise ten times. */
function angleFromMark(
  t_s: Float64Array,
  mark: Float64Array,
): { angle: Float64Array; turn_Hz: number } | null {
  const sorted = Float64Array.from(mark).sort();
  const level = (sorted[0] + sorted[sorted.length - 1]) / 2;
  const rises: number[] = [];
  for (let i = 1; i < mark.length; i++)
    if (mark[i - 1] < level && mark[i] >= level)
      rises.push(t_s[i - 1] + ((t_s[i] - t_s[i - 1]) * (level - mark[i - 1])) / (mark[i] - mark[i - 1]));
  if (rises.length < 10) return null;
  const angle = new Float64Array(t_s.length).fill(NaN);
  let r = 0;
  for (let i = 0; i < t_s.length; i++) {
    while (r < rises.length - 2 && t_s[i] >= rises[r + 1]) r++;
    angle[i] = (2 * Math.PI * (t_s[i] - rises[r])) / (rises[r + 1] - rises[r]);
  }
  return { angle, turn_Hz: (rises.length - 1) / (rises[rises.length - 1] - rises[0]) };
}

function phaseOf(angle: Float64Array, values: readonly Float64Array[], perAxis: readonly number[]): number {
  const strongest = perAxis.indexOf(Math.max(...perAxis));
  const [a, b] = fitSine(values[strongest], 0, angle.length, (k) => angle[k]);
  return ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
}
