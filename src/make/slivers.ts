import { isClosed, type Mesh } from './mesh.ts';

/**
 * Facets lower than this [mm] are taken away: ten times what 32-bit floats round at a few centimetres, so that the normal
 * which a reader works out from the corners is no longer left to chance.
 */
const LOWEST = 2e-5;

/**
 * Facets too low for 32-bit readers, taken away: corners nearer than that are joined, where the surface stays closed, and
 * long low facets flipped.
 */
export function withoutSlivers(mesh: Mesh): Mesh {
  return flipped(joined(mesh));
}

function joined(mesh: Mesh): Mesh {
  const { positions: p, indices } = mesh;
  const to = Uint32Array.from({ length: p.length / 3 }, (_, i) => i);
  let near = 0;
  for (let i = 0; i < indices.length; i++) {
    const [a, b] = [indices[i], indices[i % 3 === 2 ? i - 2 : i + 1]];
    // Each edge is met twice; no corner is moved after others were moved to it.
    if (a > b || to[a] !== a || to[b] !== b) continue;
    if (Math.abs(p[3 * a] - p[3 * b]) > LOWEST || Math.abs(p[3 * a + 1] - p[3 * b + 1]) > LOWEST) continue;
    if (Math.abs(p[3 * a + 2] - p[3 * b + 2]) > LOWEST) continue;
    to[b] = a;
    near++;
  }
  if (near === 0) return mesh;
  const final = (corner: number): number => (to[corner] === corner ? corner : final(to[corner]));
  const compact = new Int32Array(to.length).fill(-1);
  const positions: number[] = [];
  const place = (corner: number): number => {
    if (compact[corner] < 0) {
      compact[corner] = positions.length / 3;
      positions.push(p[3 * corner], p[3 * corner + 1], p[3 * corner + 2]);
    }
    return compact[corner];
  };
  const kept: number[] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [final(indices[i]), final(indices[i + 1]), final(indices[i + 2])];
    if (a !== b && b !== c && c !== a) kept.push(place(a), place(b), place(c));
  }
  const fewer = { positions: Float32Array.from(positions), indices: Uint32Array.from(kept) };
  return isClosed(fewer) ? fewer : mesh;
}

/**
 * A facet whose third corner lies on its longest side shares that side with a neighbour; the two are divided along the
 * other diagonal instead. No corner moves, and the surface by no more than the facet was high. Left alone where that
 * would help nothing or run two facets along one edge.
 */
function flipped({ positions: p, indices: given }: Mesh): Mesh {
  const indices = given.slice();
  const count = p.length / 3;
  const squared = (a: number, b: number) =>
    (p[3 * a] - p[3 * b]) ** 2 + (p[3 * a + 1] - p[3 * b + 1]) ** 2 + (p[3 * a + 2] - p[3 * b + 2]) ** 2;
  /** Twice the area over the longest side. */
  const heightOf = (a: number, b: number, c: number): number => {
    const [x, y, z] = [p[3 * a], p[3 * a + 1], p[3 * a + 2]];
    const [ux, uy, uz] = [p[3 * b] - x, p[3 * b + 1] - y, p[3 * b + 2] - z];
    const [vx, vy, vz] = [p[3 * c] - x, p[3 * c + 1] - y, p[3 * c + 2] - z];
    const area = Math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2);
    return area / Math.sqrt(Math.max(squared(a, b), squared(b, c), squared(c, a)));
  };
  const corners = (t: number): readonly number[] => [indices[t], indices[t + 1], indices[t + 2]];
  const low: number[] = [];
  for (let t = 0; t < indices.length; t += 3)
    if (heightOf(indices[t], indices[t + 1], indices[t + 2]) < LOWEST) low.push(t);
  if (low.length === 0) return { positions: p, indices: given };

  const edges = new Map<number, number>();
  const enter = (t: number) =>
    corners(t).forEach((from, k, all) => edges.set(from * count + all[(k + 1) % 3], t));
  for (let t = 0; t < indices.length; t += 3) enter(t);
  for (const t of low) {
    const own = corners(t);
    const height = heightOf(own[0], own[1], own[2]);
    if (height >= LOWEST) continue;
    const sides = own.map((corner, k) => squared(corner, own[(k + 1) % 3]));
    const longest = sides.indexOf(Math.max(...sides));
    const [a, b, c] = [0, 1, 2].map((k) => own[(longest + k) % 3]);
    const beside = edges.get(b * count + a);
    if (beside === undefined) continue;
    const d = corners(beside).find((corner) => corner !== a && corner !== b)!;
    if (edges.has(c * count + d) || edges.has(d * count + c)) continue;
    const pair = [
      [c, a, d],
      [d, b, c],
    ];
    if (Math.min(...pair.map(([i, j, k]) => heightOf(i, j, k))) <= height) continue;
    edges.delete(a * count + b);
    edges.delete(b * count + a);
    indices.set(pair[0], t);
    indices.set(pair[1], beside);
    enter(t);
    enter(beside);
  }
  return { positions: p, indices };
}
