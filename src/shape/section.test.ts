import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  noseThickening,
  sectionIntegrals,
  sectionOutline,
  THINNEST_EDGE,
  type Outline,
  type SectionSpec,
} from './section.ts';

const plain: SectionSpec = {
  family: 'four-digit',
  thickness: 0.12,
  camber: 0,
  camberPosition: 0.4,
  trailingEdge: 0.00252,
};

/** Height of the upper side at `x`, straight between the outline's points. */
function upperAt({ x, y }: Outline, at: number): number {
  const nose = (x.length - 1) / 2;
  for (let i = 0; i < nose; i++)
    if (x[i + 1] <= at && at <= x[i]) return y[i] + ((y[i + 1] - y[i]) * (at - x[i])) / (x[i + 1] - x[i]);
  throw new Error('not on the outline');
}

/** Whether two edges of a closed outline that are not neighbours cross. */
function crossesItself({ x, y }: Outline): boolean {
  const n = x.length;
  const side = (i: number, j: number, k: number) =>
    (x[j] - x[i]) * (y[k] - y[i]) - (x[k] - x[i]) * (y[j] - y[i]);
  for (let i = 0; i < n; i++)
    for (let k = i + 2; k < n; k++) {
      const j = i + 1;
      const l = (k + 1) % n;
      if (l === i) continue;
      if (side(i, j, k) * side(i, j, l) < 0 && side(k, l, i) * side(k, l, j) < 0) return true;
    }
  return false;
}

describe('sectionOutline', () => {
  // Abbott, von Doenhoff and Stivers, Summary of airfoil data, NACA Report 824 (1945), ordinates of the NACA 0012,
  // in per cent of the chord. From memory.
  test.each([
    [5, 3.555],
    [10, 4.683],
    [20, 5.738],
    [30, 6.002],
    [40, 5.803],
    [60, 4.563],
    [80, 2.623],
    [95, 0.807],
  ])('0012 at %d %% of the chord stands %d %% high', (station, height) => {
    expect(100 * upperAt(sectionOutline(plain, 400), station / 100)).toBeCloseTo(height, 2);
  });

  test('the form scaled to its own back edge has the area of its integral, 0.6851 t', () => {
    expect(sectionIntegrals(sectionOutline(plain, 400)).area).toBeCloseTo(0.68508 * 0.12, 4);
  });

  test('the mean line of a bent plate peaks at its camber, and the plate keeps its thickness', () => {
    const outline = sectionOutline(
      { family: 'arc-plate', thickness: 0.06, camber: 0.08, camberPosition: 0.2, trailingEdge: 0.06 },
      200,
    );
    expect(Math.max(...outline.y)).toBeCloseTo(0.08 + 0.03, 4);
    const area = sectionIntegrals(outline).area;
    // Arc length times thickness, less what the round nose leaves of its square.
    const half = 2 * Math.atan(0.16);
    const length = half / Math.sin(half);
    expect(area).toBeCloseTo(0.06 * length - 0.03 ** 2 * (2 - Math.PI / 2), 5);
  });

  test('a flat plate has no camber and a square tail where the back edge is as thick', () => {
    const { x, y } = sectionOutline({ ...plain, family: 'flat-plate', camber: 0.1, trailingEdge: 1 }, 20);
    expect([x[0], y[0]]).toEqual([1, 0.06]);
    expect(Math.max(...y)).toBe(0.06);
  });

  test('any input gives a closed, anticlockwise outline that does not cross itself', () => {
    const spec = fc.record({
      family: fc.constantFrom('flat-plate', 'arc-plate', 'four-digit') as fc.Arbitrary<SectionSpec['family']>,
      thickness: fc.double({ min: -0.1, max: 0.9, noNaN: true }),
      camber: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
      camberPosition: fc.double({ min: -1, max: 2, noNaN: true }),
      trailingEdge: fc.double({ min: -1, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(spec, fc.integer({ min: 8, max: 40 }), (s, points) => {
        const outline = sectionOutline(s, points);
        expect(outline.x.length).toBe(2 * points + 1);
        const { area, momentX, momentY } = sectionIntegrals(outline);
        expect(area).toBeGreaterThan(0);
        expect(momentX).toBeGreaterThan(0);
        expect(momentY).toBeGreaterThan(0);
        expect(crossesItself(outline)).toBe(false);
        const last = outline.x.length - 1;
        const tail = Math.hypot(outline.x[0] - outline.x[last], outline.y[0] - outline.y[last]);
        const t = Math.min(0.4, Math.max(0.005, s.thickness));
        expect(tail).toBeCloseTo(Math.min(t, Math.max(THINNEST_EDGE, s.trailingEdge)), 9);
      }),
      { seed: 1, numRuns: 500 },
    );
  });
});

describe('sectionIntegrals', () => {
  test('a rectangle 2 by 1 with its corner at (3, 4)', () => {
    const found = sectionIntegrals({ x: Float64Array.of(3, 5, 5, 3), y: Float64Array.of(4, 4, 5, 5) });
    const wanted = [2, 6, 4, 4.5, 1 / 6, 2 / 3, 0];
    const { area, perimeter, centroidX, centroidY, momentX, momentY, momentXY } = found;
    [area, perimeter, centroidX, centroidY, momentX, momentY, momentXY].forEach((value, i) =>
      expect(value).toBeCloseTo(wanted[i], 10),
    );
  });

  test('a right triangle with legs 3 and 6', () => {
    const found = sectionIntegrals({ x: Float64Array.of(0, 3, 0), y: Float64Array.of(0, 0, 6) });
    // b h^3 / 36, h b^3 / 36, -b^2 h^2 / 72
    expect(found.momentX).toBeCloseTo((3 * 216) / 36, 10);
    expect(found.momentY).toBeCloseTo((6 * 27) / 36, 10);
    expect(found.momentXY).toBeCloseTo((-9 * 36) / 72, 10);
  });

  test('outlines as coarse as the volumes use are within 0.5 % of fine ones', () => {
    for (const family of ['flat-plate', 'arc-plate', 'four-digit'] as const) {
      const spec = { ...plain, family, camber: 0.05, trailingEdge: 0.03 };
      const fine = sectionIntegrals(sectionOutline(spec, 500)).area;
      expect(Math.abs(sectionIntegrals(sectionOutline(spec, 20)).area / fine - 1)).toBeLessThan(0.005);
    }
  });
});

describe('a thickened front edge', () => {
  const thin: SectionSpec = { ...plain, thickness: 0.08, camber: 0.04 };
  const thickAt = (outline: Outline, x: number) => {
    const nose = (outline.x.length - 1) / 2;
    // Across the mean line: upper and lower points of one station, the two nearest to `x`.
    let best = 1;
    for (let k = 1; k <= nose; k++) {
      const middle = (k: number) => (outline.x[nose - k] + outline.x[nose + k]) / 2;
      if (Math.abs(middle(k) - x) < Math.abs(middle(best) - x)) best = k;
    }
    return Math.hypot(
      outline.x[nose - best] - outline.x[nose + best],
      outline.y[nose - best] - outline.y[nose + best],
    );
  };

  test('is at least that thick from its own radius back, and the section behind stays what it was', () => {
    const [bare, edged] = [0, 0.05].map((leadingEdge) => sectionOutline({ ...thin, leadingEdge }, 80));
    for (const x of [0.03, 0.05, 0.1, 0.2]) expect(thickAt(edged, x)).toBeGreaterThan(0.05 - 1e-4);
    expect(thickAt(bare, 0.03)).toBeLessThan(0.04);
    for (const x of [0.2, 0.3, 0.6, 0.9]) expect(thickAt(edged, x)).toBeCloseTo(thickAt(bare, x), 9);
    expect(crossesItself(edged)).toBe(false);
    expect(sectionIntegrals(edged).area).toBeGreaterThan(sectionIntegrals(bare).area);
  });

  test('never makes a section thicker than it is, and leaves plates alone', () => {
    const most = sectionOutline({ ...plain, thickness: 0.08, leadingEdge: 0.5 }, 80);
    expect(Math.max(...most.y) - Math.min(...most.y)).toBeCloseTo(0.08, 4);
    const plate: SectionSpec = { ...thin, family: 'arc-plate' };
    expect(sectionOutline({ ...plate, leadingEdge: 0.05 }, 20)).toEqual(sectionOutline(plate, 20));
  });

  test('the air reads a blunter nose: 1 without it, the published radius of a thicker section with it', () => {
    expect(noseThickening(thin)).toBe(1);
    // A front edge of twice the published nose radius 1.1019 t^2 is that of t.
    for (const t of [0.1, 0.16])
      expect(noseThickening({ ...thin, leadingEdge: 2 * 1.1019 * t * t })).toBeCloseTo(
        Math.min(t, Math.sqrt(0.08 / 2 / 1.1019)) / 0.08,
        6,
      );
    expect(noseThickening({ ...thin, family: 'flat-plate', leadingEdge: 0.05 })).toBe(1);
  });
});
