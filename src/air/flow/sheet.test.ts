import { describe, expect, test } from 'vitest';
import { discRings, meetDisc } from './disc.ts';
import { addSheetVelocity, sheetStream, straightSheet } from './sheet.ts';

describe('a straight sheet, which ends in a cylinder that goes on for ever', () => {
  const sheet = straightSheet(0, 1, 0.01, 2, 0);
  const ends = new Float64Array(2);
  const axial = (z: number, r: number) => {
    const out = new Float64Array(2);
    addSheetVelocity(sheet, z, r, out, new Float64Array(4), new Float64Array(2));
    return out[0];
  };

  test('half its strength in its mouth, nearly all of it inside, nearly none outside, a jump of it across', () => {
    // Exact on the axis: gamma / 2 (1 + z / sqrt(z^2 + R^2)).
    for (const z of [-3, 0, 0.5, 4])
      expect(Math.abs(axial(z, 0) - (1 + z / Math.hypot(z, 1)))).toBeLessThan(5e-5);
    expect(axial(3, 1 - 1e-6) - axial(3, 1 + 1e-6)).toBeCloseTo(2, 4);
    expect(Math.abs(axial(4, 1.6))).toBeLessThan(0.05);
  });

  test('the cylinder beyond the last node is counted: far upstream the mouth is a sink', () => {
    // gamma R^2 pi of outflow from a point sink: psi = gamma R^2 / 4 (1 - cos of the angle off the axis), to (R/d)^2.
    for (const [z, r] of [
      [-40, 30],
      [-60, 10],
    ]) {
      const exact = (2 / 4) * (1 - Math.abs(z) / Math.hypot(z, r));
      expect(Math.abs(sheetStream(sheet, z, r, ends) / exact - 1)).toBeLessThan(2e-3);
    }
  });
});

describe('the disc', () => {
  test('puts a node of the bore in its plane and leaves corners alone', () => {
    const nodes = { z: Float64Array.of(3, 0, -1, 0, 1.2, 3), r: Float64Array.of(1, 1.1, 1.3, 1, 1, 1) };
    const met = meetDisc(nodes, 1);
    expect(met.radius).toBe(1);
    expect(Array.from(met.nodes.z)).toEqual([3, 0, -1, 0, 1, 3]);
    expect(meetDisc(nodes, 0.2).nodes.z[3]).toBe(0);
    expect(meetDisc(nodes, 7).radius).toBe(0);
  });

  test('rings of equal width carry shares whose area mean is 1', () => {
    const rings = discRings(0.3, 1, [1, 2, 3]);
    const sum = rings.reduce(
      (total, { inner, outer, share }) => total + share * (outer ** 2 - inner ** 2),
      0,
    );
    expect(sum / (1 - 0.09)).toBeCloseTo(1, 12);
    expect(rings[2].share / rings[0].share).toBeCloseTo(3, 12);
    expect(() => discRings(0.3, 1, [1, -2, 0])).toThrow('must add up to a rise');
  });
});
