import type { Placement, Rotation } from './kind.ts';
import { measure, moved, welded, type Mesh } from './mesh.ts';
import { withoutSlivers } from './slivers.ts';

/** `a` after `b`. */
export function combined(a: Placement, b: Placement): number[] {
  return Array.from({ length: 16 }, (_, i) => {
    const [row, column] = [i % 4, 4 * Math.floor(i / 4)];
    return [0, 1, 2, 3].reduce((sum, k) => sum + a[row + 4 * k] * b[column + k], 0);
  });
}

/** The turn by `angle` [rad] about z. */
export function turn(angle: number): Placement {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c, s, 0, 0, -s, c, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
}

/** The move by `x`, `y`, `z` [mm]. */
export const shift = (x: number, y: number, z: number): Placement => [
  ...[1, 0, 0, 0],
  ...[0, 1, 0, 0],
  ...[0, 0, 1, 0],
  ...[x, y, z, 1],
];

/** Turns a part onto the bed by the transpose of `lies` and lifts it until its lowest point is at 0; how it comes back. */
export function laidDown(mesh: Mesh, [u, v, w]: Rotation): { mesh: Mesh; placement: Placement } {
  const along = (axis: readonly number[], x: number, y: number, z: number) =>
    axis[0] * x + axis[1] * y + axis[2] * z;
  const turned = moved(mesh, (x, y, z) => [along(u, x, y, z), along(v, x, y, z), along(w, x, y, z)]);
  const bottom = measure(turned).box.min[2];
  // The move rounds anew, which may bring two corners to one place, or a third onto a side.
  const { positions, indices } = welded(moved(turned, (x, y, z) => [x, y, z - bottom]));
  return {
    mesh: withoutSlivers({ positions, indices }),
    placement: [...u, 0, ...v, 0, ...w, 0, ...w.map((part) => part * bottom), 1],
  };
}

/** The placement of the mirror image in y = 0 of a part, on the bed and where it stands: y turned over on both sides. */
export function mirroredPlacement(placement: Placement): number[] {
  return placement.map((value, i) => ((i % 4 === 1) !== (4 <= i && i < 8) && value !== 0 ? -value : value));
}
