import { clippedBelow } from '../../shape/clip.ts';

/** A point on the bed [mm]. */
export type Point = readonly [number, number];

/** Outlines less holes: contours that turn left count up, those that turn right down. */
export function bodiesOf(contours: readonly (readonly Point[])[]): number {
  let count = 0;
  for (const contour of contours) {
    let twice = 0;
    contour.forEach(([x0, y0], i) => {
      const [x1, y1] = contour[(i + 1) % contour.length];
      twice += x0 * y1 - x1 * y0;
    });
    count += Math.sign(twice);
  }
  return count;
}

/** Area, length of edge, centroid and least radius of gyration of a shape with holes. */
export interface ShapeFacts {
  readonly area: number;
  readonly perimeter: number;
  readonly centroid: Point;
  /** Square root of the least second moment over the area. */
  readonly leastGyration: number;
}

/**
 * Closed contours, outer ones anticlockwise and holes clockwise, by Green's theorem: A = 1/2 sum cross, S and I by the
 * usual sums over edges; the least principal second moment from I_xx, I_yy, I_xy.
 */
export function shapeFacts(contours: readonly (readonly Point[])[]): ShapeFacts {
  let [a, sx, sy, xx, yy, xy, perimeter] = [0, 0, 0, 0, 0, 0, 0];
  for (const contour of contours)
    for (let i = 0; i < contour.length; i++) {
      const [x0, y0] = contour[i];
      const [x1, y1] = contour[(i + 1) % contour.length];
      const cross = x0 * y1 - x1 * y0;
      a += cross / 2;
      sx += (cross * (x0 + x1)) / 6;
      sy += (cross * (y0 + y1)) / 6;
      xx += (cross * (x0 * x0 + x0 * x1 + x1 * x1)) / 12;
      yy += (cross * (y0 * y0 + y0 * y1 + y1 * y1)) / 12;
      xy += (cross * (2 * x0 * y0 + x0 * y1 + x1 * y0 + 2 * x1 * y1)) / 24;
      perimeter += Math.hypot(x1 - x0, y1 - y0);
    }
  if (!(a > 0)) return { area: 0, perimeter, centroid: [0, 0], leastGyration: 0 };
  const [cx, cy] = [sx / a, sy / a];
  const [ix, iy, ixy] = [xx - a * cx * cx, yy - a * cy * cy, xy - a * cx * cy];
  const least = (ix + iy) / 2 - Math.hypot((ix - iy) / 2, ixy);
  return { area: a, perimeter, centroid: [cx, cy], leastGyration: Math.sqrt(Math.max(0, least) / a) };
}

/**
 * Area of closed contours within distance `r` of the origin: for each edge the signed area of its triangle with the origin
 * that lies in the disc, a triangle where the edge is inside and a sector where it is outside.
 */
export function areaInDisc(contours: readonly (readonly Point[])[], r: number): number {
  let sum = 0;
  for (const contour of contours)
    for (let i = 0; i < contour.length; i++)
      sum += wedgeInDisc(contour[i], contour[(i + 1) % contour.length], r);
  return sum;
}

function wedgeInDisc([x0, y0]: Point, [x1, y1]: Point, r: number): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const a = dx * dx + dy * dy;
  if (a === 0) return 0;
  const sector = (ax: number, ay: number, bx: number, by: number) =>
    (r * r * Math.atan2(ax * by - ay * bx, ax * bx + ay * by)) / 2;
  const b = x0 * dx + y0 * dy;
  const inside = b * b - a * (x0 * x0 + y0 * y0 - r * r);
  if (inside <= 0) return sector(x0, y0, x1, y1);
  const root = Math.sqrt(inside);
  const [enter, leave] = [Math.max(0, (-b - root) / a), Math.min(1, (-b + root) / a)];
  if (enter >= leave) return sector(x0, y0, x1, y1);
  const [ex, ey] = [x0 + enter * dx, y0 + enter * dy];
  const [lx, ly] = [x0 + leave * dx, y0 + leave * dy];
  return sector(x0, y0, ex, ey) + (ex * ly - ey * lx) / 2 + sector(lx, ly, x1, y1);
}

/** Area of closed contours where `nx x + ny y <= bound`. */
export function areaBelow(contours: readonly (readonly Point[])[], [nx, ny]: Point, bound: number): number {
  let sum = 0;
  for (const contour of contours) {
    const kept = clippedBelow(contour, [nx, ny], bound);
    kept.forEach(([x0, y0], i) => {
      const [x1, y1] = kept[(i + 1) % kept.length];
      sum += (x0 * y1 - x1 * y0) / 2;
    });
  }
  return sum;
}

/** Nearest and farthest corner of contours from the origin. */
export function radiusRange(contours: readonly (readonly Point[])[]): [number, number] {
  let [near, far] = [Infinity, 0];
  for (const contour of contours)
    for (const [x, y] of contour) {
      const r = Math.hypot(x, y);
      near = Math.min(near, r);
      far = Math.max(far, r);
    }
  return [near, far];
}
