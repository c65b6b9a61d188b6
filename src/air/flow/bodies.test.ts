import { describe, expect, test } from 'vitest';
import { assembleBodies } from './bodies.ts';
import { backSolve, factor } from './lu.ts';
import { relax, streamAt, velocityAt } from './relax.ts';

const still = { freeStream: 1, passes: 0, tolerance: 1e-6 };

/** Ellipsoid of half length `a` and radius 1, tail to nose, in equal steps of its parameter. */
function ellipsoid(a: number, n: number) {
  const at = (i: number) => (Math.PI * i) / n;
  return {
    z: Float64Array.from({ length: n + 1 }, (_, i) => a * Math.cos(at(i))),
    r: Float64Array.from({ length: n + 1 }, (_, i) => (i % n === 0 ? 0 : Math.sin(at(i)))),
  };
}

/** Added mass of a prolate body along its axis, over displaced mass. Source: Lamb, Hydrodynamics, art. 114. */
function addedMass(a: number): number {
  if (a === 1) return 0.5;
  const e = Math.sqrt(1 - 1 / a ** 2);
  const alpha = ((2 * (1 - e * e)) / e ** 3) * (0.5 * Math.log((1 + e) / (1 - e)) - e);
  return alpha / (2 - alpha);
}

/** Largest error of surface speed against (1 + k) V cos(slope), exact on any ellipsoid. */
function worst(a: number, n: number): number {
  const body = ellipsoid(a, n);
  const { speed } = relax(assembleBodies(null, body), [], still);
  let error = 0;
  for (let i = 0; i <= n; i++) {
    const t = (Math.PI * i) / n;
    const slope = (a * Math.sin(t)) / Math.hypot(a * Math.sin(t), Math.cos(t));
    error = Math.max(error, Math.abs(-speed[i] - (1 + addedMass(a)) * slope));
  }
  return error;
}

describe('bodies in a uniform stream', () => {
  test.each([
    ['sphere, 1.5 sin theta', 1, 4e-4],
    ['prolate 3 : 1', 3, 2e-3],
  ])('%s: second order', (_, a, at80) => {
    const errors = [20, 40, 80].map((n) => worst(a, n));
    expect(errors[2]).toBeLessThan(at80);
    expect(Math.log2(errors[0] / errors[1])).toBeGreaterThan(1.6);
    expect(Math.log2(errors[1] / errors[2])).toBeGreaterThan(1.8);
  });

  test('the field beside a sphere is the stream and a dipole; the inside is at rest', () => {
    const bodies = assembleBodies(null, ellipsoid(1, 80));
    const { speed } = relax(bodies, [], still);
    const field = { bodies, speed, sheets: [], freeStream: 1 };
    const out = new Float64Array(2);
    velocityAt(field, 0, 1.3, out);
    expect(out[0]).toBeCloseTo(1 + 0.5 / 1.3 ** 3, 3);
    expect(streamAt(field, 0, 1.3)).toBeCloseTo(0.5 * 1.3 ** 2 * (1 - 1 / 1.3 ** 3), 3);
    velocityAt(field, 0.2, 0.4, out);
    expect(Math.hypot(out[0], out[1])).toBeLessThan(1e-3);
  });
});

describe('factor and backSolve', () => {
  test('undo a product, rows in any order', () => {
    const n = 30;
    const cells = Float64Array.from({ length: n * n }, (_, i) => Math.sin(i * i * 1.37));
    const x = Array.from({ length: n }, (_, i) => Math.cos(3 * i));
    const right = x.map((_, i) => x.reduce((sum, value, j) => sum + cells[i * n + j] * value, 0));
    const found = backSolve(factor(cells.slice(), n), right);
    expect(Math.max(...x.map((value, i) => Math.abs(value - found[i])))).toBeLessThan(1e-11);
    expect(Array.from(backSolve(factor(Float64Array.of(0, 2, 3, 0), 2), [4, 6]))).toEqual([2, 2]);
  });

  test('a singular matrix is refused', () => {
    expect(() => factor(Float64Array.of(1, 2, 2, 4), 2)).toThrow('two of its rows say the same');
  });
});
