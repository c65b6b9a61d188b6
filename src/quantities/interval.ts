/** A value with the 90 % interval the model claims for it; `low <= value <= high`. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Combines one-at-a-time effects into an interval, as independent normal errors (root sum of squares; GUM,
 * JCGM 100:2008, eq. 10). `changed` holds pairs of the answer recomputed with one input moved down and up by
 * its own 90 % half-width, so the result is a 90 % interval too. Low and high sides are combined apart: the
 * answers bend.
 */
export function intervalFrom(value: number, changed: readonly (readonly [number, number])[]): Interval {
  let down = 0;
  let up = 0;
  for (const [a, b] of changed) {
    down += Math.min(a - value, b - value, 0) ** 2;
    up += Math.max(a - value, b - value, 0) ** 2;
  }
  return { value, low: value - Math.sqrt(down), high: value + Math.sqrt(up) };
}
