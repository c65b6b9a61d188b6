/** Where along the duct a point lies. */
export type DuctPlace = 'exit face' | 'outside' | 'lip' | 'inside';

/** One body's surface, node by node along the walk [m, m/s, Pa]. */
export interface Surface {
  readonly z: Float64Array;
  readonly r: Float64Array;
  /** Arc length from the start of the walk [m]. */
  readonly s: Float64Array;
  /** Speed along the walk, signed: on the duct positive from the outside round the lip and down the inside. */
  readonly speed: Float64Array;
  /** Static pressure above the surroundings [Pa]. */
  readonly pressure: Float64Array;
  /** The same on 1/2 rho V^2, V the greater of jet speed and flight speed. */
  readonly pressureCoefficient: Float64Array;
  /** True where the panel from this node on is washed by air that has passed the disc. */
  readonly passedDisc: readonly boolean[];
}

/** Pressures of a body from its surface speed: p = 1/2 rho (V_0^2 - q^2) + rise, the rise only behind the disc. */
export function surfaceOf(
  z: Float64Array,
  r: Float64Array,
  speed: Float64Array,
  passedDisc: readonly boolean[],
  rise: number,
  freeStream: number,
  jetSpeed: number,
  density: number,
): Surface {
  const n = z.length;
  const s = new Float64Array(n);
  for (let i = 1; i < n; i++) s[i] = s[i - 1] + Math.hypot(z[i] - z[i - 1], r[i] - r[i - 1]);
  const head = 0.5 * density * Math.max(Math.abs(jetSpeed), freeStream, 1e-12) ** 2;
  const pressure = Float64Array.from(
    speed,
    (q, i) => 0.5 * density * (freeStream ** 2 - q * q) + (passedDisc[i] ? rise : 0),
  );
  return { z, r, s, speed, pressure, passedDisc, pressureCoefficient: pressure.map((p) => p / head) };
}

/** A turn of the wall beyond this at one node is a corner [rad]. */
export const CORNER_TURN = 0.5;

/** Turn of the wall at node i [rad], 0 at the ends of the walk. */
export function turnAt(z: ArrayLike<number>, r: ArrayLike<number>, i: number): number {
  if (i <= 0 || i >= z.length - 1) return 0;
  const a = Math.atan2(r[i] - r[i - 1], z[i] - z[i - 1]);
  const b = Math.atan2(r[i + 1] - r[i], z[i + 1] - z[i]);
  const turn = Math.abs(b - a);
  return Math.min(turn, 2 * Math.PI - turn);
}

/**
 * Thrust [N] (upstream positive) of the pressure on panels `from` up to, without, `to`: 2 pi integral p r dr, exact for
 * linear speed along straight panels (two-point Gauss on a cubic). The walk keeps the air on its left looking along it
 * from the axis outward, so dr > 0 faces downstream.
 *
 * At a square lip the suction is a singularity of which the panels lose some per cent of the thrust. Putting the law of
 * flow round a corner, s^(-1/3), into the panels beside it was tried and made the sum far worse: the solved strengths at a
 * corner balance one another as they are.
 */
export function pressureThrust(
  surface: Surface,
  rise: number,
  freeStream: number,
  density: number,
  from = 0,
  to = surface.z.length - 1,
): number {
  const { r, speed, passedDisc } = surface;
  let sum = 0;
  for (let p = from; p < to; p++) {
    const dr = r[p + 1] - r[p];
    if (dr === 0) continue;
    for (const u of [0.21132486540518712, 0.7886751345948129]) {
      const q = speed[p] + u * (speed[p + 1] - speed[p]);
      const gauge = 0.5 * density * (freeStream ** 2 - q * q) + (passedDisc[p] ? rise : 0);
      sum += Math.PI * gauge * (r[p] + u * dr) * dr;
    }
  }
  return sum;
}

/** Places along a duct's walk: exit face up to its outer corner, outside up to the foremost point, lip to the throat, inside. */
export function ductPlaces(z: Float64Array, r: Float64Array): DuctPlace[] {
  const n = z.length;
  const exitZ = z[0];
  let fore = 0;
  for (let i = 0; i < n; i++) if (z[i] < z[fore]) fore = i;
  const size = exitZ - z[fore];
  let throat = fore;
  // The lip ends where the wall first runs within half a degree of the axis, or at its narrowest.
  for (let i = fore; i + 1 < n; i++) {
    throat = i;
    if (Math.abs(r[i + 1] - r[i]) < 0.01 * (z[i + 1] - z[i]) || r[i + 1] > r[i] + 1e-9 * size) break;
  }
  let face = 0;
  while (face + 1 < n && z[face + 1] > exitZ - 1e-6 * size) face++;
  return Array.from(z, (_, i) => {
    if (face > 0 && i <= face) return 'exit face';
    return i < fore ? 'outside' : i <= throat ? 'lip' : 'inside';
  });
}
