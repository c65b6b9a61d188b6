import { describe, expect, it } from 'vitest';
import { hann, powerSpectrum } from './fft.ts';

/** |X[k]|^2 by the sum that defines it. */
function bySum(values: readonly number[], size: number, k: number): number {
  const window = hann(size);
  let re = 0;
  let im = 0;
  for (let i = 0; i < Math.min(size, values.length); i++) {
    re += values[i] * window[i] * Math.cos((2 * Math.PI * k * i) / size);
    im -= values[i] * window[i] * Math.sin((2 * Math.PI * k * i) / size);
  }
  return re * re + im * im;
}

describe('powerSpectrum', () => {
  for (const [size, count] of [
    [8, 8],
    [16, 16],
    [64, 64],
    [64, 37],
    [256, 300],
  ])
    it(`is the defining sum for ${count} values in ${size}`, () => {
      const values = Array.from({ length: count }, (_, i) => Math.sin(i * i * 0.37) + 0.2 * i);
      const power = new Float64Array(size / 2 + 1);
      powerSpectrum(size).into(values, 0, power);
      const largest = Math.max(...power);
      power.forEach((p, k) => expect(Math.abs(p - bySum(values, size, k))).toBeLessThan(1e-12 * largest));
    });

  it('begins where it is told', () => {
    const values = Array.from({ length: 40 }, (_, i) => Math.cos(i * 1.1) * i);
    const [a, b] = [new Float64Array(9), new Float64Array(9)];
    powerSpectrum(16).into(values, 11, a);
    powerSpectrum(16).into(values.slice(11, 27), 0, b);
    expect(a).toEqual(b);
  });

  it('refuses a length that is no power of two', () => {
    expect(() => powerSpectrum(100)).toThrow('size is 100; it must be a power of two');
  });
});
