/** Machine epsilon of a double: the spacing just above 1. */
const EPSILON = Number.EPSILON;

/**
 * A root of `f` between `low` and `high`, whose values there must differ in sign (or be zero). Always returns a point
 * of the bracket; the bracket shrinks below `tolerance` (absolute, plus two units in the last place).
 * Source: Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4 (procedure zero).
 * Throws where the ends do not bracket a root.
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 0): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  // Signs are compared, not multiplied: the product of two tiny values is zero.
  if (!(fa < 0 ? fb > 0 : fa > 0 && fb < 0))
    throw new Error(`findRoot needs a sign change between ${low} and ${high}`);
  let c = a;
  let fc = fa;
  let d = b - a;
  let e = d;
  for (let i = 0; i < 200; i++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const limit = 2 * EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= limit || fb === 0) return b;
    if (Math.abs(e) < limit || Math.abs(fa) <= Math.abs(fb)) {
      d = half;
      e = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const u = fa / fc;
        const v = fb / fc;
        p = s * (2 * half * u * (u - v) - (b - a) * (v - 1));
        q = (u - 1) * (v - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = Math.abs(p);
      if (2 * p < Math.min(3 * half * q - Math.abs(limit * q), Math.abs(e * q))) {
        e = d;
        d = p / q;
      } else {
        d = half;
        e = half;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(d) > limit ? d : half > 0 ? limit : -limit;
    fb = f(b);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      d = b - a;
      e = d;
    }
  }
  return b;
}
