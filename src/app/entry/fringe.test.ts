import { describe, expect, it } from 'vitest';
import { edgesOf } from './fringe.ts';

describe('edgesOf', () => {
  const angles = Array.from({ length: 40 }, (_, i) => (2 * Math.PI * i) / 40);
  const x = angles.map((a) => 3 + 2 * Math.cos(a));
  const y = angles.map((a) => 1 + 2 * Math.sin(a));

  it.each([
    ['one way round', x, y],
    ['the other way round', x.toReversed(), y.toReversed()],
  ])('points away from the middle of a circle, %s', (_, xs, ys) => {
    for (const edge of edgesOf(xs, ys)) {
      const out = ((edge.x - 3) * edge.nx + (edge.y - 1) * edge.ny) / 2;
      expect(out).toBeGreaterThan(0.99);
      expect(Math.hypot(edge.nx, edge.ny)).toBeCloseTo(1, 9);
    }
  });
});
