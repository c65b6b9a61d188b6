import { evaluateCubic, shapeKeepingCubic } from '../numerics/interpolate.ts';

/**
 * Loss of a round inlet set flush in a wall, on the throat's velocity head, against lip radius over diameter.
 * Source: Idelchik, Handbook of Hydraulic Resistance, 3rd ed., diagram 3-4; the same figures stand in Roberson and Crowe,
 * Engineering Fluid Mechanics, and ASHRAE 1977.
 */
const WALL_TABLE: readonly (readonly [number, number])[] = [
  [0, 0.5],
  [0.01, 0.44],
  [0.02, 0.37],
  [0.03, 0.31],
  [0.04, 0.26],
  [0.05, 0.22],
  [0.06, 0.2],
  [0.08, 0.15],
  [0.1, 0.12],
  [0.12, 0.09],
  [0.16, 0.06],
  [0.2, 0.03],
];

const wallCurve = shapeKeepingCubic(
  WALL_TABLE.map(([x]) => x),
  WALL_TABLE.map(([, k]) => k),
);

/** A free-standing sharp edge loses about twice what a sharp edge in a wall does. Source: Idelchik, diagram 3-1 (from memory). */
const FREE_SHARP_EXTRA = 0.5;

/** Radius over diameter from which a free-standing lip is as good as one in a wall (from memory). */
const FREE_MEETS_WALL = 0.12;

/** Loss coefficient of a lip in a wall, on 1/2 rho V_x^2; held at 0.03 beyond radius / diameter = 0.2. */
export function inletLossInWall(radiusOverDiameter: number): number {
  return evaluateCubic(wallCurve, radiusOverDiameter);
}

/**
 * Loss coefficient of a free-standing lip, as a duct in the open has. Meets the wall value at radius / diameter = 0.12;
 * below that the thin edge's extra loss fades in as the square of what is missing (our choice of shape).
 */
export function inletLossFree(radiusOverDiameter: number): number {
  const missing = Math.max(0, 1 - radiusOverDiameter / FREE_MEETS_WALL);
  return inletLossInWall(radiusOverDiameter) + FREE_SHARP_EXTRA * missing ** 2;
}
