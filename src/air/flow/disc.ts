import type { Nodes } from './spacing.ts';

/** One ring of the disc: its radii [m] and the total pressure that it adds, as a share of the disc's mean. */
export interface DiscRing {
  readonly inner: number;
  readonly outer: number;
  readonly share: number;
}

/** Rings of equal width from hub to tip with the given relative loading, scaled so that the area mean is 1. */
export function discRings(hubRadius: number, tipRadius: number, loading: readonly number[]): DiscRing[] {
  const edge = (k: number) => hubRadius + ((tipRadius - hubRadius) * k) / loading.length;
  const area = (k: number) => edge(k + 1) ** 2 - edge(k) ** 2;
  const mean =
    loading.reduce((sum, value, k) => sum + value * area(k), 0) / (tipRadius ** 2 - hubRadius ** 2);
  if (!(mean > 0)) throw new Error('the loading of the disc must add up to a rise in pressure');
  return loading.map((value, k) => ({ inner: edge(k), outer: edge(k + 1), share: value / mean }));
}

/**
 * Radius [m] at which the disc's plane meets a body, 0 where it does not, and the body's nodes with the nearest one put
 * there, so that the step of pressure falls between panels. On a duct the crossing of the inside wall (the last one).
 */
export function meetDisc(nodes: Nodes, discZ: number): { radius: number; nodes: Nodes } {
  const z = Float64Array.from(nodes.z);
  const r = Float64Array.from(nodes.r);
  for (let i = z.length - 2; i >= 0; i--) {
    if ((z[i] - discZ) * (z[i + 1] - discZ) > 0 || z[i] === z[i + 1]) continue;
    const u = (discZ - z[i]) / (z[i + 1] - z[i]);
    const radius = r[i] + u * (r[i + 1] - r[i]);
    if (!(radius > 0)) continue;
    const near = u < 0.5 ? i : i + 1;
    // A corner keeps its place: only a node in line with its neighbours is moved.
    if (near > 0 && near + 1 < z.length && inLine(nodes, near)) {
      z[near] = discZ;
      r[near] = radius;
    }
    return { radius, nodes: { z, r } };
  }
  return { radius: 0, nodes };
}

function inLine({ z, r }: Nodes, i: number): boolean {
  const a = Math.atan2(r[i] - r[i - 1], z[i] - z[i - 1]);
  const b = Math.atan2(r[i + 1] - r[i], z[i + 1] - z[i]);
  return Math.abs(Math.sin(a - b)) < 0.1;
}
