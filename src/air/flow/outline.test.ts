import { describe, expect, test } from 'vitest';
import { smoothCurve, type Point } from './curve.ts';
import { bodyWalk, centreBodyOutline, ductWalk } from './outline.ts';
import { spaceNodes } from './spacing.ts';

/** A line, a quarter circle of radius 1 in `steps` chords, and a line again. */
const bend = (steps: number): Point[] => [
  [-3, 1],
  ...Array.from({ length: steps + 1 }, (_, k): Point => {
    const a = ((Math.PI / 2) * k) / steps;
    return [Math.sin(a), Math.cos(a)];
  }),
  [1, -2],
];

describe('smoothCurve', () => {
  test('chords of an arc become the arc and the lines beside it stay lines', () => {
    for (const steps of [6, 16]) {
      const { z, r } = smoothCurve(bend(steps));
      let off = 0;
      for (let i = 0; i < z.length; i++) {
        const error = z[i] <= 0 ? r[i] - 1 : r[i] <= 0 ? z[i] - 1 : Math.hypot(z[i], r[i]) - 1;
        off = Math.max(off, Math.abs(error));
      }
      expect(off).toBeLessThan(steps === 6 ? 2e-5 : 1e-6);
    }
  });

  test('a square corner stays square and is named', () => {
    const { z, r, corners } = smoothCurve([
      [0, 1],
      [1, 1],
      [1, 2],
    ]);
    expect(corners.map((i) => [z[i], r[i]])).toEqual([
      [0, 1],
      [1, 1],
      [1, 2],
    ]);
    expect(Math.max(...r.map((value, i) => Math.min(Math.abs(value - 1), Math.abs(z[i] - 1))))).toBeLessThan(
      1e-12,
    );
  });
});

describe('spaceNodes', () => {
  test('gives the panels asked for, small at corners and on bends, none much longer than its neighbour', () => {
    const curve = smoothCurve(
      ductWalk([
        [0, 3],
        [4, 3],
        [4, 3.1],
        [0, 3.1],
      ]),
    );
    const nodes = spaceNodes(curve, 160);
    expect(nodes.z.length).toBe(161);
    const length = Array.from({ length: 160 }, (_, i) =>
      Math.hypot(nodes.z[i + 1] - nodes.z[i], nodes.r[i + 1] - nodes.r[i]),
    );
    for (let i = 1; i < 160; i++) {
      const ratio = length[i] / length[i - 1];
      expect(Math.max(ratio, 1 / ratio)).toBeLessThan(2.2);
    }
    expect(Math.max(...length) / Math.min(...length)).toBeGreaterThan(4);
    for (const corner of [
      [4, 3.1],
      [0, 3.1],
      [0, 3],
    ])
      expect(
        Math.min(...nodes.z.map((z, i) => Math.hypot(z - corner[0], nodes.r[i] - corner[1]))),
      ).toBeLessThan(1e-12);
  });
});

describe('walks', () => {
  const section: Point[] = [
    [0, 3],
    [4, 3],
    [4, 3.1],
    [0, 3.1],
  ];
  test('a duct is walked from its exit edge outward and home along the bore, whichever way it was given', () => {
    const walk = [
      [4, 3],
      [4, 3.1],
      [0, 3.1],
      [0, 3],
      [4, 3],
    ];
    expect(ductWalk(section)).toEqual(walk);
    expect(ductWalk([...section].reverse())).toEqual(walk);
    expect(ductWalk([section[2], section[3], section[0], section[1]])).toEqual(walk);
  });

  test('parts on the axis merge into one outside; a bore is closed, a blunt base given its dead air', () => {
    const hub: Point[] = [
      [0, 0.2],
      [0, 1],
      [2, 1],
      [2, 0.2],
    ];
    const motor: Point[] = [
      [2.5, 0],
      [2.5, 0.8],
      [4, 0.8],
      [4, 0],
    ];
    const outline = centreBodyOutline([hub, motor]);
    expect(outline[0]).toEqual([0, 0]);
    expect(outline[outline.length - 1]).toEqual([4, 0]);
    expect(outline.every(([, r], i) => i === 0 || i === outline.length - 1 || r > 0.7)).toBe(true);
    expect(centreBodyOutline([hub, motor], true).at(-1)).toEqual([4 + 2.5 * 0.8, 0]);
    expect(bodyWalk(hub)[0]).toEqual([2, 0]);
    expect(() =>
      bodyWalk([
        [0, 0],
        [1, -1],
        [2, 0],
      ]),
    ).toThrow('must not reach across the axis');
  });
});
