import { describe, expect, it } from 'vitest';
import { aWeighting, bandOf, THIRD_OCTAVES } from './weighting.ts';

describe('bands', () => {
  it('every third octave holds its middle, its edges meet, and its name is near', () => {
    THIRD_OCTAVES.forEach((band, i) => {
      expect(bandOf(band.middle)).toBe(i);
      expect(bandOf(band.low * 1.0001)).toBe(i);
      expect(bandOf(band.high * 0.9999)).toBe(i);
      expect(Math.abs(band.name / band.middle - 1)).toBeLessThan(0.02);
      if (i > 0) expect(band.low / THIRD_OCTAVES[i - 1].high).toBeCloseTo(1, 9);
    });
    expect([bandOf(0), bandOf(20), bandOf(40_000)]).toEqual([-1, -1, -1]);
  });

  it('A weighting is nought at 1 kHz and falls to both sides of 2.5 kHz', () => {
    expect(aWeighting(1000)).toBeCloseTo(0, 2);
    expect(aWeighting(2500)).toBeGreaterThan(aWeighting(1250));
    expect(aWeighting(100)).toBeLessThan(aWeighting(200));
    expect(aWeighting(16_000)).toBeLessThan(aWeighting(8000));
  });
});
