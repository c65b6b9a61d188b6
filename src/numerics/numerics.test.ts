import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluateCubic, interpolateLinear, shapeKeepingCubic } from './interpolate.ts';
import { integrate } from './quadrature.ts';
import { findRoot } from './root.ts';

describe('findRoot', () => {
  test('known roots to rounding', () => {
    expect(findRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(findRoot((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 15);
    // A flat triple root, where steps by the slope alone crawl.
    expect(Math.abs(findRoot((x) => x ** 3, -1, 1.5))).toBeLessThan(1e-4);
  });

  test('never leaves its bracket, even where the function jumps', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.99, max: 0.99, noNaN: true }), (step) => {
        const root = findRoot((x) => (x < step ? -1e9 : 1e-9), -1, 1);
        expect(Math.abs(root - step)).toBeLessThan(1e-12);
      }),
      { seed: 7 },
    );
  });

  test('says so where there is nothing to find', () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow('findRoot needs a sign change between -1 and 1');
  });
});

describe('shapeKeepingCubic', () => {
  test('passes its points and never overshoots them', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.double({ min: 0.01, max: 3, noNaN: true }),
            fc.double({ min: -5, max: 5, noNaN: true }),
          ),
          { minLength: 2, maxLength: 9 },
        ),
        (steps) => {
          let at = 0;
          const x = steps.map(([step]) => (at += step));
          const y = steps.map(([, value]) => value);
          const cubic = shapeKeepingCubic(x, y);
          for (let i = 0; i < x.length; i++) expect(evaluateCubic(cubic, x[i])).toBeCloseTo(y[i], 9);
          for (let i = 0; i + 1 < x.length; i++) {
            for (let k = 1; k < 8; k++) {
              const value = evaluateCubic(cubic, x[i] + ((x[i + 1] - x[i]) * k) / 8);
              expect(value).toBeGreaterThanOrEqual(Math.min(y[i], y[i + 1]) - 1e-9);
              expect(value).toBeLessThanOrEqual(Math.max(y[i], y[i + 1]) + 1e-9);
            }
          }
        },
      ),
      { seed: 7 },
    );
  });

  test('holds its ends; one point is a constant; straight lines stay straight', () => {
    const line = shapeKeepingCubic([0, 1, 4], [1, 3, 9]);
    expect(evaluateCubic(line, 2.7)).toBeCloseTo(6.4, 12);
    expect([evaluateCubic(line, -5), evaluateCubic(line, 50)]).toEqual([1, 9]);
    expect(evaluateCubic(shapeKeepingCubic([2], [7]), 100)).toBe(7);
    expect(() => shapeKeepingCubic([0, 0], [1, 2])).toThrow('increasing knots');
  });
});

test('five-point Gauss is exact to degree nine and converges beyond', () => {
  expect(integrate((x) => x ** 9 + x ** 8, 0, 2, 1)).toBeCloseTo(2 ** 10 / 10 + 2 ** 9 / 9, 10);
  expect(integrate(Math.sin, 0, Math.PI, 4)).toBeCloseTo(2, 12);
});

test('linear table: between, at and beyond its points', () => {
  expect([-1, 0, 0.5, 1, 9].map((at) => interpolateLinear([0, 1, 3], [10, 20, 0], at))).toEqual([
    10, 10, 15, 20, 0,
  ]);
});
