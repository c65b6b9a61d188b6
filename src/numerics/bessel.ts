import { findRoot } from './root.ts';

const EULER = 0.5772156649015329;

/**
 * Bessel function of the first kind J_n(x), whole order n (any sign), real x. The power series (9.1.10) where its terms
 * hardly cancel, else Miller's backward recurrence scaled by 1 = J_0 + 2 J_2 + 2 J_4 + ... (9.1.46).
 * Range |x| up to a few hundred; about 1e-14 absolute. Source: Abramowitz and Stegun, chapter 9. Throws for a broken order.
 */
export function besselJ(n: number, x: number): number {
  if (!Number.isInteger(n)) throw new Error(`besselJ needs a whole order; it was ${n}`);
  const order = Math.abs(n);
  const sign = (n < 0 && order % 2 === 1 ? -1 : 1) * (x < 0 && order % 2 === 1 ? -1 : 1);
  const at = Math.abs(x);
  const quarter = (at * at) / 4;
  if (quarter <= 2 * (order + 1)) {
    let term = 1;
    for (let i = 1; i <= order; i++) term *= at / (2 * i);
    let sum = term;
    for (let k = 1; Math.abs(term) > 1e-17 * Math.abs(sum); k++) {
      term *= -quarter / (k * (order + k));
      sum += term;
    }
    return sign * sum;
  }
  return sign * miller(order, at)[order];
}

/** J_0 ... J_n at x > 0 in one recurrence. */
function miller(n: number, x: number): Float64Array {
  const list = new Float64Array(n + 1);
  const top = Math.max(n, Math.ceil(x));
  const start = 2 * Math.ceil((top + 20 + Math.sqrt(60 * (top + 1))) / 2);
  let [above, here, sum] = [0, 1e-300, 0];
  for (let k = start; k >= 0; k--) {
    if (k <= n) list[k] = here;
    if (k % 2 === 0) sum += k === 0 ? here : 2 * here;
    [above, here] = [here, ((2 * k) / x) * here - above];
    if (Math.abs(here) > 1e200) {
      [above, here, sum] = [above * 1e-200, here * 1e-200, sum * 1e-200];
      for (let i = k; i <= n; i++) list[i] *= 1e-200;
    }
  }
  return list.map((v) => v / sum);
}

/**
 * Bessel function of the second kind Y_n(x), n whole and not below 0, x > 0: Y_0 and Y_1 by Neumann's series in J (9.1.88,
 * 9.1.89), upward from there (9.1.27, stable for Y). Source: Abramowitz and Stegun, chapter 9. Throws outside its range.
 */
export function besselY(n: number, x: number): number {
  if (!(Number.isInteger(n) && n >= 0 && x > 0))
    throw new Error(`besselY needs a whole order from 0 and x above 0; they were ${n} and ${x}`);
  return secondKind(n, x, miller(neumannTerms(x), x))[n === 0 ? 0 : 1];
}

/** Terms after which Neumann's series for Y has nothing left to add. */
const neumannTerms = (x: number): number => Math.ceil(x + 12 + 4 * Math.cbrt(x));

/** Y_(n-1) and Y_n from the J of x (for n = 0: Y_0 and Y_1). */
function secondKind(n: number, x: number, j: Float64Array): [number, number] {
  const last = j.length - 1;
  const log = Math.log(x / 2) + EULER;
  let [zero, one] = [0, 0];
  for (let k = 1; 2 * k + 1 <= last; k++) {
    const sign = k % 2 === 0 ? 1 : -1;
    zero += (sign * j[2 * k]) / k;
    one += (sign * (2 * k + 1) * j[2 * k + 1]) / (k * (k + 1));
  }
  let below = (2 / Math.PI) * (log * j[0] - 2 * zero);
  let here = (2 / Math.PI) * ((log - 1) * j[1] - one - j[0] / x);
  for (let k = 1; k < n; k++) [below, here] = [here, ((2 * k) / x) * here - below];
  return [below, here];
}

/** J'_n(x) = (J_(n-1) - J_(n+1)) / 2 (9.1.27). */
export const besselJSlope = (n: number, x: number): number => (besselJ(n - 1, x) - besselJ(n + 1, x)) / 2;

/** Y'_n(x), x > 0 (9.1.27, 9.1.28). */
export const besselYSlope = (n: number, x: number): number =>
  n === 0 ? -besselY(1, x) : (besselY(n - 1, x) - besselY(n + 1, x)) / 2;

/**
 * First zero above 0 of J'_m: j'(m, 1), m whole from 1; for 0 the zero at 0 itself, as a plane wave has it. Held between m
 * and the two leading terms of its expansion, m + 0.8086 m^(1/3) + 0.0725 m^(-1/3) and a little (9.5.16).
 */
export function firstSlopeZero(m: number): number {
  if (m === 0) return 0;
  const cube = Math.cbrt(m);
  return findRoot((x) => besselJSlope(m, x), m, m + 0.9 * cube + 0.15 / cube, 1e-13);
}

/** The same for m from 4 by five terms of that expansion, within 1e-4 of it and much faster (9.5.16). */
export const highSlopeZero = (m: number): number =>
  m + 0.8086165 * Math.cbrt(m) + 0.07249 / Math.cbrt(m) - 0.05097 / m + 0.0094 * m ** (-5 / 3);

/**
 * Least k > 0 for which J'_m(k) Y'_m(k h) = Y'_m(k) J'_m(k h): the first mode of order m between two hard cylinders of radius
 * ratio h (0: no inner one), k on the outer radius. Lies between m and j'(m, 1). Range h below 0.95, m whole from 0.
 * Source: Tyler and Sofrin, SAE Transactions 70, 1962, appendix (annular ducts).
 */
export function firstAnnularZero(m: number, ratio: number): number {
  const outer = firstSlopeZero(m);
  // So small a hub moves the zero by less than the series can tell.
  if (m === 0 || ratio < 0.02 || ratio ** (2 * m) < 1e-12) return outer;
  const wall = (k: number) => {
    const [jOuter, yOuter] = slopes(m, k);
    const [jInner, yInner] = slopes(m, k * ratio);
    return jOuter * yInner - yOuter * jInner;
  };
  return findRoot(wall, m, outer * (1 + 1e-9), 1e-10);
}

/** J'_m and Y'_m at x from one recurrence, m from 1: C'_m = C_(m-1) - (m/x) C_m (9.1.27). */
function slopes(m: number, x: number): [number, number] {
  const j = miller(Math.max(m, neumannTerms(x)), x);
  const [below, here] = secondKind(m, x, j);
  return [j[m - 1] - (m / x) * j[m], below - (m / x) * here];
}
