/** Squares of the pole frequencies of the A weighting [Hz] and its gain at 1 kHz taken off. Source: IEC 61672-1, annex E. */
const [POLE_1, POLE_2, POLE_3, POLE_4] = [20.6 ** 2, 107.7 ** 2, 737.9 ** 2, 12_194 ** 2];
const GAIN_DB = 2.0;

/**
 * A weighting at `frequency` [Hz, above 0], dB. R = f4^2 f^4 / ((f^2 + f1^2) sqrt((f^2 + f2^2)(f^2 + f3^2)) (f^2 + f4^2)),
 * A = 20 lg R + 2.00. Source: IEC 61672-1:2013, annex E.
 */
export function aWeighting(frequency: number): number {
  const f = frequency * frequency;
  const response = (POLE_4 * f * f) / ((f + POLE_1) * Math.sqrt((f + POLE_2) * (f + POLE_3)) * (f + POLE_4));
  return 20 * Math.log10(response) + GAIN_DB;
}

/** A third-octave band: the round name it goes by, and its exact middle and edges [Hz]. */
export interface Band {
  readonly name: number;
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

const NAMES = [
  50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000,
  5000, 6300, 8000, 10_000, 12_500, 16_000, 20_000,
] as const;

/** Third octaves from 50 Hz to 20 kHz: middles 1000 * 10^(x/10), edges a factor 10^(1/20) away. Source: IEC 61260-1. */
export const THIRD_OCTAVES: readonly Band[] = NAMES.map((name) => {
  const step = Math.round(10 * Math.log10(name / 1000));
  const middle = 1000 * 10 ** (step / 10);
  return { name, middle, low: middle / 10 ** 0.05, high: middle * 10 ** 0.05 };
});

/** Octaves by the names of their middles; each holds the third octave of its name and the two beside it. */
export const OCTAVE_NAMES = [63, 125, 250, 500, 1000, 2000, 4000, 8000] as const;

/** The third octave `frequency` falls in; -1 below or above all. */
export function bandOf(frequency: number): number {
  if (!(frequency > 0)) return -1;
  const i = Math.round(10 * Math.log10(frequency / THIRD_OCTAVES[0].middle));
  return i >= 0 && i < THIRD_OCTAVES.length ? Math.abs(i) : -1;
}

/** A weighting as a factor on energy. */
export const aFactor = (frequency: number): number => 10 ** (aWeighting(frequency) / 10);

/** The same of every third octave, at its middle. */
export const BAND_FACTORS: readonly number[] = THIRD_OCTAVES.map(({ middle }) => aFactor(middle));
