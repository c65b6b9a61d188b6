import { ringStream, ringVelocity } from './ring.ts';

/** Gauss-Legendre on 0..1. Source: Abramowitz and Stegun, table 25.4. */
const FAR_PLACES = [0.21132486540518712, 0.7886751345948129];
const FAR_WEIGHTS = [0.5, 0.5];
const NEAR_PLACES = [
  0.033765242898423975, 0.16939530676686776, 0.38069040695840156, 0.6193095930415985, 0.8306046932331322,
  0.966234757101576,
];
const NEAR_WEIGHTS = [
  0.0856622461895852, 0.1803807865240693, 0.2339569672863455, 0.2339569672863455, 0.1803807865240693,
  0.0856622461895852,
];

/** From this many panel lengths on, two Gauss points integrate the bare kernel; nearer, the singular part is taken out first. */
const NEAR = 3;

/**
 * Stream function at (z, r) of a straight conical panel from (z0, r0) to (z1, r1) whose vortex strength runs linearly
 * from one end to the other: `out[0]`, `out[1]` per unit strength at its first and second end [m2 per (m/s) m].
 *
 * Near the panel the kernel behaves as -c(s) ln(distance) / (2 pi), c = (r + R(s)) / 2 (true to second order in distance
 * over radius); that part is integrated in closed form, the smooth rest by six-point Gauss (an even number, as a panel is often seen from its middle). The same rule serves the
 * panel's own ends (its self-influence with curvature), its neighbours and the opposite face of a thin wall.
 * Source of the near form: Lamb, Hydrodynamics, art. 163.
 */
export function panelStream(
  z: number,
  r: number,
  z0: number,
  r0: number,
  z1: number,
  r1: number,
  out: Float64Array,
): void {
  const dz = z1 - z0;
  const dr = r1 - r0;
  const squared = dz * dz + dr * dr;
  const awayZ = z - 0.5 * (z0 + z1);
  const awayR = r - 0.5 * (r0 + r1);
  let first = 0;
  let second = 0;
  const length = Math.sqrt(squared);
  if (awayZ * awayZ + awayR * awayR > NEAR * NEAR * squared) {
    for (let i = 0; i < 2; i++) {
      const u = FAR_PLACES[i];
      const g = FAR_WEIGHTS[i] * ringStream(z - z0 - u * dz, r, r0 + u * dr);
      first += (1 - u) * g;
      second += u * g;
    }
    out[0] = first * length;
    out[1] = second * length;
    return;
  }
  const c0 = (r + r0) / (4 * Math.PI);
  const slope = dr / (4 * Math.PI);
  for (let i = 0; i < 6; i++) {
    const u = NEAR_PLACES[i];
    const d = z - z0 - u * dz;
    const ring = r0 + u * dr;
    const e = r - ring;
    const distance = d * d + e * e;
    const smooth =
      distance > 0
        ? ringStream(d, r, ring) + 0.5 * (c0 + slope * u) * Math.log(distance)
        : (r / (2 * Math.PI)) * (Math.log(8 * r) - 2);
    const g = NEAR_WEIGHTS[i] * smooth;
    first += (1 - u) * g;
    second += u * g;
  }
  // Moments of ln(distance) along the panel, in s from 0 to 1 with distances in panel lengths.
  const x = ((z - z0) * dz + (r - r0) * dr) / squared;
  const y = ((z - z0) * dr - (r - r0) * dz) / squared;
  const u0 = -x;
  const u1 = 1 - x;
  const yy = y * y;
  const q0 = u0 * u0 + yy;
  const q1 = u1 * u1 + yy;
  const ln0 = q0 > 0 ? Math.log(q0) : 0;
  const ln1 = q1 > 0 ? Math.log(q1) : 0;
  const turn = y !== 0 ? y * (Math.atan(u1 / y) - Math.atan(u0 / y)) : 0;
  const i0 = 0.5 * (u1 * ln1 - u0 * ln0) - 1 + turn;
  const i1 = 0.25 * (q1 * (ln1 - 1) - q0 * (ln0 - 1));
  const i2 = (u1 ** 3 * ln1 - u0 ** 3 * ln0 - (2 / 3) * (u1 ** 3 - u0 ** 3) + 2 * yy - 2 * yy * turn) / 6;
  const logLength = Math.log(length);
  const m0 = i0 + logLength;
  const m1 = i1 + x * i0 + 0.5 * logLength;
  const m2 = i2 + 2 * x * i1 + x * x * i0 + logLength / 3;
  const whole = c0 * m0 + slope * m1;
  const tilted = c0 * m1 + slope * m2;
  out[0] = length * (first - (whole - tilted));
  out[1] = length * (second - tilted);
}

/**
 * Velocity at (z, r) of the same panel: `out[0..3]` = u_z, u_r per unit strength at the first end, u_z, u_r at the second.
 * On the panel itself the mean of both faces. `pair` is room for two numbers.
 * The plane vortex 1 / (2 pi distance) and the ring's logarithm are integrated in closed form, the rest by Gauss.
 */
export function panelVelocity(
  z: number,
  r: number,
  z0: number,
  r0: number,
  z1: number,
  r1: number,
  out: Float64Array,
  pair: Float64Array,
): void {
  const dz = z1 - z0;
  const dr = r1 - r0;
  const squared = dz * dz + dr * dr;
  const length = Math.sqrt(squared);
  const awayZ = z - 0.5 * (z0 + z1);
  const awayR = r - 0.5 * (r0 + r1);
  const near = awayZ * awayZ + awayR * awayR <= NEAR * NEAR * squared;
  const places = near ? NEAR_PLACES : FAR_PLACES;
  const weights = near ? NEAR_WEIGHTS : FAR_WEIGHTS;
  // The logarithm's strength, held off the axis where the ring's field has no such part.
  const ringLog = near ? 1 / (8 * Math.PI * Math.max(r, 0.5 * (r0 + r1), length)) : 0;
  let a0 = 0;
  let a1 = 0;
  let b0 = 0;
  let b1 = 0;
  for (let i = 0; i < places.length; i++) {
    const u = places[i];
    const d = z - z0 - u * dz;
    const ring = r0 + u * dr;
    let axial = 0;
    let radial = 0;
    const e = r - ring;
    const distance = d * d + e * e;
    if (distance > 1e-18 * squared) {
      ringVelocity(d, r, ring, pair);
      axial = pair[0];
      radial = pair[1];
      if (near) {
        axial += e / (2 * Math.PI * distance) + ringLog * Math.log(distance / squared);
        radial -= d / (2 * Math.PI * distance);
      }
    }
    axial *= weights[i] * length;
    radial *= weights[i] * length;
    a0 += (1 - u) * axial;
    a1 += (1 - u) * radial;
    b0 += u * axial;
    b1 += u * radial;
  }
  if (near) {
    const x = ((z - z0) * dz + (r - r0) * dr) / squared;
    const y = ((z - z0) * dr - (r - r0) * dz) / squared;
    const u0 = -x;
    const u1 = 1 - x;
    const q0 = Math.max(u0 * u0 + y * y, 1e-30);
    const q1 = Math.max(u1 * u1 + y * y, 1e-30);
    const angle = Math.abs(y) > 1e-9 ? Math.atan(u1 / y) - Math.atan(u0 / y) : 0;
    const ln = 0.5 * Math.log(q1 / q0);
    // Along and across the panel, for strength 1 and strength s.
    const along = angle / (2 * Math.PI);
    const across = ln / (2 * Math.PI);
    const alongTilted = (x * angle + y * ln) / (2 * Math.PI);
    const acrossTilted = (1 - y * angle + x * ln) / (2 * Math.PI);
    const tz = dz / length;
    const tr = dr / length;
    const i0 = u1 * Math.log(q1) - u0 * Math.log(q0) - 2 + 2 * y * angle;
    const i1 = 0.5 * (q1 * (Math.log(q1) - 1) - q0 * (Math.log(q0) - 1)) + x * i0;
    a0 += (along - alongTilted) * tz + (across - acrossTilted) * tr - length * ringLog * (i0 - i1);
    a1 += (along - alongTilted) * tr - (across - acrossTilted) * tz;
    b0 += alongTilted * tz + acrossTilted * tr - length * ringLog * i1;
    b1 += alongTilted * tr - acrossTilted * tz;
  }
  out[0] = a0;
  out[1] = a1;
  out[2] = b0;
  out[3] = b1;
}
