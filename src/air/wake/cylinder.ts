/** Points of the rim sum; the summand is smooth and periodic, so the error falls faster than any power. */
const RIM_POINTS = 24;

/**
 * Axial velocity, toward the cylinder, of a semi-infinite cylinder of vortex rings of radius `a` whose open end lies
 * `depth` (> 0) beyond the point, at radius `r`, for unit ring vorticity per length (velocity inside far down: 1).
 * Outside the cylinder its field is that of a source disc over the open end, so it is the solid angle of that disc
 * over 4 pi, taken as a sum round the rim:
 *
 *   (1 / 4 pi) integral a (a - r cos t) / (s (s + depth)) dt,   s^2 = depth^2 + a^2 + r^2 - 2 a r cos t
 *
 * On the axis: (1 - depth / sqrt(depth^2 + a^2)) / 2. Source: Lamb, Hydrodynamics, 6th ed., art. 150-151 (solid angle).
 */
export function cylinderVelocity(a: number, depth: number, r: number, points = RIM_POINTS): number {
  let sum = 0;
  for (let k = 0; k < points; k++) {
    const cos = Math.cos((2 * Math.PI * (k + 0.5)) / points);
    const s = Math.sqrt(depth * depth + a * a + r * r - 2 * a * r * cos);
    sum += (a * (a - r * cos)) / (s * (s + depth));
  }
  return sum / points / 2;
}
