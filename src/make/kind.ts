import type { Design, PART_KINDS } from '../project/schema.ts';
import type { Quality } from './fineness.ts';
import type { Kernel } from './kernel.ts';
import type { Mesh } from './mesh.ts';

export type PartKind = (typeof PART_KINDS)[number];

/** A 4 by 4 transform, column after column, for lengths in mm. */
export type Placement = readonly number[];

/** A rotation as three columns: where the bed's x, y and z point in the frame the part is drawn in. */
export type Rotation = readonly [
  readonly [number, number, number],
  readonly [number, number, number],
  readonly [number, number, number],
];

/** The part stands on the bed as it stands in the fan, z downstream being up. */
export const UPRIGHT: Rotation = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The part is turned over about x: what faces downstream lies on the bed. */
export const TURNED_OVER: Rotation = [
  [1, 0, 0],
  [0, -1, 0],
  [0, 0, -1],
];

/** Everything `make` has to know of one kind of part. */
export interface Kind {
  readonly kind: PartKind;
  /** Fit for a file name. */
  readonly id: string;
  readonly name: string;
  /** Whether `quantity` counts pieces of one fan, or of the whole craft. */
  readonly per: 'fan' | 'craft';
  /** Whether this design has the part at all. */
  readonly present: (design: Design) => boolean;
  readonly quantity: (design: Design) => number;
  /** Whether right-hand and left-hand fans need mirrored pieces. */
  readonly handed: (design: Design) => boolean;
  /**
   * The right-hand piece [mm]: of a fan in the frame of its layout (z downstream, 0 where the lip meets the bore), of a
   * craft in that of the craft.
   */
  readonly mesh: (kernel: Kernel, design: Design, quality: Quality) => Mesh;
  /** How it usually lies on the bed; `fan.lies` may lay it otherwise. */
  readonly lies: (design: Design) => Rotation;
  /**
   * Where each piece stands, as moves of what `mesh` draws within its frame. Left out: evenly round the axis, the first
   * as drawn.
   */
  readonly stands?: (design: Design) => readonly Placement[];
  /** The same volume without a solid [m3], within 1 %; what the mass build-up reads. */
  readonly closedVolume: (design: Design) => number;
}
