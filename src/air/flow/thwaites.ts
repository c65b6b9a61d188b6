import { interpolateLinear } from '../../numerics/interpolate.ts';

/** Speed along a surface from its stagnation point: s [m] from there, speed [m/s], radius [m]. First speed 0. */
export interface SpeedRun {
  readonly s: ArrayLike<number>;
  readonly speed: ArrayLike<number>;
  readonly r: ArrayLike<number>;
}

/** A laminar layer along a run, at its points. */
export interface LaminarLayer {
  /** Momentum thickness [m] and theta^2 / nu dq/ds. */
  readonly momentumThickness: Float64Array;
  readonly lambda: Float64Array;
}

/** lambda at which a laminar layer leaves the wall. Source: Thwaites 1949. */
export const SEPARATION_LAMBDA = -0.09;

/** Displacement over momentum thickness at separation. Source: Thwaites 1949, table of H(lambda), at lambda = -0.09 (from memory). */
export const SHAPE_AT_SEPARATION = 3.55;

const PLACES = [0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970263];
const WEIGHTS = [0.17392742256872692, 0.32607257743127307, 0.32607257743127307, 0.17392742256872692];

/**
 * Half the length over which a layer feels a change of speed, in momentum thicknesses: about half its own thickness.
 * Our choice; without it the answer at a jump of curvature (an arc running into a bore), where the slope of the ideal
 * speed is infinite, would be set by the spacing of the points.
 */
const FELT = 4;

/**
 * theta^2 = 0.45 nu / (r^2 q^6) integral r^2 q^5 ds on a body of revolution; speed linear between points, integrated by
 * four-point Gauss (exact for q^5 r^2). At the stagnation point theta^2 = 0.075 nu / (dq/ds), lambda = 0.075.
 * Sources: Thwaites, Approximate calculation of the laminar boundary layer, Aero. Quarterly 1 (1949) 245-280; Rott and
 * Crabtree, J. Aero. Sci. 19 (1952) 553-565 for the radius.
 */
export function laminarLayer({ s, speed, r }: SpeedRun, viscosity: number): LaminarLayer {
  const n = s.length;
  const momentumThickness = new Float64Array(n);
  const lambda = new Float64Array(n);
  let integral = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0)
      for (let k = 0; k < 4; k++) {
        const q = speed[i - 1] + PLACES[k] * (speed[i] - speed[i - 1]);
        const radius = r[i - 1] + PLACES[k] * (r[i] - r[i - 1]);
        integral += WEIGHTS[k] * (s[i] - s[i - 1]) * radius * radius * q ** 5;
      }
    if (speed[i] > 0) {
      const square = (0.45 * viscosity * integral) / (r[i] * r[i] * speed[i] ** 6);
      momentumThickness[i] = Math.sqrt(square);
      lambda[i] = (square * slopeAcross(s, speed, i, FELT * momentumThickness[i])) / viscosity;
    } else {
      momentumThickness[i] = Math.sqrt((0.075 * viscosity) / Math.max(slopeAt(s, speed, i), 1e-12));
      lambda[i] = 0.075;
    }
  }
  return { momentumThickness, lambda };
}

/** Slope at point i across `half` to either side, never finer than the points; one-sided near the ends. */
function slopeAcross(s: ArrayLike<number>, speed: ArrayLike<number>, i: number, half: number): number {
  const last = s.length - 1;
  if (i < last && i > 0 && s[i] - s[i - 1] >= half && s[i + 1] - s[i] >= half) return slopeAt(s, speed, i);
  const from = Math.max(s[0], Math.min(s[i] - half, s[Math.max(i - 1, 0)]));
  const to = Math.min(s[last], Math.max(s[i] + half, s[Math.min(i + 1, last)]));
  return (interpolateLinear(s, speed, to) - interpolateLinear(s, speed, from)) / (to - from);
}

/** Slope at point i by the parabola through it and its neighbours; one-sided at the ends. */
export function slopeAt(x: ArrayLike<number>, y: ArrayLike<number>, i: number): number {
  const last = x.length - 1;
  if (last < 1) return 0;
  if (i === 0) return (y[1] - y[0]) / (x[1] - x[0]);
  if (i === last) return (y[last] - y[last - 1]) / (x[last] - x[last - 1]);
  const h0 = x[i] - x[i - 1];
  const h1 = x[i + 1] - x[i];
  return ((h0 * (y[i + 1] - y[i])) / h1 + (h1 * (y[i] - y[i - 1])) / h0) / (h0 + h1);
}
