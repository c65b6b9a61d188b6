import type { Interval } from '../quantities/interval.ts';

/** Measured over predicted, with the errors of both in the interval (90 %). */
export interface Split {
  /** Thrust at this throttle and pack. */
  readonly total: Interval | null;
  /** Thrust at equal speed: blades, duct, air. */
  readonly air: Interval | null;
  /** Thrust that the speed reached is worth against the speed predicted at this throttle: motor, controller, pack. */
  readonly drive: Interval | null;
  /** The part of `drive` that the voltage under load is worth. */
  readonly pack: Interval | null;
  /** The part of `drive` that is left at equal voltage: motor and controller. */
  readonly motor: Interval | null;
  /** Shaft torque at equal speed. */
  readonly torque: Interval | null;
}

export interface ComparedPoint {
  /** Place in `Reduced.points`. */
  readonly point: number;
  readonly throttle: number | null;
  readonly rpm: number | null;
  readonly measured_N: Interval;
  readonly predictedAtRpm_N: Interval | null;
  readonly predictedAtThrottle_N: Interval | null;
  readonly predictedRpm: Interval | null;
  readonly predictedVoltage_V: number | null;
  readonly ratios: Split;
}

export interface BenchComparison {
  readonly points: readonly ComparedPoint[];
  /** The point the sentences speak of: the one with the most thrust asked of it. */
  readonly spokenOf: number | null;
  readonly words: readonly string[];
}
