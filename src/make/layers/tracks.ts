import type { Point } from './geometry.ts';
import type { FindingKind } from './types.ts';

/** One piece of one layer that something is wrong with. */
export interface Piece {
  readonly kind: FindingKind;
  readonly layer: number;
  readonly area: number;
  readonly width: number;
  readonly centre: Point;
  readonly min: Point;
  readonly max: Point;
  readonly radius: readonly [number, number] | null;
  readonly aerodynamic: boolean;
  /** Nothing is left of this piece at all. */
  readonly whole: boolean;
}

/** Pieces over one another in neighbouring layers. */
export interface Track {
  readonly kind: FindingKind;
  readonly from: number;
  to: number;
  /** Sum and largest over the layers. */
  total: number;
  most: number;
  width: number;
  centre: Point;
  min: Point;
  max: Point;
  radius: [number, number] | null;
  aerodynamic: boolean;
  /** Layers in which nothing was left. */
  wholeLayers: number;
}

/** Gathers the pieces of layer after layer: a piece goes on with what lies under it within `near` [mm]. */
export function tracker(near: number) {
  const done: Track[] = [];
  let open: Track[] = [];
  return {
    layer(index: number, found: readonly Piece[]): void {
      for (const piece of found) {
        const held = open.find((track) => track.kind === piece.kind && overlaps(track, piece, near));
        if (held) extend(held, piece);
        else open.push(begun(piece));
      }
      const still: Track[] = [];
      // A gap of one layer is bridged over.
      for (const track of open) (track.to >= index - 1 ? still : done).push(track);
      open = still;
    },
    all: (): Track[] => [...done, ...open].sort((a, b) => a.from - b.from || b.total - a.total),
  };
}

const overlaps = (track: Track, piece: Piece, near: number) =>
  [0, 1].every((i) => piece.min[i] <= track.max[i] + near && piece.max[i] >= track.min[i] - near);

function begun(piece: Piece): Track {
  const { kind, layer, area, width, centre, min, max, radius, aerodynamic, whole } = piece;
  return {
    kind,
    from: layer,
    to: layer,
    total: area,
    most: area,
    width,
    centre,
    min,
    max,
    radius: radius && [radius[0], radius[1]],
    aerodynamic,
    wholeLayers: whole ? 1 : 0,
  };
}

function extend(track: Track, piece: Piece): void {
  if (piece.area > track.most) track.centre = piece.centre;
  // What lies under the next layer decides; on one layer several pieces add up.
  const same = track.to === piece.layer;
  track.min = same ? lower(track.min, piece.min) : piece.min;
  track.max = same ? upper(track.max, piece.max) : piece.max;
  track.to = piece.layer;
  track.total += piece.area;
  track.most = Math.max(track.most, piece.area);
  track.width = Math.max(track.width, piece.width);
  track.aerodynamic ||= piece.aerodynamic;
  if (piece.whole && !(same && track.wholeLayers > 0)) track.wholeLayers++;
  if (track.radius && piece.radius)
    track.radius = [Math.min(track.radius[0], piece.radius[0]), Math.max(track.radius[1], piece.radius[1])];
}

const lower = (a: Point, b: Point): Point => [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
const upper = (a: Point, b: Point): Point => [Math.max(a[0], b[0]), Math.max(a[1], b[1])];
