import { powerSpectrum } from '../../numerics/fft.ts';

/** One tone that turns with the rotor. */
export interface Tone {
  /** Times a turn. */
  readonly order: number;
  /** Multiple of the blade tone; null: a tone once a turn, which only unlike blades make (or the motor). */
  readonly multiple: number | null;
  readonly frequency_Hz: number;
  /** Power over full scale of the recording [dB]; only differences mean anything unless the microphone is calibrated. */
  readonly level_dB: number;
  /** Over the loudest multiple of the blade tone [dB]. */
  readonly relative_dB: number;
  /** Over the noise in the same band [dB]; below 3 the tone is not to be told from it. */
  readonly overNoise_dB: number;
}

/** The tones of one fan in a recording. */
export interface Tones {
  readonly rpm: number;
  readonly multiples: readonly Tone[];
  /** Multiples of the turn that are no multiple of the blade tone. */
  readonly turns: readonly Tone[];
  /** Power of all `turns` that stand out over that of all `multiples` [dB]; null: none stands out. */
  readonly uneven_dB: number | null;
  /** What is left of the recording without these tones, over full scale [dB]. */
  readonly rest_dB: number;
}

const MULTIPLES = 8;
/** Tones are searched this far to either side of their place: a steady fan still wanders. */
const WANDER = 0.008;
const STANDS_OUT_DB = 3;

const decibel = (power: number): number => 10 * Math.log10(Math.max(1e-20, power));

/**
 * Tones of a fan that runs at a steady `rpm`. In frames of 0.19 s or more under a Hann window each tone is the power in the
 * main lobe about its highest bin less the noise beside it; a sine of amplitude a has power a^2 / 2 whatever the frame.
 * Throws RangeError where blades or rpm cannot be.
 */
export function tonesOf(samples: Float32Array, sampleRate: number, rpm: number, blades: number): Tones {
  if (!(rpm > 0 && Number.isInteger(blades) && blades >= 1))
    throw new RangeError(`tonesOf: rpm is ${rpm} and blades ${blades}; both must be above 0.`);
  const turn_Hz = rpm / 60;
  // A turn is to be parted from the next: six bins or more between them.
  const size = 2 ** Math.min(16, Math.ceil(Math.log2(Math.max(0.17, 6 / turn_Hz) * sampleRate)));
  const orders: number[] = [];
  for (let k = 1; k <= MULTIPLES * blades; k++)
    if (k * turn_Hz < 0.47 * sampleRate && (k % blades === 0 || k < 3 * blades)) orders.push(k);
  const tone = new Float64Array(orders.length);
  const noise = new Float64Array(orders.length);
  const spectrum = powerSpectrum(size);
  const power = new Float64Array(size / 2 + 1);
  // Sum of the main lobe of a sine is a^2 / 4 times size times the sum of the window squared, 3/8 size.
  const scale = 2 / (0.375 * size * size);
  let frames = 0;
  for (let at = 0; at === 0 || at + size <= samples.length; at += size / 2) {
    spectrum.into(samples, at, power);
    frames++;
    orders.forEach((order, i) => {
      const line = lineAt(power, (order * turn_Hz * size) / sampleRate);
      tone[i] += line.tone * scale;
      noise[i] += line.noise * scale;
    });
  }
  let whole = 0;
  for (const value of samples) whole += value * value;
  whole /= Math.max(1, samples.length);
  const net = orders.map((_, i) => Math.max(0, (tone[i] - noise[i]) / frames));
  const loudest = Math.max(1e-20, ...net.filter((_, i) => orders[i] % blades === 0));
  const all = orders.map((order, i): Tone => ({
    order,
    multiple: order % blades === 0 ? order / blades : null,
    frequency_Hz: order * turn_Hz,
    level_dB: decibel(net[i]),
    relative_dB: decibel(net[i] / loudest),
    overNoise_dB: decibel(net[i] / Math.max(1e-20, noise[i] / frames)),
  }));
  const sumOf = (tones: readonly Tone[]) =>
    tones.filter((t) => t.overNoise_dB >= STANDS_OUT_DB).reduce((sum, t) => sum + 10 ** (t.level_dB / 10), 0);
  const multiples = all.filter((t) => t.multiple !== null);
  const turns = all.filter((t) => t.multiple === null);
  const [ofBlades, ofTurns] = [sumOf(multiples), sumOf(turns)];
  return {
    rpm,
    multiples,
    turns,
    uneven_dB: ofTurns > 0 && ofBlades > 0 ? decibel(ofTurns / ofBlades) : null,
    rest_dB: decibel(Math.max(0, whole - ofBlades - ofTurns)),
  };
}

/** Power in the main lobe about the highest bin near a place, and of noise in as many bins from those beside it. */
function lineAt(power: Float64Array, place: number): { tone: number; noise: number } {
  const reach = Math.max(1, Math.round(place * WANDER));
  const middle = Math.round(place);
  const last = power.length - 1;
  let top = Math.min(last, Math.max(1, middle));
  for (let k = Math.max(1, middle - reach); k <= Math.min(last, middle + reach); k++)
    if (power[k] > power[top]) top = k;
  let tone = 0;
  for (let k = Math.max(0, top - 2); k <= Math.min(last, top + 2); k++) tone += power[k];
  const about: number[] = [];
  for (let d = 3 + reach; d <= 9 + reach; d++) {
    if (top - d > 0) about.push(power[top - d]);
    if (top + d <= last) about.push(power[top + d]);
  }
  about.sort((a, b) => a - b);
  // Median of exponentially distributed power is ln 2 of its mean.
  return { tone, noise: (5 * (about[about.length >> 1] ?? 0)) / Math.LN2 };
}

/** What changed between two recordings of the same fan, taken alike. Above 0: louder after. */
export interface ToneChange {
  readonly multiples: readonly { readonly multiple: number; readonly change_dB: number }[];
  readonly tones_dB: number;
  readonly rest_dB: number;
  readonly uneven_dB: number | null;
}

/**
 * Change from one recording to another with the microphone in the same place and at the same gain. Speeds may differ: tones
 * are compared by their number. Multiples that stand out in neither are left out.
 */
export function toneChange(before: Tones, after: Tones): ToneChange {
  const total = ({ multiples }: Tones) =>
    multiples.reduce((sum, t) => sum + (t.overNoise_dB >= STANDS_OUT_DB ? 10 ** (t.level_dB / 10) : 0), 0);
  return {
    multiples: before.multiples.flatMap((tone) => {
      const now = after.multiples.find(({ multiple }) => multiple === tone.multiple);
      const heard = now && Math.max(tone.overNoise_dB, now.overNoise_dB) >= STANDS_OUT_DB;
      return heard ? [{ multiple: tone.multiple!, change_dB: now.level_dB - tone.level_dB }] : [];
    }),
    tones_dB: decibel(total(after)) - decibel(total(before)),
    rest_dB: after.rest_dB - before.rest_dB,
    uneven_dB:
      before.uneven_dB === null || after.uneven_dB === null ? null : after.uneven_dB - before.uneven_dB,
  };
}
