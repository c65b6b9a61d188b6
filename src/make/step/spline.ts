/** A B-spline in one direction: the knots as written in files, and how to pass through data. */
export interface Basis {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly multiplicities: readonly number[];
  /** Control values of the curve that takes `values` at the parameters the basis was made for. */
  readonly interpolate: (values: readonly number[]) => number[];
}

/**
 * The interpolating B-spline over given parameters (rising, 0 to 1), knots by averaging. Piegl and Tiller, The NURBS Book,
 * 2nd ed. (1997), eqs. 9.5 to 9.8; algorithms A2.1 and A2.2 for the basis functions.
 */
export function basisThrough(parameters: readonly number[]): Basis {
  const n = parameters.length;
  const degree = Math.min(3, n - 1);
  const inner = Array.from({ length: n - degree - 1 }, (_, j) => {
    let sum = 0;
    for (let i = j + 1; i <= j + degree; i++) sum += parameters[i];
    return sum / degree;
  });
  const knots = [0, ...inner, 1];
  const full = [...Array<number>(degree).fill(0), ...knots, ...Array<number>(degree).fill(1)];
  const rows = parameters.map((u) => {
    const row = new Float64Array(n);
    const span = spanOf(full, degree, n, u);
    basisFunctions(full, degree, span, u).forEach((value, j) => (row[span - degree + j] = value));
    return row;
  });
  const solve = factored(rows);
  return {
    degree,
    knots,
    multiplicities: knots.map((_, i) => (i === 0 || i === knots.length - 1 ? degree + 1 : 1)),
    interpolate: solve,
  };
}

/** Parameters by mean chord length over several rows of points of equal count. */
export function meanParameters(rows: readonly (readonly (readonly number[])[])[]): number[] {
  const count = rows[0].length;
  const steps = new Float64Array(count);
  for (const row of rows) {
    const lengths = row.map((p, i) =>
      i === 0 ? 0 : Math.hypot(...p.map((value, k) => value - row[i - 1][k])),
    );
    const total = lengths.reduce((sum, length) => sum + length, 0) || 1;
    lengths.forEach((length, i) => (steps[i] += length / total / rows.length));
  }
  let sum = 0;
  const parameters = [...steps].map((step) => (sum += step));
  return parameters.map((value) => value / sum);
}

function spanOf(full: readonly number[], degree: number, count: number, u: number): number {
  let span = degree;
  while (span < count - 1 && u >= full[span + 1]) span++;
  return span;
}

function basisFunctions(full: readonly number[], degree: number, span: number, u: number): number[] {
  const values = [1];
  for (let j = 1; j <= degree; j++) {
    let saved = 0;
    for (let r = 0; r < j; r++) {
      const [right, left] = [full[span + r + 1], full[span + 1 - j + r]];
      const part = values[r] / (right - left);
      values[r] = saved + (right - u) * part;
      saved = (u - left) * part;
    }
    values[j] = saved;
  }
  return values;
}

/** Gauss elimination with row exchange, kept for many right-hand sides. */
function factored(matrix: Float64Array[]): (values: readonly number[]) => number[] {
  const n = matrix.length;
  const a = matrix.map((row) => row.slice());
  const order = a.map((_, i) => i);
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i][k]) > Math.abs(a[best][k])) best = i;
    [a[k], a[best]] = [a[best], a[k]];
    [order[k], order[best]] = [order[best], order[k]];
    for (let i = k + 1; i < n; i++) {
      const by = (a[i][k] /= a[k][k]);
      if (by !== 0) for (let j = k + 1; j < n; j++) a[i][j] -= by * a[k][j];
    }
  }
  return (values) => {
    const x = order.map((i) => values[i]);
    for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) x[i] -= a[i][j] * x[j];
    for (let i = n - 1; i >= 0; i--) {
      for (let j = i + 1; j < n; j++) x[i] -= a[i][j] * x[j];
      x[i] /= a[i][i];
    }
    return x;
  };
}
