import { expect, test } from 'vitest';
import { latticeCoefficient } from './lattice.ts';

test('one plate alone is not changed by its row', () => {
  for (const stagger of [0, 0.5, 1.2]) expect(latticeCoefficient(0.002, stagger)).toBeCloseTo(1, 4);
});

test('unstaggered: (2/pi) (s/c) tanh(pi c / 2 s), exactly', () => {
  for (const solidity of [0.2, 0.5, 1, 2]) {
    const exact = (2 / Math.PI / solidity) * Math.tanh((Math.PI * solidity) / 2);
    expect(latticeCoefficient(solidity, 0)).toBeCloseTo(exact, 9);
  }
});

test('a dense unstaggered row lifts less; a staggered one first more; never past the limit', () => {
  expect(latticeCoefficient(1, 0)).toBeLessThan(0.7);
  expect(latticeCoefficient(0.4, 1.2)).toBeGreaterThan(1);
  expect(latticeCoefficient(1, Math.PI / 2)).toBeLessThanOrEqual(1.5);
});
