import type { Placement } from './placement.ts';

/** Drag areas, drag over dynamic pressure [m2], met from the front, from the side and from above. */
export interface DragAreas {
  readonly front: number;
  readonly side: number;
  readonly above: number;
}

/**
 * Drag coefficients on the shadow: a short cylinder across the stream at Reynolds numbers below its crisis, length about
 * the diameter, 0.65; a cube face-on 1.05; a ring or plate face-on 1.15. Source: Hoerner, Fluid-Dynamic Drag, 1965, ch. 3
 * (from memory). Ducts are the most of a shadow from the side, boxes the rest: 0.75 stands for the mix.
 */
const SIDEWAYS = 0.75;
const FACE_ON = 1.15;

/**
 * Drag areas of a craft. Ducts behind others count in full, which is on the safe side by up to about a third; what the
 * mouths of the fans swallow is charged as momentum drag elsewhere.
 */
export function dragAreas({ shadow }: Placement): DragAreas {
  return { front: SIDEWAYS * shadow.front, side: SIDEWAYS * shadow.side, above: FACE_ON * shadow.above };
}
