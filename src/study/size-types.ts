import type { Battery, Motor } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import type { FanChoice } from './fan-family.ts';

/** What a sizing looks over. Lists left out hold the project's own. */
export interface SizeOptions {
  /** Tip diameters; left out: eight, from the least the motors leave room for to just past the width allowed. */
  readonly tips_mm?: readonly number[];
  readonly motors?: readonly Motor[];
  readonly batteries?: readonly Battery[];
  /** Left out: 3, 5 and 7. */
  readonly bladeCounts?: readonly number[];
  /** Hub over the least the motor allows; left out: 1 and 1.25. */
  readonly hubFactors?: readonly number[];
  readonly fanCount?: number;
}

/** What a cell of the map comes to: it meets the brief, or what stands first in the way. */
export type SizeMark =
  | 'meets'
  | 'time'
  | 'margin'
  | 'hub'
  | 'shape'
  | 'wide'
  | 'disc'
  | 'torque'
  | 'winding'
  | 'controller'
  | 'battery'
  | 'slow'
  | 'weak';

/** One design that was run: a fan of the plain family with a motor and a battery. */
export interface SizeDesign {
  readonly choice: FanChoice;
  /** Places in the study's lists. */
  readonly motor: number;
  readonly battery: number;
  readonly tipDiameter_mm: number;
  readonly hubDiameter_mm: number;
  readonly bladeCount: number;
  readonly outerWidth_mm: number;
  readonly mass_g: number;
  readonly thrustToWeight: number;
  readonly hover_min: number;
  readonly hoverThrottle: number | null;
  /** In hover; what the search goes by for loudness, the sound itself being too long to work out for every fan tried. */
  readonly tipSpeed_mps: number | null;
  /** A-weighted level in hover at 3 m over hard ground, all fans; worked out for the designs of the front alone. */
  readonly level_dBA?: Interval | null;
  /** At full throttle, per fan. */
  readonly motorCurrent_A: number;
  /** From the pack at full throttle, all fans. */
  readonly packCurrent_A: number;
  readonly hoverCurrent_A: number | null;
  /** In the long run, an estimate; null: no hover, or it never settles. */
  readonly hoverWinding_C: number | null;
  /** The part that is nearest to its limit, and how near: 1 is at the limit. */
  readonly tightest: {
    readonly kind: 'torque' | 'winding' | 'controller' | 'battery';
    readonly ratio: number;
  };
  /** Even a fan without losses needs this at the shaft for the thrust margin [W]. */
  readonly leastPower_W: number;
  /** What the motor could give at its burst current if the blades loaded it just so [W] */
  readonly mostPower_W: number;
}

/** One cell of the map: its best hub, blades, angle and chord. */
export interface SizeCell {
  readonly tipDiameter_mm: number;
  readonly motor: number;
  readonly battery: number;
  readonly mark: SizeMark;
  /** Why, with figures. */
  readonly words: string;
  /** null where nothing could be drawn. */
  readonly design: SizeDesign | null;
}

export interface SizeStudy {
  readonly tips_mm: readonly number[];
  readonly motors: readonly Motor[];
  readonly batteries: readonly Battery[];
  readonly fanCount: number;
  /** By battery, then motor, then tip diameter. */
  readonly cells: readonly SizeCell[];
  /** Cells whose best design fits the width and overloads nothing; of those, that lift; of those, that meet the brief. */
  readonly close: number;
  readonly lift: number;
  readonly meet: number;
  /** Designs no other one beats at once in minutes, thrust margin, outer width and tip speed; longest hover first. */
  readonly front: readonly SizeDesign[];
  /** The fan as the project draws it with its own motor and battery, to compare with. */
  readonly drawn: {
    readonly tipDiameter_mm: number;
    readonly thrustToWeight: number;
    readonly hover_min: number;
  };
  /** How many fans were run. */
  readonly tried: number;
  /** false where it was stopped before its end. */
  readonly complete: boolean;
  readonly words: readonly string[];
}
