import type { FanLayout } from './layout.ts';
import { exitLength, exitSlope } from './profiles.ts';

/**
 * Steepest half-angle of a wall that the air follows on its way to the exit [rad]. Source: the best diffuser of 17 ducts had
 * 10 degrees, read as the half-angle; Pereira, thesis, University of Maryland, 2008 (ADA595716).
 */
export const STEEPEST_EXIT = (10 * Math.PI) / 180;

/**
 * Steepest half-angle of the wall on its way to the exit [rad], positive where it widens. The change is half a cosine, so
 * its middle is pi / 2 times as steep as a straight cone of the same length.
 */
export const exitHalfAngle = (layout: FanLayout): number => Math.atan(exitSlope(layout));

/** The exit area ratio at which the wall of this duct is nowhere steeper than `STEEPEST_EXIT`. */
export function largestExitRatio(layout: FanLayout): number {
  const { boreRadius, hubRadius } = layout;
  const exitRadius = boreRadius + (2 / Math.PI) * exitLength(layout) * Math.tan(STEEPEST_EXIT);
  return (exitRadius ** 2 - hubRadius ** 2) / Math.max(1e-12, boreRadius ** 2 - hubRadius ** 2);
}
