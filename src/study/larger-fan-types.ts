import type { DriveLimit } from '../drive/limit-types.ts';

/** One size of the same fan on the same motor, battery and craft. */
export interface FanSize {
  readonly tipDiameter_mm: number;
  readonly ductOuterDiameter_mm: number;
  readonly mass_g: number;
  readonly thrustToWeight: number;
  /** The same at the throttle where the first limit binds: what may be used for minutes. */
  readonly usableThrustToWeight: number;
  readonly hoverThrottle: number | null;
  readonly hover_min: number;
  readonly hoverCurrent_A: number | null;
  readonly fullCurrent_A: number;
  /** In the long run; null: no hover, or it never settles. */
  readonly hoverWinding_C: number | null;
  readonly fullWinding_C: number | null;
  /** What binds first along the throttle; null: nothing up to full throttle. */
  readonly binding: DriveLimit | null;
  /** What the size breaks: a lasting limit in hover, any other at full throttle; null: the motor can handle it. */
  readonly breaks: { readonly limit: DriveLimit; readonly when: 'in hover' | 'at full throttle' } | null;
  readonly lifts: boolean;
  /** First dimension that does not fit; null: it can be built so. */
  readonly fault: string | null;
  readonly withinWidth: boolean;
}

export interface LargerFan {
  readonly sizes: readonly FanSize[];
  /** The drawn size. */
  readonly drawn: FanSize;
  /** Largest that lifts and breaks nothing, to 1 % of the drawn diameter; null: none does. */
  readonly largest: FanSize | null;
  /** What stops the next size; null: the sweep ends first. */
  readonly stoppedBy: FanSize['breaks'] | 'weight' | null;
  /** Of those that break nothing, the longest hover. */
  readonly longest: FanSize | null;
  readonly words: readonly string[];
}
