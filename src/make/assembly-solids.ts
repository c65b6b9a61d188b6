import type { Mesh } from './mesh.ts';

/** Corners of the circle of a drawn cylinder. */
const CORNERS = 64;

/** A box about the origin, edges along x, y and z [mm]. */
export function boxMesh(length: number, width: number, height: number): Mesh {
  const corner = (i: number): number[] => [
    (i & 1 ? length : -length) / 2,
    (i & 2 ? width : -width) / 2,
    (i & 4 ? height : -height) / 2,
  ];
  return {
    positions: Float32Array.from([0, 1, 2, 3, 4, 5, 6, 7].flatMap(corner)),
    indices: Uint32Array.from([
      ...[0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6],
      ...[0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7],
      ...[0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5],
    ]),
  };
}

/** A cylinder about z from 0 up to `height` [mm]; its flats lie outside the circle of `radius`, so it never looks too small. */
export function cylinderMesh(radius: number, height: number): Mesh {
  const outer = radius / Math.cos(Math.PI / CORNERS);
  const positions = [0, 0, 0, 0, 0, height];
  const indices: number[] = [];
  for (let i = 0; i < CORNERS; i++) {
    const a = (2 * Math.PI * i) / CORNERS;
    const [x, y] = [outer * Math.cos(a), outer * Math.sin(a)];
    positions.push(x, y, 0, x, y, height);
    const [low, next] = [2 + 2 * i, 2 + 2 * ((i + 1) % CORNERS)];
    indices.push(0, next, low, 1, low + 1, next + 1);
    indices.push(low, next, low + 1, next, next + 1, low + 1);
  }
  return { positions: Float32Array.from(positions), indices: Uint32Array.from(indices) };
}
