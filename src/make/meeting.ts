/** Two pieces near each other, or running into each other. */
export interface Meeting {
  readonly a: string;
  readonly b: string;
  /** How many pairs of such pieces meet with the same gap. */
  readonly pairs: number;
  /** Least distance [mm]; 0 where they touch, negative: how far they run into each other at least. */
  readonly gap_mm: number;
  /** The same with the rotor grown at full speed; null where neither turns. */
  readonly gapAtSpeed_mm: number | null;
  /** Where, in the frame of the craft [mm]. */
  readonly at_mm: readonly [x: number, y: number, z: number];
  /** Null, or what is wrong as a sentence. */
  readonly refused: string | null;
}
