import type { Rotation } from '../kind.ts';
import type { Mesh } from '../mesh.ts';
import { measure, moved } from '../mesh.ts';
import { combined } from '../placement.ts';

/** A direction in the frame of a part. */
export type Direction = readonly [number, number, number];

/** Rotation, row after row, that brings `down` (unit) to (0, 0, -1) by the shortest way. */
export function turnDown([x, y, z]: Direction): readonly number[] {
  // Rodrigues with axis down x (0, 0, -1) = (-y, x, 0); where down points up, half a turn about x.
  const c = -z;
  if (c < -0.999999) return [1, 0, 0, 0, -1, 0, 0, 0, -1];
  const k = 1 / (1 + c);
  return [1 - x * x * k, -x * y * k, x, -x * y * k, 1 - y * y * k, y, -x, -y, c];
}

/** The same as a rotation of a kind of part: `down` in the frame the part is drawn in. */
export function rotationTo(down: Direction): Rotation {
  const r = turnDown(down);
  return [
    [r[0], r[1], r[2]],
    [r[3], r[4], r[5]],
    [r[6], r[7], r[8]],
  ];
}

/** A direction on the bed in the frame the part is drawn in, by its placement (4 by 4, column after column). */
export const fromBed = (m: readonly number[], [x, y, z]: Direction): Direction => [
  m[0] * x + m[4] * y + m[8] * z,
  m[1] * x + m[5] * y + m[9] * z,
  m[2] * x + m[6] * y + m[10] * z,
];

/** A part turned so that `down` faces the bed and its lowest point rests on it; `placement` goes on leading to the fan. */
export function laid<P extends Mesh & { readonly placement: readonly number[] }>(
  part: P,
  down: Direction,
): Mesh & { readonly placement: readonly number[] } {
  const r = turnDown(down);
  const turnedMesh = moved(part, (x, y, z) => [
    r[0] * x + r[1] * y + r[2] * z,
    r[3] * x + r[4] * y + r[5] * z,
    r[6] * x + r[7] * y + r[8] * z,
  ]);
  const bottom = measure(turnedMesh).box.min[2];
  const mesh = moved(turnedMesh, (x, y, z) => [x, y, z - bottom]);
  const m = part.placement;
  // Back by the inverse (transposed) rotation after lifting by `bottom`, then the part's own way into the fan.
  const back = [r[0], r[1], r[2], 0, r[3], r[4], r[5], 0, r[6], r[7], r[8], 0].concat([
    r[6] * bottom,
    r[7] * bottom,
    r[8] * bottom,
    1,
  ]);
  return { ...mesh, placement: combined(m, back) };
}
