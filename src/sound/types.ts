import type { Interval } from '../quantities/interval.ts';

/** What makes a sound. Tones but the last, which is noise without pitch. */
export const PARTS = [
  'loading',
  'thickness',
  'unequal blades',
  'uneven air',
  'rotor and vanes',
  'broadband',
] as const;
export type Part = (typeof PARTS)[number];

/** One tone of the craft, every fan together. Levels in dB re 20 uPa where one listens. */
export interface Tone {
  readonly frequency_Hz: number;
  /** Multiples of the shaft's turn; of the blade passing where `harmonic` is whole. */
  readonly order: number;
  readonly harmonic: number | null;
  readonly level: Interval;
  readonly weighted_dBA: number;
  /** The part that gives most of it. */
  readonly mostly: Part;
}

/** A third octave or an octave. */
export interface BandLevel {
  readonly band_Hz: number;
  readonly level: Interval;
  readonly tones_dB: number;
  readonly broadband_dB: number;
  readonly weighted_dBA: number;
}

/** A pattern of pressure that spins in the duct, and whether it travels to the ends. */
export interface ModeRow {
  readonly harmonic: number;
  readonly frequency_Hz: number;
  readonly lobes: number;
  /** 'rotor alone', or the vanes' turns k in m = n B + k V. */
  readonly vaneTurns: number | null;
  readonly cutOn: boolean;
  /** Frequency over that of cut-on; null for a pattern without lobes, which always travels. */
  readonly cutOnRatio: number | null;
  /** What the duct takes from it before it leaves [dB]. */
  readonly lost_dB: number;
  readonly words: string;
}

/** Mean square pressures of one fan at 1 m in free field, averaged over directions, part by part; for fair comparisons. */
export interface PartEnergies {
  readonly weighted: Readonly<Record<Part, number>>;
  readonly plain: Readonly<Record<Part, number>>;
}

/** The sound of a craft with all its fans at one running point. */
export interface SoundAt {
  readonly rpm: number;
  readonly bladePassing_Hz: number;
  readonly overall_dBA: Interval;
  readonly overall_dB: Interval;
  /** A-weighted sound power level of the craft [dB re 1 pW]. */
  readonly power_dBA: Interval;
  /** What each part alone would read [dBA]. */
  readonly parts_dBA: Readonly<Record<Part, number>>;
  readonly tones: readonly Tone[];
  readonly thirdOctaves: readonly BandLevel[];
  readonly octaves: readonly BandLevel[];
  /** More than said, were all fans locked at one speed and in phase, and less where they cancel: tones only. */
  readonly lockedMore_dB: number;
  readonly energies: PartEnergies;
}

/** The sound of a project. */
export interface Sound {
  readonly distance_m: number;
  readonly reflectingPlane: boolean;
  /** At the thrust of hover; null where no speed of the fan gives it. */
  readonly hover: SoundAt | null;
  /** Whether the drive reaches that. */
  readonly hovers: boolean;
  readonly full: SoundAt;
  readonly modes: readonly ModeRow[];
  /** The answer to the brief's wish; null where none is stated. */
  readonly wish: {
    readonly wish_dBA: number;
    readonly holds: 'yes' | 'likely' | 'unsure' | 'no';
    readonly text: string;
  } | null;
  readonly words: readonly string[];
  readonly cautions: readonly string[];
}
