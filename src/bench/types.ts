import type { Air } from '../air/atmosphere.ts';
import type { Interval } from '../quantities/interval.ts';

/**
 * One running point: a reading, or the mean of repeats at the same throttle. All of one fan; intervals are 90 %, and
 * hold the errors of the meters as well as the scatter of the point itself. `null`: not read and not to be had.
 */
export interface ReducedPoint {
  /** Places in `run.rows` of the readings in it. */
  readonly rows: readonly number[];
  /** Mean time of them [s], null without time stamps. */
  readonly t_s: number | null;
  readonly throttle: number | null;
  readonly rpm: Interval | null;
  /** As the rig shows it: zero, drift and lever taken care of, rig effects (see `rigEffects`) not. */
  readonly thrust_N: Interval;
  /** Half of the 90 % interval of thrust that is this point's own (step of the scale, scatter, drift left over). */
  readonly thrustOwn_N: number;
  readonly voltage_V: Interval | null;
  /** From the pack, one fan. */
  readonly current_A: Interval | null;
  readonly electricalPower_W: Interval | null;
  readonly torque_Nm: Interval | null;
  readonly shaftPower_W: Interval | null;
  /** Whether torque was read, or follows from volts, amps and speed by the constants of the motor. */
  readonly torqueFrom: 'read' | 'motor' | null;
  /** Thrust over rho n^2 D^4, n in turns a second. */
  readonly ct: Interval | null;
  /** Shaft power over rho n^3 D^5. */
  readonly cp: Interval | null;
  /** Ideal power over shaft power, on the reference of its own kind, as in `FanPoint`. */
  readonly figureOfMerit: Interval | null;
  /** Grams of thrust for each electrical watt. */
  readonly gramsPerWatt: Interval | null;
}

/** What fraction of hover a reading is worth. Thrust over the thrust hover asks of one fan. */
export interface HoverShare {
  /** At the point with the most throttle (else the most thrust). */
  readonly atThisThrottle: Interval;
  readonly throttle: number | null;
  /** At full throttle; null where the throttle of the readings is not known. */
  readonly fullThrottle: Interval | null;
  /** Whether `fullThrottle` goes beyond what was read. */
  readonly extrapolated: boolean;
  /** The same in a sentence or two. */
  readonly words: string;
}

/** Something the rig itself does to the reading. Not applied to the points. */
export interface RigEffect {
  readonly id: 'ground effect' | 'jet on the pan';
  /** Thrust the rig shows over thrust in free air. */
  readonly factor: Interval;
  /** An estimate, not a measurement: say so wherever it is shown. */
  readonly estimate: true;
  readonly text: string;
}

/** Where the zero of the scale comes from and how it moved [g]. */
export interface Zero {
  readonly from: 'readings at rest' | 'mass at rest' | 'mass of the craft' | 'taken as zero';
  readonly first_g: number;
  readonly last_g: number;
  /** Half of its 90 % interval. */
  readonly error_g: number;
}

/** Something to mind about a run. `path` is inside the run, for example `rig.reading`. */
export interface BenchRemark {
  readonly weight: 'stop' | 'care' | 'note';
  readonly path: string;
  readonly text: string;
}

/** A bench run, reduced. Recomputed from the raw readings whenever it is wanted; never stored. */
export interface Reduced {
  readonly fansRunning: number;
  readonly air: Air;
  readonly zero: Zero;
  /** Thrust hover asks of one fan [N], and whether the craft was weighed or its mass comes from the project. */
  readonly needed_N: Interval;
  readonly neededFrom: 'weighed' | 'project';
  /** Ordered by throttle, else by speed, else by thrust. */
  readonly points: readonly ReducedPoint[];
  /** Half-widths (90 %) of what is wrong in the same way at every point, over the reading. */
  readonly common: {
    readonly thrust_ratio: number;
    readonly voltage_ratio: number;
    readonly current_ratio: number;
    readonly rpm_ratio: number;
  };
  readonly hoverShare: HoverShare | null;
  readonly rigEffects: readonly RigEffect[];
  readonly remarks: readonly BenchRemark[];
  /** Readings not used, by choice or because they lack the scale. */
  readonly unused: number;
}
