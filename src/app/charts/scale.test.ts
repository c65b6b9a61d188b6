import { describe, expect, it } from 'vitest';
import { linePath, roundTicks } from './scale.ts';

describe('roundTicks', () => {
  it('covers the top with round numbers', () => {
    expect(roundTicks(1.24, 4)).toEqual([0, 0.5, 1, 1.5]);
    expect(roundTicks(0.07, 4)).toEqual([0, 0.02, 0.04, 0.06, 0.08]);
    expect(roundTicks(100, 4)).toEqual([0, 25, 50, 75, 100]);
  });
  it('has an answer for a top that is no size', () => {
    expect(roundTicks(0, 4)).toEqual([0, 1]);
    expect(roundTicks(Number.NaN, 4)).toEqual([0, 1]);
  });
});

describe('linePath', () => {
  it('writes and closes a path', () => {
    expect(
      linePath(
        [
          [0, 0],
          [1, 2.25],
        ],
        true,
      ),
    ).toBe('M0.0 0.0L1.0 2.3Z');
    expect(linePath([], true)).toBe('');
  });
});
