/** Complete elliptic integrals of the first and second kind. */
export interface CompleteElliptic {
  readonly first: number;
  readonly second: number;
}

/**
 * Complete elliptic integrals K(m) and E(m) of the parameter m = k^2, 0 <= m <= 1 (m = 1 gives K = Infinity, E = 1).
 * `complement` is m1 = 1 - m; pass it where it is known without cancellation, as K ~ ln(4 / sqrt(m1)) near m = 1.
 * Arithmetic-geometric mean: a_n, b_n from 1, sqrt(m1); K = pi / (2 a), E = K (1 - sum 2^(n-1) c_n^2).
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 17.6. Throws outside the range.
 */
export function completeElliptic(parameter: number, complement = 1 - parameter): CompleteElliptic {
  if (!(parameter >= 0 && complement >= 0))
    throw new Error(`completeElliptic needs a parameter from 0 to 1; it was ${parameter}`);
  if (complement === 0) return { first: Infinity, second: 1 };
  let a = 1;
  let b = Math.sqrt(complement);
  let square = parameter;
  let weight = 0.5;
  let sum = weight * square;
  // c halves its digits of error at each step; 1e-8 leaves a true to rounding.
  for (let n = 0; n < 40 && square > 1e-16 * a * a; n++) {
    const mean = (a + b) / 2;
    b = Math.sqrt(a * b);
    a = mean;
    const c = square / (4 * a);
    square = c * c;
    weight *= 2;
    sum += weight * square;
  }
  const first = Math.PI / (a + b);
  return { first, second: first * (1 - sum) };
}
