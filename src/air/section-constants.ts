/** The constants of the section form in `section.ts`. Angles in rad. */
export interface SectionConstants {
  /** Reynolds number at which half of the laminar effects are left, and the spread of ln Re over which they go. */
  readonly laminarMiddle: number;
  readonly laminarSpread: number;
  /** Angle at which the nose lets go of its suction; its rise with camber and with ln Re. */
  readonly noseStall: number;
  readonly noseStallCamber: number;
  readonly noseStallReynolds: number;
  /** Delay of both stalls by rotation, for each (chord / radius)^2. */
  readonly rotationDelay: number;
  /** Angle at which the lift breaks; its rise with camber. */
  readonly liftStall: number;
  readonly liftStallCamber: number;
  /** Share of zero-lift angle and of slope that wholly laminar flow takes away. */
  readonly softZero: number;
  readonly softSlope: number;
  /** Thickness at which half of the leading-edge suction is kept. */
  readonly suctionThickness: number;
  /** Factor on plate friction. */
  readonly friction: number;
  /** Drag of a laminar bubble on a 9 % thick section. */
  readonly bubble: number;
  /** Loss of effective angle of a low-aspect turning blade, for each (chord / radius)^2. */
  readonly lowAspect: number;
  /** Lift slope over 2 pi. */
  readonly slope: number;
  /** Incidence below which the lower side separates: its base, its rise with camber, its fall with thickness and ln Re. */
  readonly lowerOnset: number;
  readonly lowerCamber: number;
  readonly lowerThickness: number;
  readonly lowerReynolds: number;
  /** Drag and lost lift of that separation, for each unit of camber. */
  readonly lowerDrag: number;
  readonly lowerLift: number;
}

/**
 * The constants in use, all from one fit (`scripts/fit-section.ts`; a test holds the two together): least squares with a prior
 * on each, to the wind-tunnel polars of a flat plate, BW-3 and NACA 6409 (University of Illinois) and to the published static
 * and axial runs of five research rotors (AIAA 2014-2151), their sections' unknown cambers fitted with them (0.03257 and
 * 0.05264). Polars of E387, the hovering rotor of NASA TM 81232 and, in a second set of fits, each rotor in turn
 * were held back: docs/checks.md shows both errors.
 */
export const FITTED: SectionConstants = {
  laminarMiddle: 17730,
  noseStall: 0.1064,
  noseStallCamber: 1.213,
  noseStallReynolds: 0.02243,
  rotationDelay: 0.3568,
  liftStall: 0.2106,
  liftStallCamber: 0.3935,
  softZero: 0.106,
  softSlope: 0.3522,
  suctionThickness: 0.033,
  friction: 1.203,
  bubble: 0.01762,
  lowAspect: 0.7852,
  slope: 0.9464,
  lowerOnset: 0.07438,
  lowerCamber: 2.723,
  lowerThickness: 1.313,
  lowerReynolds: 0.07496,
  lowerDrag: 77.18,
  lowerLift: 59.44,
  laminarSpread: 0.5,
};
