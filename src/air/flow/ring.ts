/**
 * Stream function [m3/s per m2/s of circulation, so m] at radius `r` of a vortex ring of radius `ring` and unit
 * circulation, `axial` metres downstream of it: psi with u_z = (1/r) dpsi/dr, u_r = -(1/r) dpsi/dz.
 *
 * Closed form psi = sqrt(r R) / (2 pi) [(2/k - k) K - (2/k) E]. Run as an arithmetic-geometric mean started from the
 * greatest and least distance to the ring, the bracket is a sum of positive terms: psi = sum_{n>=1} 2^(n-1) c_n^2 / (4 a),
 * so nothing cancels near the axis or far away. Infinite on the ring itself.
 * Sources: Lamb, Hydrodynamics, 6th ed., art. 161; Abramowitz and Stegun, 17.6.
 */
export function ringStream(axial: number, r: number, ring: number): number {
  const across = axial * axial;
  const far = Math.sqrt((r + ring) * (r + ring) + across);
  const near = Math.sqrt((r - ring) * (r - ring) + across);
  let a = 0.5 * (far + near);
  let b = Math.sqrt(far * near);
  let c = (r * ring) / a;
  let weight = 1;
  let sum = c * c;
  for (let n = 0; n < 30 && c > 1e-8 * a; n++) {
    const mean = 0.5 * (a + b);
    b = Math.sqrt(a * b);
    a = mean;
    c = (c * c) / (4 * a);
    weight *= 2;
    sum += weight * c * c;
  }
  return sum / (2 * (a + b));
}

/**
 * Velocity [1/m per unit circulation] of the same ring: `out[0]` = u_z, `out[1]` = u_r. On the axis u_z = R^2 / (2 rho^3).
 * Written on the same mean: u_r = (d/r) kappa (4 r^2 R^2 - Q S) / (rho1 rho2)^2, kappa = 1 / (4 a), Q = r^2 + R^2 + d^2.
 * Source: Lewis, Vortex Element Methods for Fluid Dynamic Analysis of Engineering Systems, 1991, ch. 4 (K and E form; chapter from memory).
 */
export function ringVelocity(axial: number, r: number, ring: number, out: Float64Array): void {
  const across = axial * axial;
  const farSquare = (r + ring) * (r + ring) + across;
  const nearSquare = (r - ring) * (r - ring) + across;
  const far = Math.sqrt(farSquare);
  const near = Math.sqrt(nearSquare);
  let a = 0.5 * (far + near);
  let b = Math.sqrt(far * near);
  let c = (r * ring) / a;
  let weight = 1;
  let sum = c * c;
  for (let n = 0; n < 30 && c > 1e-8 * a; n++) {
    const mean = 0.5 * (a + b);
    b = Math.sqrt(a * b);
    a = mean;
    c = (c * c) / (4 * a);
    weight *= 2;
    sum += weight * c * c;
  }
  const kappa = 1 / (2 * (a + b));
  const product = r * ring;
  const q = farSquare - 2 * product;
  out[0] =
    kappa * (1 + (((ring - r) * (ring + r) - across) / nearSquare) * (1 - (2 * product + sum) / farSquare));
  out[1] = r > 0 ? ((axial / r) * kappa * (4 * product * product - q * sum)) / (nearSquare * farSquare) : 0;
}
