import { describe, expect, it } from 'vitest';
import {
  besselJ,
  besselJSlope,
  besselY,
  besselYSlope,
  firstAnnularZero,
  firstSlopeZero,
  highSlopeZero,
} from './bessel.ts';

describe('besselJ', () => {
  // Abramowitz and Stegun, tables 9.1, 9.2 and 9.4 (from memory).
  it.each([
    [0, 1, 0.7651976865579666],
    [1, 1, 0.44005058574493355],
    [2, 1, 0.1149034849319005],
    [0, 10, -0.2459357644513483],
    [1, 10, 0.04347274616886144],
    [5, 5, 0.2611405461201701],
    [10, 1, 2.630615123687453e-10],
    [10, 10, 0.20748610663335885],
    [20, 50, -0.11670435275957974],
  ])('J_%i(%d)', (n, x, theirs) => {
    expect(Math.abs(besselJ(n, x) / theirs - 1)).toBeLessThan(1e-9);
  });

  it('is odd or even as its order is, in x and in n', () => {
    expect(besselJ(3, -2)).toBeCloseTo(-besselJ(3, 2), 14);
    expect(besselJ(-3, 2)).toBeCloseTo(-besselJ(3, 2), 14);
    expect(besselJ(-4, 2)).toBeCloseTo(besselJ(4, 2), 14);
    expect(besselJ(0, 0)).toBe(1);
    expect(besselJ(7, 0)).toBe(0);
  });

  it('holds its recurrence on both sides of the change of method', () => {
    for (const n of [1, 4, 12, 40])
      for (const x of [0.3, 2, 5, 9, 20, 60, 200])
        expect(Math.abs(besselJ(n - 1, x) + besselJ(n + 1, x) - ((2 * n) / x) * besselJ(n, x))).toBeLessThan(
          1e-12,
        );
  });

  it('is refused at a broken order', () => {
    expect(() => besselJ(1.5, 1)).toThrow('whole order');
  });
});

describe('besselY', () => {
  it.each([
    [0, 1, 0.08825696421567697],
    [1, 1, -0.7812128213002887],
    [2, 1, -1.6506826068162543],
    [0, 10, 0.05567116728359939],
    [1, 10, 0.24901542420695386],
  ])('Y_%i(%d)', (n, x, theirs) => {
    expect(Math.abs(besselY(n, x) / theirs - 1)).toBeLessThan(1e-9);
  });

  it("keeps the Wronskian J Y' - J' Y = 2 / (pi x)", () => {
    for (const n of [0, 1, 3, 8])
      for (const x of [0.5, 2, 7, 25]) {
        const w = besselJ(n, x) * besselYSlope(n, x) - besselJSlope(n, x) * besselY(n, x);
        expect(Math.abs((w * Math.PI * x) / 2 - 1)).toBeLessThan(1e-8);
      }
  });
});

describe('zeros', () => {
  it('the slope vanishes at the first zero and at no place before it', () => {
    for (const m of [1, 2, 5, 11, 30, 80]) {
      const zero = firstSlopeZero(m);
      expect(Math.abs(besselJSlope(m, zero))).toBeLessThan(1e-10);
      for (let i = 1; i < 20; i++) expect(besselJSlope(m, (zero * i) / 20)).toBeGreaterThanOrEqual(0);
    }
  });

  it('the expansion for high orders keeps to the zero', () => {
    for (const m of [4, 7, 20, 60]) expect(Math.abs(highSlopeZero(m) - firstSlopeZero(m))).toBeLessThan(1e-4);
  });

  it('a hub lowers the cut-on of low orders, toward the thin ring 2 m / (1 + h), and leaves high ones', () => {
    expect(firstAnnularZero(1, 0.4)).toBeLessThan(firstSlopeZero(1));
    expect(firstAnnularZero(1, 0.5)).toBeCloseTo(1.3547, 3);
    expect(Math.abs(firstAnnularZero(1, 0.9) - 2 / 1.9)).toBeLessThan(0.002);
    expect(firstAnnularZero(12, 0.3)).toBeCloseTo(firstSlopeZero(12), 6);
  });
});
