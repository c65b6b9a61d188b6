/** The blade as printed at one radius, beside what is drawn. */
export interface PrintStation {
  readonly span: number;
  readonly radius_mm: number;
  readonly drawnChord_mm: number;
  readonly chord_mm: number;
  readonly lostFront_mm: number;
  readonly lostBack_mm: number;
  /** Added to the blade angle. */
  readonly turn_deg: number;
  readonly drawnThickness_mm: number;
  readonly thickness_mm: number;
  readonly drawnCamber_mm: number;
  readonly camber_mm: number;
  readonly trailingEdge_mm: number;
  readonly roughness_mm: number;
  /** Nothing of the section comes out. */
  readonly lost: boolean;
  /** Thinner within a layer than the least wall that comes out whole. */
  readonly weak: boolean;
  /** Thrust of this part of the blade as printed over as drawn at the same speed, minus 1. */
  readonly thrustChange_ratio: number;
}

/** What the printer costs: the printed fan against the drawn one at the same speed. */
export interface PrintEffect {
  /** How the blade lies while it is printed. */
  readonly lay: 'flat' | 'upright';
  /** Share of the drawn fan's thrust that is lost; negative: gained. */
  readonly thrustLost_ratio: number;
  /** Torque over that of the drawn fan, minus 1. */
  readonly torqueChange_ratio: number;
  /** Share of thrust lost at the same shaft power, 1 - (T'/T) (Q/Q')^(2/3): thrust goes with speed squared, power with its cube. */
  readonly thrustAtPowerLost_ratio: number;
  readonly stations: readonly PrintStation[];
  readonly words: string;
}
