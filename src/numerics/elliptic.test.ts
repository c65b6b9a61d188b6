import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { completeElliptic } from './elliptic.ts';

describe('completeElliptic', () => {
  // Abramowitz and Stegun, table 17.1, columns K(m) and E(m).
  test.each([
    [0, 1.570796326794897, 1.570796326794897],
    [0.1, 1.612441348720219, 1.530757636897763],
    [0.5, 1.854074677301372, 1.350643881047676],
    [0.9, 2.578092113348173, 1.104774732704073],
    [0.99, 3.695637362989875, 1.015993545025224],
  ])('m = %d as tabulated', (m, first, second) => {
    const value = completeElliptic(m);
    expect(value.first).toBeCloseTo(first, 12);
    expect(value.second).toBeCloseTo(second, 12);
  });

  test("Legendre's relation E K' + E' K - K K' = pi / 2 over the whole range", () => {
    fc.assert(
      fc.property(fc.double({ min: -14, max: -0.302, noNaN: true }), (power) => {
        const m = 10 ** power;
        const at = completeElliptic(m);
        const other = completeElliptic(1 - m, m);
        const sum = at.second * other.first + (other.second - other.first) * at.first;
        expect(Math.abs(sum - Math.PI / 2)).toBeLessThan(4e-14);
      }),
      { seed: 7 },
    );
  });

  test('the modulus near 0 and near 1: leading terms of the series', () => {
    const m = 1e-9;
    expect(completeElliptic(m).first / (Math.PI / 2) - 1).toBeCloseTo(m / 4, 15);
    for (const m1 of [1e-6, 1e-12, 1e-200]) {
      const { first, second } = completeElliptic(1 - m1, m1);
      const log = Math.log(4 / Math.sqrt(m1));
      expect(Math.abs(first / log - 1)).toBeLessThan(m1 + 1e-14);
      expect(Math.abs(second - 1)).toBeLessThan(m1 * log + 1e-12);
    }
    expect(completeElliptic(1)).toEqual({ first: Infinity, second: 1 });
  });

  test('outside the range it says so', () => {
    expect(() => completeElliptic(1.2)).toThrow('a parameter from 0 to 1; it was 1.2');
    expect(() => completeElliptic(NaN)).toThrow('it was NaN');
  });
});
