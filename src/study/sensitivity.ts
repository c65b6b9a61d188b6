/** What share of an answer's variance an unknown brings. */
export interface Shares {
  /** By itself. */
  readonly first: Float64Array;
  /** With everything it does together with others. */
  readonly total: Float64Array;
  readonly variance: number;
}

/**
 * First-order and total Sobol' indices of several answers at once. `model` gives the answers at a point of the unit cube;
 * `points` holds `count` rows of 2 x `dimensions` numbers: two independent samples A and B side by side. It is run
 * (dimensions + 2) x count times.
 *
 * S_i = mean of f(B) (f(AB_i) - f(A)) / V: Saltelli et al., Comput. Phys. Comm. 181, 2010, 259-270, table 2 (b).
 * T_i = mean of (f(A) - f(AB_i))^2 / 2 V: Jansen, Comput. Phys. Comm. 117, 1999, 35-43. AB_i is A with column i from B.
 * An answer that is not finite in one of a row's runs leaves that row out. An answer without variance has shares of 0.
 */
export function sobolIndices(
  model: (u: Float64Array) => readonly number[],
  points: Float64Array,
  dimensions: number,
): Shares[] {
  const width = 2 * dimensions;
  const count = points.length / width;
  const rows = Array.from({ length: count }, (_, i) => {
    const a = points.slice(i * width, i * width + dimensions);
    const b = points.slice(i * width + dimensions, (i + 1) * width);
    return {
      a: model(a),
      b: model(b),
      mixed: Array.from({ length: dimensions }, (_, d) => {
        const u = a.slice();
        u[d] = b[d];
        return model(u);
      }),
    };
  });
  return Array.from({ length: rows[0]?.a.length ?? 0 }, (_, k) => {
    const whole = rows.filter((r) => [r.a, r.b, ...r.mixed].every((f) => Number.isFinite(f[k])));
    return sharesOf(
      whole.map((r) => ({ a: r.a[k], b: r.b[k], mixed: r.mixed.map((f) => f[k]) })),
      dimensions,
    );
  });
}

function sharesOf(
  rows: readonly { readonly a: number; readonly b: number; readonly mixed: readonly number[] }[],
  dimensions: number,
): Shares {
  const n = 2 * rows.length;
  const mean = rows.reduce((s, r) => s + r.a + r.b, 0) / n;
  const variance = rows.reduce((s, r) => s + (r.a - mean) ** 2 + (r.b - mean) ** 2, 0) / n;
  const first = new Float64Array(dimensions);
  const total = new Float64Array(dimensions);
  // Rounding alone is no variance.
  const real = variance > (1e-12 * mean) ** 2;
  if (real)
    for (let d = 0; d < dimensions; d++)
      for (const { a, b, mixed } of rows) {
        // The mean taken off B makes the estimate steadier and leaves it right: f(AB_i) - f(A) has mean 0.
        first[d] += ((b - mean) * (mixed[d] - a)) / variance / rows.length;
        total[d] += (a - mixed[d]) ** 2 / (2 * variance) / rows.length;
      }
  return { first, total, variance: real ? variance : 0 };
}
