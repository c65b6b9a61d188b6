import type { Interval } from '../quantities/interval.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { fanBroadband } from './fan-broadband.ts';
import { fanTones, type OrderTone } from './fan-tones.ts';
import { levelOf, POWER_OVER_ONE_METRE, SILENCE_DB, spreading, type Listener } from './levels.ts';
import type { SoundSource } from './source.ts';
import { PARTS, type BandLevel, type Part, type PartEnergies, type SoundAt, type Tone } from './types.ts';
import { aFactor, aWeighting, BAND_FACTORS, bandOf, OCTAVE_NAMES, THIRD_OCTAVES } from './weighting.ts';

/**
 * Half-widths (90 %) of each part's level [dB], up and down alike. Steady loading and thickness: what Gutin's formula showed
 * against measured propellers (NACA TN 1354, read; its size from memory). Broadband: sections of RP-1218 agree within 2 to
 * 3 dB, small rotors of other authors within 5; ours lacks turbulent inflow. The rest are estimates and wide.
 */
export const PART_HALF_WIDTHS_DB: Readonly<Record<Part, number>> = {
  loading: 4,
  thickness: 4,
  'unequal blades': 10,
  'uneven air': 10,
  'rotor and vanes': 10,
  broadband: 6,
};

/** Besides: the direction one listens from and how the craft holds itself; and tones through a short duct. Estimates. */
export const DIRECTION_HALF_WIDTH_DB = 3;
export const DUCT_HALF_WIDTH_DB = 5;

/** The sound of `fans` like fans that know nothing of each other's phase, where one listens. */
export function craftSound(source: SoundSource, fans: number, listener: Listener): SoundAt {
  const tones = fanTones(source);
  const noise = fanBroadband(source);
  const energies = partEnergies(source, tones, noise);
  const shift = 10 * Math.log10(fans) + spreading(listener);
  const ducted = source.duct !== null;
  const turns = source.omega / (2 * Math.PI);
  const overall_dBA = totalInterval(energies.weighted, shift, ducted);
  return {
    rpm: rpmFromAngularSpeed(source.omega),
    bladePassing_Hz: source.blades * turns,
    overall_dBA,
    overall_dB: totalInterval(energies.plain, shift, ducted),
    power_dBA: moved(
      totalInterval(energies.weighted, 0, ducted),
      10 * Math.log10(fans) + POWER_OVER_ONE_METRE,
    ),
    parts_dBA: byPart((part) => levelOf(energies.weighted[part]) + shift),
    tones: tones
      .map((tone) => toneOf(tone, source, shift))
      .filter(({ level }) => level.value > SILENCE_DB / 2),
    ...bandsOf(tones, noise, turns, shift, ducted),
    lockedMore_dB: 10 * Math.log10(fans),
    energies,
  };
}

const byPart = <T>(of: (part: Part) => T): Record<Part, T> => ({
  loading: of('loading'),
  thickness: of('thickness'),
  'unequal blades': of('unequal blades'),
  'uneven air': of('uneven air'),
  'rotor and vanes': of('rotor and vanes'),
  broadband: of('broadband'),
});

const moved = ({ value, low, high }: Interval, by: number): Interval => ({
  value: value + by,
  low: low + by,
  high: high + by,
});

function partEnergies(source: SoundSource, tones: readonly OrderTone[], noise: Float64Array): PartEnergies {
  const turns = source.omega / (2 * Math.PI);
  const plain = byPart(() => 0);
  const weighted = byPart(() => 0);
  for (const { order, parts } of tones) {
    const weight = aFactor(order * turns);
    for (const part of PARTS) {
      plain[part] += parts[part] ?? 0;
      weighted[part] += (parts[part] ?? 0) * weight;
    }
  }
  noise.forEach((energy, b) => {
    plain.broadband += energy;
    weighted.broadband += energy * BAND_FACTORS[b];
  });
  return { plain, weighted };
}

/** Parts that pass the duct as spinning patterns. */
export const isTone = (part: Part): boolean => part !== 'broadband';

/** Factors on the energy at either end of a half-width. */
const ends = (half_dB: number) => [10 ** (-half_dB / 10), 10 ** (half_dB / 10)] as const;
const PART_ENDS = PARTS.map((part) => ends(PART_HALF_WIDTHS_DB[part]));
const DUCT_ENDS = ends(DUCT_HALF_WIDTH_DB);

/** Level of parts together, each part's own error, the duct's on all tones, and the direction moved one at a time. */
export function totalInterval(
  energies: Readonly<Record<Part, number>>,
  shift: number,
  ducted: boolean,
): Interval {
  let [total, tones] = [0, 0];
  for (const part of PARTS) {
    total += energies[part];
    if (isTone(part)) tones += energies[part];
  }
  const value = levelOf(total);
  // As `intervalFrom` adds them; written out, for this runs for every tone and band of every assessment.
  let down = DIRECTION_HALF_WIDTH_DB ** 2;
  let up = down;
  const swing = (energy: number, ends: readonly [number, number]) => {
    if (!(energy > 1e-3 * total)) return;
    down += (levelOf(total + energy * (ends[0] - 1)) - value) ** 2;
    up += (levelOf(total + energy * (ends[1] - 1)) - value) ** 2;
  };
  for (let i = 0; i < PARTS.length; i++) swing(energies[PARTS[i]], PART_ENDS[i]);
  if (ducted) swing(tones, DUCT_ENDS);
  return { value: value + shift, low: value + shift - Math.sqrt(down), high: value + shift + Math.sqrt(up) };
}

function toneOf({ order, parts }: OrderTone, source: SoundSource, shift: number): Tone {
  const frequency_Hz = (order * source.omega) / (2 * Math.PI);
  const energies = byPart((part) => parts[part] ?? 0);
  const level = totalInterval(energies, shift, source.duct !== null);
  const mostly = PARTS.reduce((a, b) => (energies[b] > energies[a] ? b : a));
  const harmonic = order % source.blades === 0 ? order / source.blades : null;
  return {
    frequency_Hz,
    order,
    harmonic,
    level,
    weighted_dBA: level.value + aWeighting(frequency_Hz),
    mostly,
  };
}

function bandsOf(
  tones: readonly OrderTone[],
  noise: Float64Array,
  turns: number,
  shift: number,
  ducted: boolean,
): { readonly thirdOctaves: BandLevel[]; readonly octaves: BandLevel[] } {
  const energies = THIRD_OCTAVES.map((_, b) => byPart((part) => (part === 'broadband' ? noise[b] : 0)));
  const weighted = THIRD_OCTAVES.map((_, b) => noise[b] * BAND_FACTORS[b]);
  for (const { order, parts } of tones) {
    const b = bandOf(order * turns);
    if (b < 0) continue;
    const weight = aFactor(order * turns);
    for (const part of PARTS) {
      energies[b][part] += parts[part] ?? 0;
      weighted[b] += (parts[part] ?? 0) * weight;
    }
  }
  const band = (band_Hz: number, from: number, to: number): BandLevel => {
    const sum = (of: (b: number) => number) => {
      let total = 0;
      for (let b = from; b <= to; b++) total += of(b);
      return total;
    };
    const here = byPart((part) => sum((b) => energies[b][part]));
    const inTones = PARTS.reduce((total, part) => total + (isTone(part) ? here[part] : 0), 0);
    return {
      band_Hz,
      level: totalInterval(here, shift, ducted),
      tones_dB: levelOf(inTones) + shift,
      broadband_dB: levelOf(here.broadband) + shift,
      weighted_dBA: levelOf(sum((b) => weighted[b])) + shift,
    };
  };
  const thirdOctaves = THIRD_OCTAVES.map(({ name }, b) => band(name, b, b));
  const octaves = OCTAVE_NAMES.map((name) => {
    const middle = THIRD_OCTAVES.findIndex((b) => b.name === name);
    return band(name, middle - 1 < 0 ? 0 : middle - 1, middle + 1);
  });
  return { thirdOctaves, octaves };
}
