import type { Interval } from '../quantities/interval.ts';
import type { DrivePoint } from './supply.ts';

export type LimitKind =
  | 'motor continuous'
  | 'motor burst'
  | 'winding temperature'
  | 'controller'
  | 'cell current'
  | 'rotor strength';

/** One limit along the throttle. */
export interface DriveLimit {
  readonly kind: LimitKind;
  /** Path in the project file of what sets it; '' where the tool's own rule does. */
  readonly path: string;
  readonly unit: 'A' | '°C' | 'rpm';
  readonly limit: number;
  /** In hover, null without one; and at full throttle. Winding: in the long run, null where it never settles. */
  readonly hover: number | null;
  readonly full: number | null;
  /** Whether passing it for seconds is allowed. */
  readonly lasting: boolean;
  /** Where it is reached; null: not within full throttle. */
  readonly at: { readonly throttle: number; readonly thrust_N: number; readonly rpm: number } | null;
}

/** How warm the winding gets, with the wide interval of an estimate from can size and mass. */
export interface WindingHeat {
  /** In the long run [C]; null: it never settles. High ends may be Infinity. */
  readonly steady_C: Interval | null;
  /** From cold (hover: from air temperature; full throttle: from hover's warmth) to 120 C [s]; null: never. */
  readonly timeToLimit_s: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
  };
}

export interface DriveLimits {
  /** The earliest along the throttle first; those not reached behind. */
  readonly limits: readonly DriveLimit[];
  readonly first: DriveLimit | null;
  readonly heat: { readonly hover: WindingHeat | null; readonly full: WindingHeat };
  readonly hoverThrottle: number | null;
  readonly full: DrivePoint & { readonly rpm: number; readonly thrust_N: number };
  /** Which limit binds first, and what that means, in sentences. */
  readonly words: readonly string[];
}
