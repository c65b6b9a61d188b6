/**
 * Velocity of vortex filaments made of straight pieces, at points on the x axis (a blade's lifting line).
 *
 * One piece from P to Q with circulation G along P -> Q gives, with a = X - P, b = X - Q,
 *
 *   v = G / (4 pi)  (|a| + |b|) (a x b) / ( |a||b| (|a||b| + a.b) + (core |Q - P|)^2 / 2 )
 *
 * which is the exact law of Biot and Savart where core = 0; where it is not, a long piece gives the swirl velocity
 * G h / (2 pi (h^2 + core^2)) at distance h, largest at h = core.
 * Source: van Garrel, ECN-C-03-079, 2003, section 2 (form and smoothing; from memory).
 */

/** A filament: points in order of age, `core` [same unit] for each piece (one fewer than points). */
export interface Filament {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly core: Float64Array;
  readonly count: number;
}

export function emptyFilament(capacity: number): Filament {
  return {
    x: new Float64Array(capacity),
    y: new Float64Array(capacity),
    z: new Float64Array(capacity),
    core: new Float64Array(capacity),
    count: capacity,
  };
}

/** Velocity at one point (X, Y, Z) per unit circulation, written into `out[0..2]`. */
export function velocityAt(f: Filament, X: number, Y: number, Z: number, out: Float64Array): void {
  let vx = 0;
  let vy = 0;
  let vz = 0;
  let ax = X - f.x[0];
  let ay = Y - f.y[0];
  let az = Z - f.z[0];
  let a = Math.sqrt(ax * ax + ay * ay + az * az);
  for (let k = 1; k < f.count; k++) {
    const bx = X - f.x[k];
    const by = Y - f.y[k];
    const bz = Z - f.z[k];
    const b = Math.sqrt(bx * bx + by * by + bz * bz);
    const ab = a * b;
    const lx = ax - bx;
    const ly = ay - by;
    const lz = az - bz;
    const core = f.core[k - 1];
    const below =
      ab * (ab + ax * bx + ay * by + az * bz) + 0.5 * core * core * (lx * lx + ly * ly + lz * lz) + 1e-30;
    const scale = (a + b) / below;
    vx += scale * (ay * bz - az * by);
    vy += scale * (az * bx - ax * bz);
    vz += scale * (ax * by - ay * bx);
    ax = bx;
    ay = by;
    az = bz;
    a = b;
  }
  const factor = 1 / (4 * Math.PI);
  out[0] = vx * factor;
  out[1] = vy * factor;
  out[2] = vz * factor;
}

/**
 * Velocity at the points (r_i, 0, 0) of `blades` copies of a filament turned evenly about the z axis, per unit
 * circulation: z components added into `axial` and y components into `swirl` from index `offset` on, `stride` apart.
 */
export function addBladeVelocities(
  f: Filament,
  blades: number,
  r: Float64Array,
  axial: Float64Array,
  swirl: Float64Array,
  offset: number,
  stride: number,
): void {
  const factor = 1 / (4 * Math.PI);
  const { x, y, z, core, count } = f;
  for (let blade = 0; blade < blades; blade++) {
    const turn = (2 * Math.PI * blade) / blades;
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    for (let i = 0; i < r.length; i++) {
      // Turning the point back is cheaper than turning the filament; the velocity is turned forward at the end.
      const X = r[i] * cos;
      const Y = -r[i] * sin;
      let vx = 0;
      let vy = 0;
      let vz = 0;
      let ax = X - x[0];
      let ay = Y - y[0];
      let az = -z[0];
      let a = Math.sqrt(ax * ax + ay * ay + az * az);
      for (let k = 1; k < count; k++) {
        const bx = X - x[k];
        const by = Y - y[k];
        const bz = -z[k];
        const b = Math.sqrt(bx * bx + by * by + bz * bz);
        const ab = a * b;
        const lx = ax - bx;
        const ly = ay - by;
        const lz = az - bz;
        const c = core[k - 1];
        const scale =
          (a + b) /
          (ab * (ab + ax * bx + ay * by + az * bz) + 0.5 * c * c * (lx * lx + ly * ly + lz * lz) + 1e-30);
        vx += scale * (ay * bz - az * by);
        vy += scale * (az * bx - ax * bz);
        vz += scale * (ax * by - ay * bx);
        ax = bx;
        ay = by;
        az = bz;
        a = b;
      }
      axial[offset + i * stride] += factor * vz;
      swirl[offset + i * stride] += factor * (vx * sin + vy * cos);
    }
  }
}
