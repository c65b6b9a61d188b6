import { describe, expect, it } from 'vitest';
import type { Outline } from '../shape/section.ts';
import { sectionOutline } from '../shape/section.ts';
import { elementOf } from './element.ts';
import { areaOf, opening } from './opening.ts';

const outline = (points: readonly (readonly [number, number])[]): Outline => ({
  x: Float64Array.from(points, (p) => p[0]),
  y: Float64Array.from(points, (p) => p[1]),
});
const ellipse = (a: number, b: number, n = 240) =>
  outline(
    Array.from({ length: n }, (_, k) => {
      const t = (2 * Math.PI * k) / n;
      return [a * Math.cos(t), b * Math.sin(t)] as const;
    }),
  );
const turned = ({ x, y }: Outline, angle: number): Outline => ({
  x: x.map((v, i) => v * Math.cos(angle) - y[i] * Math.sin(angle)),
  y: x.map((v, i) => v * Math.sin(angle) + y[i] * Math.cos(angle)),
});
const disc = elementOf(0.4, 0.1, 1);
const flat = elementOf(0.4, 0.1, 0);
const most = (values: Float64Array) => values.reduce((a, b) => Math.max(a, b), -Infinity);

describe('opening', () => {
  it('of a rectangle by a disc takes the four corners', () => {
    const [piece] = opening(
      turned(
        outline([
          [0, 0],
          [5, 0],
          [5, 1],
          [0, 1],
        ]),
        0.3,
      ),
      disc,
    );
    expect(areaOf(piece)).toBeCloseTo(5 - (4 - Math.PI) * 0.04, 3);
  });

  it('of a rectangle by a rectangle along its sides leaves it whole, and loses one that is too thin', () => {
    const box = (h: number) =>
      outline([
        [0, 0],
        [5, 0],
        [5, h],
        [0, h],
      ]);
    expect(areaOf(opening(box(0.11), flat)[0])).toBeCloseTo(0.55, 3);
    expect(opening(box(0.09), flat)).toEqual([]);
    expect(opening(box(0.39), disc)).toEqual([]);
  });

  it('of a wedge by a disc loses the tip by radius (1 / sin - 1)', () => {
    for (const half of [0.05, 0.15, 0.4]) {
      const wedge = outline([
        [0, 0],
        [-10, 10 * Math.tan(half)],
        [-10, -10 * Math.tan(half)],
      ]);
      for (const angle of [0, 1.1]) {
        const back = turned(opening(turned(wedge, angle), disc)[0], -angle);
        // 0.4 % of the radius in depth is that over sin(half) along the wedge.
        const lost = 0.2 * (1 / Math.sin(half) - 1);
        expect(Math.abs(-most(back.x) - lost)).toBeLessThan((0.005 * 0.2) / Math.sin(half) + 0.002);
      }
    }
  });

  it('of an ellipse by a disc stops where the disc fits the narrow end', () => {
    const [a, b] = [3, 0.5];
    const [piece] = opening(ellipse(a, b), disc);
    const centre = Math.sqrt(((a * a - b * b) * (b * b - 0.04)) / (b * b));
    expect(most(piece.x)).toBeCloseTo(centre + 0.2, 2);
    expect(most(piece.y)).toBeCloseTo(b, 3);
    expect(areaOf(opening(ellipse(1, 0.8), disc)[0])).toBeCloseTo(areaOf(ellipse(1, 0.8)), 3);
  });

  it('of a disc by line and layer gets a flat top one line wide and flat sides one layer high', () => {
    const [piece] = opening(ellipse(1, 1, 720), flat);
    expect(most(piece.y)).toBeCloseTo(Math.sqrt(1 - 0.04), 3);
    expect(most(piece.x)).toBeCloseTo(Math.sqrt(1 - 0.0025), 3);
  });

  it('between flat and upright tends to both', () => {
    const shape = turned(sectionScaled(10), -0.5);
    const areas = [0, 0.03, 0.3, 0.7, 0.97, 1].map((along) =>
      areaOf(opening(shape, elementOf(0.4, 0.1, along))[0]),
    );
    expect(Math.abs(areas[1] - areas[0]) / areas[0]).toBeLessThan(0.01);
    expect(Math.abs(areas[4] - areas[5]) / areas[5]).toBeLessThan(0.02);
    // A leaning element is a disc swept by part of a layer: it may be larger than either, but not by much.
    for (const area of areas) {
      expect(area).toBeLessThan(areas[0] * 1.003);
      expect(area).toBeGreaterThan(areas[5] * 0.99);
    }
  });

  it('is idempotent and never adds', () => {
    for (const element of [disc, flat, elementOf(0.4, 0.1, 0.5)])
      for (const angle of [0.2, 0.6, 1.2]) {
        const shape = turned(sectionScaled(10), -angle);
        const [once] = opening(shape, element);
        expect(areaOf(once)).toBeLessThan(areaOf(shape) * 1.0005);
        const [twice] = opening(once, element);
        expect(areaOf(twice) / areaOf(once)).toBeGreaterThan(0.99);
      }
  });

  it('cuts a dumb-bell with a thin neck in two', () => {
    const pieces = opening(
      outline([
        [0, 0],
        [1, 0],
        [1, 0.4],
        [2, 0.4],
        [2, 0],
        [3, 0],
        [3, 1],
        [2, 1],
        [2, 0.6],
        [1, 0.6],
        [1, 1],
        [0, 1],
      ]),
      disc,
    );
    expect(pieces.length).toBe(2);
    // Each square loses its four corners, but grows into the neck's mouth by nothing.
    for (const piece of pieces) expect(areaOf(piece)).toBeCloseTo(1 - (4 - Math.PI) * 0.04, 1);
  });

  function sectionScaled(chord: number): Outline {
    const { x, y } = sectionOutline(
      { family: 'four-digit', thickness: 0.1, camber: 0.05, camberPosition: 0.4, trailingEdge: 0.002 },
      30,
    );
    return { x: x.map((v) => v * chord), y: y.map((v) => v * chord) };
  }
});
