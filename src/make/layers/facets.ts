import type { Mesh } from '../mesh.ts';

/** One facet of a part on the bed: middle [mm], outward unit normal, area [mm2]. */
export interface Facet {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  readonly area: number;
  /** Its highest corner [mm]. */
  readonly top: number;
}

/** Calls `each` with every facet; the object is used again, so read it at once. */
export function eachFacet({ positions: p, indices }: Mesh, each: (facet: Facet) => void): void {
  const facet = { x: 0, y: 0, z: 0, nx: 0, ny: 0, nz: 0, area: 0, top: 0 };
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [3 * indices[i], 3 * indices[i + 1], 3 * indices[i + 2]];
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const twice = Math.hypot(nx, ny, nz);
    if (twice === 0) continue;
    facet.x = (p[a] + p[b] + p[c]) / 3;
    facet.y = (p[a + 1] + p[b + 1] + p[c + 1]) / 3;
    facet.z = (p[a + 2] + p[b + 2] + p[c + 2]) / 3;
    facet.nx = nx / twice;
    facet.ny = ny / twice;
    facet.nz = nz / twice;
    facet.area = twice / 2;
    facet.top = Math.max(p[a + 2], p[b + 2], p[c + 2]);
    each(facet);
  }
}

/**
 * Area of faces that lean past `limit` from the vertical [mm2], what rests on the bed left out: a face leaning by phi has
 * the normal n_z = -sin(phi). `within` chooses the facets that count.
 */
export function overhangArea(
  mesh: Mesh,
  limit_deg: number,
  layer_mm: number,
  within: (facet: Facet) => boolean = () => true,
): number {
  const bound = -Math.sin((Math.min(limit_deg, 89.999) * Math.PI) / 180) - 1e-9;
  let sum = 0;
  eachFacet(mesh, (facet) => {
    if (facet.nz < bound && facet.top > layer_mm / 2 && within(facet)) sum += facet.area;
  });
  return sum;
}
