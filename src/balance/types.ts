import type { Interval } from '../quantities/interval.ts';
import type { Moment } from './correction.ts';
import type { TrialAnswer } from './trial-runs.ts';

/** Speeds and weight of the craft that turns the rotor. */
export interface RotorAtWork {
  /** null where the craft does not hover. */
  readonly hover_rpm: number | null;
  readonly full_rpm: number;
  /** Of the whole craft [g]. */
  readonly craftMass_g: number;
}

/** The balance of the rotor as it leaves the printer. Intervals hold nine rotors of ten. */
export interface BalanceAnswer {
  readonly grade_mmps: number;
  readonly rotorMass_g: number;
  readonly blades: number;
  readonly apart: boolean;
  readonly bladeMass_g: number;
  /** Radius of a blade's centre of mass. */
  readonly bladeRadius_mm: number;
  /** Standard deviation of a blade's mass over its mass. */
  readonly bladeMassScatter: number;
  readonly full_rpm: number;
  readonly hover_rpm: number | null;
  /** Permissible residual unbalance at full throttle, the speed the grade is judged at, and at hover. */
  readonly permissible_gmm: number;
  readonly permissibleAtHover_gmm: number | null;
  /** Mean over many prints. */
  readonly expected_gmm: Interval;
  /** Of the mean unbalance, cause by cause, the largest first. */
  readonly sources: readonly { readonly name: string; readonly size_gmm: number }[];
  /** Chance that a rotor meets the grade untouched. */
  readonly passChance: number;
  readonly grades: readonly {
    readonly grade_mmps: number;
    readonly permissible_gmm: number;
    readonly passChance: number;
  }[];
  /** Force that turns with the rotor at hover, as grams of weight; null without hover. */
  readonly shakingAtHover_g: Interval | null;
  /** That of one rotor over the weight of the craft. */
  readonly shakingShare: number | null;
  readonly words: readonly string[];
}

/** How and where this rotor can be corrected. */
export interface Workshop {
  readonly radius_mm: number;
  readonly drill_mm: number;
  readonly tape_gpm: number | null;
  readonly density_kgpm3: number;
  /** Material under the place where it is drilled. */
  readonly depth_mm: number;
  readonly blades: number;
  readonly bladeRadius_mm: number;
  readonly permissible_gmm: number;
  /** Pull on a gram millimetre at full throttle [N]. */
  readonly pullPerGmm_N: number;
}

/** Weighed blades in their best order. */
export interface OrderAnswer {
  /** Numbers of the blades (1-based, as weighed) round the hub. */
  readonly order: readonly number[];
  readonly masses_g: readonly number[];
  readonly before_gmm: number;
  readonly after_gmm: number;
  readonly exact: boolean;
  /** What the order leaves: where the heavy side is, from the first place round the hub, and what to add against it. */
  readonly left: Moment;
  readonly correction: Moment;
  readonly words: readonly string[];
}

/** What the readings of the rotor on the bench say. */
export interface BenchAnswer {
  readonly workshop: Workshop;
  readonly order: OrderAnswer | null;
  /** Why the masses say nothing, or what to mind about them; null where all is well or none were entered. */
  readonly orderFault: string | null;
  /** null where no runs were entered. */
  readonly trial: TrialAnswer | null;
  readonly trialWords: readonly string[];
}
