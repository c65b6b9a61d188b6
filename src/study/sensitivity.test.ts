import { expect, it } from 'vitest';
import { sobolPoints } from '../numerics/sobol.ts';
import { sobolIndices } from './sensitivity.ts';

it('finds the known indices of the Ishigami function', () => {
  // Ishigami and Homma 1990, a = 7, b = 0.1; exact shares by integration, as in Saltelli et al. 2008.
  const [a, b] = [7, 0.1];
  const f = (u: Float64Array) => {
    const [x, y, z] = Array.from(u, (v) => Math.PI * (2 * v - 1));
    return [Math.sin(x) + a * Math.sin(y) ** 2 + b * z ** 4 * Math.sin(x), u[0]];
  };
  const [shares, plain] = sobolIndices(f, sobolPoints(6, 4096, 3), 3);
  const v = a ** 2 / 8 + (b * Math.PI ** 4) / 5 + (b ** 2 * Math.PI ** 8) / 18 + 0.5;
  const v1 = 0.5 * (1 + (b * Math.PI ** 4) / 5) ** 2;
  const v13 = (b ** 2 * Math.PI ** 8 * 8) / 225;
  expect(shares.variance).toBeCloseTo(v, 1);
  [v1 / v, a ** 2 / 8 / v, 0].forEach((s, i) => expect(Math.abs(shares.first[i] - s)).toBeLessThan(0.015));
  [(v1 + v13) / v, a ** 2 / 8 / v, v13 / v].forEach((s, i) =>
    expect(Math.abs(shares.total[i] - s)).toBeLessThan(0.015),
  );
  expect(plain.first[0]).toBeCloseTo(1, 1);
  expect(plain.total[1]).toBe(0);
});

it('gives no shares to an answer that never changes, and leaves out rows without an answer', () => {
  const points = sobolPoints(4, 512, 1);
  const [same, gaps] = sobolIndices((u) => [3.3, u[0] > 0.95 ? NaN : u[0]], points, 2);
  expect(Array.from(same.total)).toEqual([0, 0]);
  expect(gaps.total[0]).toBeCloseTo(1, 1);
});
