/**
 * A normal observation model y = f + J z + e with z ~ N(0, I) and e ~ N(0, diag(sd^2)): how likely the residual r = y - f is,
 * and what it says of z. With A = I + J' S^-1 J, b = J' S^-1 r: mean A^-1 b, covariance A^-1, and
 *   -2 ln p = r' S^-1 r - b' A^-1 b + ln |S| + ln |A| + n ln 2 pi.
 * Source: Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, appendix A.2 (from memory).
 */
export interface NormalFit {
  readonly logLikelihood: number;
  /** r' C^-1 r with C the whole covariance of r: chi-square of as many degrees as there are residuals. */
  readonly chiSquare: number;
  readonly mean: Float64Array;
  /** Row by row. */
  readonly covariance: Float64Array;
}

/** `jacobian` row by row: one row a residual, `n` columns. */
export function fitNormal(
  residual: ArrayLike<number>,
  sd: ArrayLike<number>,
  jacobian: Float64Array,
  n: number,
): NormalFit {
  const rows = residual.length;
  const a = new Float64Array(n * n);
  const b = new Float64Array(n);
  let plain = 0;
  let logDet = rows * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) a[i * n + i] = 1;
  for (let k = 0; k < rows; k++) {
    const w = 1 / (sd[k] * sd[k]);
    plain += w * residual[k] * residual[k];
    logDet += 2 * Math.log(sd[k]);
    const at = k * n;
    for (let i = 0; i < n; i++) {
      const ji = jacobian[at + i] * w;
      if (ji === 0) continue;
      b[i] += ji * residual[k];
      for (let j = 0; j <= i; j++) a[i * n + j] += ji * jacobian[at + j];
    }
  }
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) a[j * n + i] = a[i * n + j];
  const lower = cholesky(a, n);
  for (let i = 0; i < n; i++) logDet += 2 * Math.log(lower[i * n + i]);
  const covariance = inverseFrom(lower, n);
  const mean = new Float64Array(n);
  let gained = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) mean[i] += covariance[i * n + j] * b[j];
    gained += mean[i] * b[i];
  }
  return { logLikelihood: -(plain - gained + logDet) / 2, chiSquare: plain - gained, mean, covariance };
}

/** Lower triangle L with L L' = a, for a positive definite `a` of order `n`. Source: Golub and Van Loan, ch. 4.2. */
function cholesky(a: Float64Array, n: number): Float64Array {
  const lower = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    let diagonal = a[j * n + j];
    for (let k = 0; k < j; k++) diagonal -= lower[j * n + k] ** 2;
    const pivot = Math.sqrt(Math.max(diagonal, 1e-300));
    lower[j * n + j] = pivot;
    for (let i = j + 1; i < n; i++) {
      let sum = a[i * n + j];
      for (let k = 0; k < j; k++) sum -= lower[i * n + k] * lower[j * n + k];
      lower[i * n + j] = sum / pivot;
    }
  }
  return lower;
}

/** (L L')^-1 */
function inverseFrom(lower: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  for (let column = 0; column < n; column++) {
    const y = new Float64Array(n);
    for (let i = column; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = column; k < i; k++) sum -= lower[i * n + k] * y[k];
      y[i] = sum / lower[i * n + i];
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i];
      for (let k = i + 1; k < n; k++) sum -= lower[k * n + i] * inverse[k * n + column];
      inverse[i * n + column] = sum / lower[i * n + i];
    }
  }
  return inverse;
}

/** Standard normal distribution function, within 1e-7. Source: Abramowitz and Stegun, 26.2.17. */
export function normalBelow(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const tail =
    Math.exp((-x * x) / 2) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429)))) *
    0.3989422804014327;
  return x > 0 ? 1 - tail : tail;
}

/**
 * Chance that chi-square of `degrees` is above `value`, by Wilson and Hilferty's cube root (good to some 0.001).
 * Source: Abramowitz and Stegun, 26.4.17.
 */
export function chiSquareAbove(value: number, degrees: number): number {
  const spread = 2 / (9 * degrees);
  return 1 - normalBelow((Math.cbrt(Math.max(0, value) / degrees) - (1 - spread)) / Math.sqrt(spread));
}
