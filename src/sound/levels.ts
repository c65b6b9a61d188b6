/** Reference pressure of sound in air [Pa]. Source: ISO 1683. */
export const REFERENCE_PRESSURE = 20e-6;

/** Levels lower than this are as good as nothing; keeps silence finite. */
export const SILENCE_DB = -60;

/** Level [dB re 20 uPa] of a mean square pressure [Pa^2]. */
export const levelOf = (meanSquare: number): number =>
  Math.max(SILENCE_DB, 10 * Math.log10(Math.max(meanSquare, 1e-40) / REFERENCE_PRESSURE ** 2));

/** Mean square pressure [Pa^2] of a level; silence is 0. */
export const meanSquareOf = (level: number): number =>
  level <= SILENCE_DB ? 0 : REFERENCE_PRESSURE ** 2 * 10 ** (level / 10);

/** Levels of sources that know nothing of each other, together: their energies add. */
export const sumLevels = (levels: readonly number[]): number =>
  levelOf(levels.reduce((sum, level) => sum + meanSquareOf(level), 0));

/** Where one listens. */
export interface Listener {
  readonly distance_m: number;
  /** One hard plane near the craft throws the sound that falls on it back: twice the energy. */
  readonly reflectingPlane: boolean;
}

/**
 * What is added to a level at 1 m in free field: -20 lg(r / 1 m), and 3 dB for one reflecting plane. For distances beyond
 * about the craft's own width; absorption by the air (below 1 dB within 20 m up to 4 kHz) is left out. Source: ISO 3744.
 */
export const spreading = ({ distance_m, reflectingPlane }: Listener): number =>
  -20 * Math.log10(distance_m) + (reflectingPlane ? 10 * Math.log10(2) : 0);

/** Sound power level over the level at 1 m in free field: 10 lg(4 pi), 11 dB. Source: ISO 3744. */
export const POWER_OVER_ONE_METRE = 10 * Math.log10(4 * Math.PI);
