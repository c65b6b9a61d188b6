import type { Kernel, Solid } from './kernel.ts';

/** A closed surface: three coordinates [mm] a vertex, three vertices a triangle, anticlockwise from outside. */
export interface Mesh {
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

export interface Box {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

/**
 * Facets that stand off the surface by less than this [mm] are joined with their neighbours: a twentieth of the finest
 * facet error, and far above what 32-bit floats round. Joining solids leaves slivers that no printer resolves.
 */
const SLIVER = 1e-3;

/** Takes a solid's surface out of the kernel; a little coarser where two corners would fall on one place. */
export function meshOf(solid: Solid): Mesh {
  let mesh = surfaceOf(solid, SLIVER);
  for (const coarser of [2, 5]) if (mesh.touching) mesh = surfaceOf(solid, coarser * SLIVER);
  return { positions: mesh.positions, indices: mesh.indices };
}

function surfaceOf(solid: Solid, sliver: number): Mesh & { readonly touching: boolean } {
  // As a solid of its own it forgets where its facets came from, which would keep each where it is.
  const own = solid.asOriginal();
  const cleaned = own.simplify(sliver);
  own.delete();
  const mesh = cleaned.getMesh();
  cleaned.delete();
  const count = mesh.numVert;
  const merged = Uint32Array.from({ length: count }, (_, i) => i);
  mesh.mergeFromVert?.forEach((from, i) => (merged[from] = mesh.mergeToVert[i]));
  const compact = new Int32Array(count).fill(-1);
  const positions: number[] = [];
  const indices = mesh.triVerts.map((vertex) => {
    const to = merged[vertex];
    if (compact[to] < 0) {
      compact[to] = positions.length / 3;
      const at = to * mesh.numProp;
      positions.push(mesh.vertProperties[at], mesh.vertProperties[at + 1], mesh.vertProperties[at + 2]);
    }
    return compact[to];
  });
  return welded({ positions: Float32Array.from(positions), indices: Uint32Array.from(indices) });
}

/** Whether each edge is run along exactly once in each direction. */
export function isClosed({ positions, indices }: Mesh): boolean {
  const count = positions.length / 3;
  const edges = new Set<number>();
  for (let i = 0; i < indices.length; i++) {
    const to = i % 3 === 2 ? i - 2 : i + 1;
    edges.add(indices[i] * count + indices[to]);
  }
  if (edges.size !== indices.length) return false;
  for (const edge of edges) if (!edges.has((edge % count) * count + Math.floor(edge / count))) return false;
  return true;
}

/**
 * Makes corners at one place one corner, and drops the triangles this closes up, so that readers which go by place see
 * what the indices say. Left alone where the surface would not stay closed.
 */
export function welded(mesh: Mesh): Mesh & { readonly touching: boolean } {
  const { positions: p, indices } = mesh;
  const first = new Map<string, number>();
  const positions: number[] = [];
  const to = new Uint32Array(p.length / 3);
  for (let i = 0; i < to.length; i++) {
    const place = `${p[3 * i]} ${p[3 * i + 1]} ${p[3 * i + 2]}`;
    const held = first.get(place);
    to[i] = held ?? positions.length / 3;
    if (held !== undefined) continue;
    first.set(place, to[i]);
    positions.push(p[3 * i], p[3 * i + 1], p[3 * i + 2]);
  }
  if (positions.length === p.length) return { ...mesh, touching: false };
  const kept: number[] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [to[indices[i]], to[indices[i + 1]], to[indices[i + 2]]];
    if (a !== b && b !== c && c !== a) kept.push(a, b, c);
  }
  const fewer = { positions: Float32Array.from(positions), indices: Uint32Array.from(kept) };
  return isClosed(fewer) ? { ...fewer, touching: false } : { ...mesh, touching: true };
}

/** Puts a surface into the kernel; the caller frees the solid. */
export function solidOf(kernel: Kernel, mesh: Mesh): Solid {
  return new kernel.Manifold(
    new kernel.Mesh({ numProp: 3, vertProperties: mesh.positions, triVerts: mesh.indices }),
  );
}

/** Each vertex through `move`; the triangles stay. */
export function moved(
  mesh: Mesh,
  move: (x: number, y: number, z: number) => readonly [number, number, number],
): Mesh {
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(move(mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]), i);
  return { positions, indices: mesh.indices };
}

/** The mirror image in the plane y = 0, its triangles turned round so that they still face outward. */
export function mirrored(mesh: Mesh): Mesh {
  const positions = mesh.positions.slice();
  for (let i = 1; i < positions.length; i += 3) positions[i] = -positions[i];
  const indices = mesh.indices.slice();
  for (let i = 0; i < indices.length; i += 3) {
    indices[i + 1] = mesh.indices[i + 2];
    indices[i + 2] = mesh.indices[i + 1];
  }
  return { positions, indices };
}

/**
 * Volume [mm3] by the divergence theorem (positive: faces outward), area [mm2] and box [mm] of a closed surface.
 */
export function measure({ positions: p, indices }: Mesh) {
  let volume = 0;
  let area = 0;
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i++) {
    const axis = i % 3;
    if (p[i] < min[axis]) min[axis] = p[i];
    if (p[i] > max[axis]) max[axis] = p[i];
  }
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i];
    const b = 3 * indices[i + 1];
    const c = 3 * indices[i + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a];
    const vy = p[c + 1] - p[a + 1];
    const vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    area += Math.hypot(nx, ny, nz) / 2;
    volume += (p[a] * nx + p[a + 1] * ny + p[a + 2] * nz) / 6;
  }
  return { volume, area, box: { min, max } satisfies Box };
}
