import { completeElliptic } from '../numerics/elliptic.ts';
import { integrate } from '../numerics/quadrature.ts';
import { findRoot } from '../numerics/root.ts';

/** A vector in the plane whose two parts scatter as independent normals about 0: their standard deviations. */
export interface Spread {
  /** The larger of the two. */
  readonly major: number;
  readonly minor: number;
}

/**
 * Error function, by the series 2/sqrt(pi) exp(-x^2) sum 2^n x^(2n+1) / (2n+1)!! whose terms are all positive.
 * Source: Abramowitz and Stegun, 7.1.6. Exact to rounding; any x.
 */
export function errorFunction(x: number): number {
  if (x < 0) return -errorFunction(-x);
  if (x > 6) return 1;
  let term = x;
  let sum = x;
  for (let n = 1; term > 1e-17 * sum; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

/**
 * Chance that the vector is no longer than `limit`. Equal spreads: Rayleigh, 1 - exp(-r^2 / (2 s^2)). Unequal: the normal
 * density along the major axis times the chance that the other part stays inside the circle,
 * int N(x; a) erf(sqrt(r^2 - x^2) / (b sqrt2)) dx over |x| <= r, with x = r sin t to keep the ends smooth.
 */
export function chanceWithin({ major, minor }: Spread, limit: number): number {
  if (limit <= 0) return major > 0 ? 0 : 1;
  if (major <= 0) return 1;
  if (minor >= major * (1 - 1e-9)) return -Math.expm1(-0.5 * (limit / major) ** 2);
  if (minor <= major * 1e-6) return errorFunction(limit / (major * Math.SQRT2));
  // Beyond nine standard deviations there is nothing left to add.
  const end = Math.asin(Math.min(1, (9 * major) / limit));
  const density = (t: number) => {
    const x = limit * Math.sin(t);
    const across = limit * Math.cos(t);
    return across * Math.exp(-0.5 * (x / major) ** 2) * errorFunction(across / (minor * Math.SQRT2));
  };
  return Math.min(1, (integrate(density, 0, end, 24) * 2) / (major * Math.sqrt(2 * Math.PI)));
}

/** Mean length: sqrt(2/pi) a E(1 - b^2/a^2), which is s sqrt(pi/2) for equal spreads s. */
export const meanSize = ({ major, minor }: Spread): number =>
  major > 0
    ? Math.sqrt(2 / Math.PI) * major * completeElliptic(1 - (minor / major) ** 2, (minor / major) ** 2).second
    : 0;

/** The length that the share `chance` (0 to below 1) of all vectors stays within. */
export function sizeQuantile(spread: Spread, chance: number): number {
  const { major, minor } = spread;
  if (major <= 0) return 0;
  const round = major * Math.sqrt(-2 * Math.log1p(-chance));
  if (minor >= major * (1 - 1e-9)) return round;
  return findRoot((size) => chanceWithin(spread, size) - chance, 0, round, 1e-9 * major);
}

/** Spreads of independent vectors that share their axes add by their squares. */
export function addSpreads(spreads: readonly Spread[]): Spread {
  const square = (pick: (s: Spread) => number) =>
    Math.sqrt(spreads.reduce((sum, s) => sum + pick(s) ** 2, 0));
  return { major: square((s) => s.major), minor: square((s) => s.minor) };
}
