/** A point on the bed [mm]. */
export type Point = readonly [number, number];

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
