/** A closed polyline of [z, r] in metres, anticlockwise with r to the right and z up. The last point joins the first. */
export type Profile = readonly (readonly [number, number])[];

/** From `top` to `bottom` along the axis, between two radii. */
export const rectangle = (top: number, bottom: number, inner: number, outer: number): Profile =>
  oriented([
    [top, inner],
    [top, outer],
    [bottom, outer],
    [bottom, inner],
  ]);

/** The same points, anticlockwise with r to the right and z up. */
export function oriented(points: [number, number][]): Profile {
  let twice = 0;
  points.forEach(([z, r], i) => {
    const [nextZ, nextR] = points[(i + 1) % points.length];
    twice += r * nextZ - nextR * z;
  });
  return twice >= 0 ? points : points.reverse();
}

/** Volume of a profile turned about the axis [m3]: Pappus, exact for straight edges. */
export function revolvedVolume(profile: Profile): number {
  let sum = 0;
  for (let i = profile.length - 1, j = 0; j < profile.length; i = j++) {
    const [z0, r0] = profile[i];
    const [z1, r1] = profile[j];
    sum += (r0 * r0 + r0 * r1 + r1 * r1) * (z1 - z0);
  }
  return (Math.PI / 3) * Math.abs(sum);
}
