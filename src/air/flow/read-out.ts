import type { Bodies } from './bodies.ts';
import type { DiscRing } from './disc.ts';
import { velocityAt, type FlowState } from './relax.ts';
import { pressureThrust, surfaceOf, type Surface } from './surface.ts';

/** Geometry with its factored system, and the disc in it. */
export interface SetUp {
  readonly bodies: Bodies;
  readonly rings: readonly DiscRing[];
  readonly hubRadius: number;
  readonly tipRadius: number;
  readonly discArea: number;
}

/** Speeds and pressures on duct and centre body. */
export function bodySurfaces(
  state: FlowState,
  { bodies, rings }: SetUp,
  discZ: number,
  pressureRise: number,
  freeStream: number,
  jetSpeed: number,
  density: number,
) {
  const { z, r, ductNodes } = bodies;
  const total = z.length;
  const build = (from: number, to: number, share: number, passed: (panel: number) => boolean) =>
    surfaceOf(
      z.slice(from, to),
      r.slice(from, to),
      state.speed.slice(from, to),
      Array.from({ length: to - from }, (_, i) => passed(Math.min(from + i, to - 2))),
      pressureRise * share,
      freeStream,
      jetSpeed,
      density,
    );
  const behind = (panel: number) => (z[panel] + z[panel + 1]) / 2 > discZ;
  let fore = 0;
  for (let i = 0; i < ductNodes; i++) if (z[i] < z[fore]) fore = i;
  return {
    duct: build(0, ductNodes, rings[rings.length - 1].share, (panel) => panel >= fore && behind(panel)),
    centreBody: total > ductNodes ? build(ductNodes, total, rings[0].share, behind) : null,
  };
}

/** Thrust of the duct's surface ahead of the disc's plane, outside and inside. */
export function lipThrust(duct: Surface, discZ: number, freeStream: number, density: number): number {
  const n = duct.z.length;
  let from = 0;
  while (from + 1 < n && (duct.z[from] + duct.z[from + 1]) / 2 > discZ) from++;
  let to = n - 1;
  while (to > from && (duct.z[to] + duct.z[to - 1]) / 2 > discZ) to--;
  return pressureThrust(duct, 0, freeStream, density, from, to);
}

/** Axial speed across the disc's plane, from the centre body (or the axis) to the wall. */
export function inflowProfile(
  field: Parameters<typeof velocityAt>[0],
  { hubRadius, tipRadius }: SetUp,
  discZ: number,
  places: number,
) {
  const radius = new Float64Array(places);
  const axial = new Float64Array(places);
  const out = new Float64Array(2);
  const inset = 0.004 * (tipRadius - hubRadius);
  for (let k = 0; k < places; k++) {
    radius[k] = hubRadius + ((tipRadius - hubRadius) * k) / (places - 1);
    // On a wall the field jumps; a hair inside stands for the wall itself.
    const held = Math.min(Math.max(radius[k], hubRadius > 0 ? hubRadius + inset : 0), tipRadius - inset);
    velocityAt(field, discZ, held, out);
    axial[k] = out[0];
  }
  let sum = 0;
  let area = 0;
  for (let k = 0; k + 1 < places; k++) {
    const ring = radius[k + 1] ** 2 - radius[k] ** 2;
    sum += (ring * (axial[k] + axial[k + 1])) / 2;
    area += ring;
  }
  const mean = sum / area;
  return { radius, axial, ratio: axial.map((value) => value / mean) };
}
