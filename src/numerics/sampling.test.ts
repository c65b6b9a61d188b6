import { describe, expect, it } from 'vitest';
import { hashedUniform } from './hash.ts';
import { normalQuantile } from './normal.ts';
import { sobolPoints } from './sobol.ts';

describe('points that fill a cube', () => {
  it('are those of the published direction numbers', () => {
    // Point 13 in 32 dimensions, from an independent program with the same direction numbers.
    const theirs = [
      0.8125, 0.6875, 0.8125, 0.0625, 0.4375, 0.9375, 0.5625, 0.5625, 0.5625, 0.4375, 0.8125, 0.9375, 0.0625,
      0.8125, 0.1875, 0.5625, 0.1875, 0.6875, 0.5625, 0.9375, 0.5625, 0.0625, 0.8125, 0.5625, 0.0625, 0.4375,
      0.4375, 0.0625, 0.0625, 0.3125, 0.5625, 0.4375,
    ];
    expect([...sobolPoints(32, 14).slice(13 * 32)]).toEqual(theirs);
  });

  it('put one point in every slice of every dimension, shifted or not', () => {
    for (const seed of [null, 1, 77]) {
      const points = sobolPoints(32, 256, seed);
      for (let d = 0; d < 32; d++) {
        const slices = new Set(Array.from({ length: 256 }, (_, i) => Math.floor(points[i * 32 + d] * 256)));
        expect(slices.size).toBe(256);
      }
    }
  });

  it('integrate a product in 8 dimensions ten times closer than as many draws by lot', () => {
    const product = (x: ArrayLike<number>, at: number) => {
      let value = 1;
      for (let d = 0; d < 8; d++) value *= 1 + (x[at + d] - 0.5) * (d < 3 ? 1 : 0.3);
      return value;
    };
    const mean = (x: ArrayLike<number>) => {
      let sum = 0;
      for (let i = 0; i < 4096; i++) sum += product(x, 8 * i);
      return sum / 4096;
    };
    const seeds = [1, 2, 3, 4, 5, 6, 7, 8];
    const rms = (errors: number[]) => Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / errors.length);
    const even = rms(seeds.map((seed) => mean(sobolPoints(8, 4096, seed)) - 1));
    const byLot = rms(
      seeds.map((s) => mean(Float64Array.from({ length: 8 * 4096 }, (_, i) => hashedUniform(s, i))) - 1),
    );
    expect(even).toBeLessThan(byLot / 10);
  });

  it('refuse more dimensions than there are numbers for', () => {
    expect(() => sobolPoints(33, 4)).toThrow(/1 to 32/);
  });
});

describe('numbers fixed by their keys', () => {
  it('look even and unlike their neighbours', () => {
    const n = 20_000;
    const draws = Array.from({ length: n }, (_, i) => hashedUniform(5, i));
    const bins = new Array<number>(20).fill(0);
    for (const u of draws) bins[Math.floor(u * 20)]++;
    const chiSquare = bins.reduce((s, c) => s + (c - n / 20) ** 2 / (n / 20), 0);
    expect(chiSquare).toBeLessThan(43.8); // 0.1 % of 19 degrees of freedom
    let together = 0;
    for (let i = 1; i < n; i++) together += (draws[i] - 0.5) * (draws[i - 1] - 0.5) * 12;
    expect(Math.abs(together / n)).toBeLessThan(4 / Math.sqrt(n));
    expect(hashedUniform(5, 7)).toBe(hashedUniform(5, 7));
    expect(hashedUniform(5, 7)).not.toBe(hashedUniform(7, 5));
  });
});

describe('normalQuantile', () => {
  it('meets tabulated values', () => {
    for (const [p, z] of [
      [0.5, 0],
      [0.2, -0.8416212335729142],
      [0.95, 1.6448536269514715],
      [0.975, 1.9599639845400536],
      [0.0005, -3.2905267314918945],
      [1e-10, -6.361340902404056],
      [1e-30, -11.464024688443617],
    ])
      expect(normalQuantile(p)).toBeCloseTo(z, 13);
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(1)).toBe(Infinity);
  });
});
