import { describe, expect, it } from 'vitest';
import { COUPON } from '../print/coupon.ts';
import { couponMesh, couponPlaces } from './coupon.ts';
import { loadKernel } from './kernel.ts';
import { measure, solidOf } from './mesh.ts';

const kernel = await loadKernel();
const mesh = couponMesh(kernel);

/** Area of the coupon cut level at `z` [mm], and the outlines of that cut. */
function cutAt(z: number) {
  const solid = solidOf(kernel, mesh);
  const cut = solid.slice(z);
  const polygons = cut.toPolygons();
  const area = cut.area();
  cut.delete();
  solid.delete();
  return { area, polygons };
}

describe('coupon', () => {
  it('is one sound body that stands on the bed and fits small beds', () => {
    const { volume, box } = measure(mesh);
    expect(box.min).toEqual([0, 0, 0].map((v) => expect.closeTo(v, 4)));
    expect(box.max[0]).toBeCloseTo(COUPON.base.length, 3);
    expect(box.max[1]).toBeCloseTo(COUPON.base.width, 3);
    expect(box.max[2]).toBeCloseTo(COUPON.base.height + COUPON.fins.height, 3);
    expect(volume).toBeGreaterThan(0.8 * COUPON.base.length * COUPON.base.width * COUPON.base.height);
    const solid = solidOf(kernel, mesh);
    const parts = solid.decompose();
    expect(parts.length).toBe(1);
    for (const part of parts) part.delete();
    solid.delete();
  });

  it('carries every hole at its size, in order', () => {
    const { polygons } = cutAt(1.2);
    const found = polygons
      .map((points) => {
        const xs = points.map(([x]) => x);
        return { width: Math.max(...xs) - Math.min(...xs), x: (Math.max(...xs) + Math.min(...xs)) / 2 };
      })
      .filter(({ width }) => width < 20)
      .sort((a, b) => a.x - b.x);
    expect(found.map(({ width }) => Math.round(width * 1000) / 1000)).toEqual([...COUPON.holes]);
  });

  it('above the base stand fins, pins, blocks and walls that touch nothing else', () => {
    const { fins, pins, gaps, leans, base } = COUPON;
    const { area, polygons } = cutAt(base.height + 2);
    const expected =
      fins.thickness.reduce((sum, t) => sum + t * fins.length, 0) +
      pins.diameter.reduce((sum, d) => sum + (Math.PI / 4) * d * d, 0) +
      (gaps.width.length + 1) * gaps.block * gaps.length +
      leans.angle.reduce(
        (sum, a) => sum + (leans.width * leans.thickness) / Math.cos((a * Math.PI) / 180),
        0,
      );
    expect(Math.abs(area / expected - 1)).toBeLessThan(0.002);
    expect(polygons.length).toBe(
      fins.thickness.length + pins.diameter.length + gaps.width.length + 1 + leans.angle.length,
    );
  });

  it('every feature stands within the base', () => {
    const { base } = COUPON;
    for (const { x, y } of Object.values(couponPlaces()).flat()) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(base.length);
      expect(y).toBeLessThan(base.width);
    }
    const { box } = measure(mesh);
    expect(box.max[0] - box.min[0]).toBeLessThanOrEqual(base.length + 1e-3);
  });
});
