/**
 * A piecewise cubic that keeps the shape of its data: no overshoot, monotone where the data are.
 * `coefficients[4 * i .. 4 * i + 3]` are the cubic's in `x - knots[i]` on span i.
 */
export interface ShapeKeepingCubic {
  readonly knots: Float64Array;
  readonly coefficients: Float64Array;
}

/**
 * Builds the cubic through `(x[i], y[i])`; x strictly increasing, at least one point.
 * Source: Fritsch and Butland, A method for constructing local monotone piecewise cubic interpolants, SIAM J. Sci.
 * Stat. Comput. 5 (1984) 300-304 (weighted harmonic mean of neighbour slopes); three-point ends.
 */
export function shapeKeepingCubic(x: ArrayLike<number>, y: ArrayLike<number>): ShapeKeepingCubic {
  const n = x.length;
  if (n === 0 || y.length !== n)
    throw new Error('shapeKeepingCubic needs as many values as knots, at least one');
  const knots = Float64Array.from(x);
  if (n === 1) return { knots, coefficients: Float64Array.of(y[0], 0, 0, 0) };
  // Plain arrays: a typed one costs more to make than these few numbers to work out.
  const step = new Array<number>(n - 1).fill(0);
  const slope = new Array<number>(n - 1).fill(0);
  for (let i = 0; i < n - 1; i++) {
    step[i] = x[i + 1] - x[i];
    if (!(step[i] > 0))
      throw new Error(`shapeKeepingCubic needs increasing knots; knot ${i + 1} is not above its neighbour`);
    slope[i] = (y[i + 1] - y[i]) / step[i];
  }
  const tangent = new Array<number>(n).fill(0);
  for (let i = 1; i < n - 1; i++) {
    if (slope[i - 1] * slope[i] <= 0) continue;
    const w1 = 2 * step[i] + step[i - 1];
    const w2 = step[i] + 2 * step[i - 1];
    tangent[i] = (w1 + w2) / (w1 / slope[i - 1] + w2 / slope[i]);
  }
  tangent[0] = n === 2 ? slope[0] : endTangent(step[0], step[1], slope[0], slope[1]);
  tangent[n - 1] = n === 2 ? slope[0] : endTangent(step[n - 2], step[n - 3], slope[n - 2], slope[n - 3]);
  const coefficients = new Float64Array(4 * (n - 1));
  for (let i = 0; i < n - 1; i++) {
    const h = step[i];
    coefficients[4 * i] = y[i];
    coefficients[4 * i + 1] = tangent[i];
    coefficients[4 * i + 2] = (3 * slope[i] - 2 * tangent[i] - tangent[i + 1]) / h;
    coefficients[4 * i + 3] = (tangent[i] + tangent[i + 1] - 2 * slope[i]) / (h * h);
  }
  return { knots, coefficients };
}

/** One-sided three-point slope, held to the sign and three times the size of the first span's. */
function endTangent(h0: number, h1: number, s0: number, s1: number): number {
  const t = ((2 * h0 + h1) * s0 - h0 * s1) / (h0 + h1);
  if (t * s0 <= 0) return 0;
  if (s0 * s1 <= 0 && Math.abs(t) > 3 * Math.abs(s0)) return 3 * s0;
  return t;
}

/** The cubic's value at `at`; held at the end values outside the knots. */
export function evaluateCubic(cubic: ShapeKeepingCubic, at: number): number {
  const { knots, coefficients: c } = cubic;
  const n = knots.length;
  if (n === 1) return c[0];
  const x = at <= knots[0] ? knots[0] : at >= knots[n - 1] ? knots[n - 1] : at;
  let i = 0;
  let high = n - 1;
  while (high - i > 1) {
    const middle = (i + high) >> 1;
    if (knots[middle] <= x) i = middle;
    else high = middle;
  }
  const d = x - knots[i];
  return c[4 * i] + d * (c[4 * i + 1] + d * (c[4 * i + 2] + d * c[4 * i + 3]));
}

/** Straight-line interpolation in a table of increasing `x`; held at the ends. */
export function interpolateLinear(x: ArrayLike<number>, y: ArrayLike<number>, at: number): number {
  const n = x.length;
  if (at <= x[0]) return y[0];
  if (at >= x[n - 1]) return y[n - 1];
  let i = 0;
  while (x[i + 1] < at) i++;
  return y[i] + ((y[i + 1] - y[i]) * (at - x[i])) / (x[i + 1] - x[i]);
}
