import type { Mesh } from '../mesh.ts';
import type { AirFace } from './aerodynamic.ts';
import type { Point } from './geometry.ts';
import type { Span } from './span.ts';

/** A part as it lies on the bed, and how its places belong to the fan. */
export interface CheckedPart extends Mesh {
  readonly name: string;
  /** Which faces the air works on, asked on the bed. */
  readonly airFace: AirFace;
  /** How the part stands to the fan's axis; null where a distance from it says nothing. */
  readonly span: Span | null;
}

/** What a layer check may find. */
export type FindingKind = 'lost' | 'island' | 'overhang' | 'bridge' | 'slender' | 'contact' | 'bed';

/** One thing found, over the layers it runs through. Heights above the bed [mm]. */
export interface Finding {
  readonly kind: FindingKind;
  readonly from_mm: number;
  readonly to_mm: number;
  /** Middle of it on the bed [mm]. */
  readonly at_mm: Point;
  /** Seen from above [mm2]: of lost material the most in one layer, of a ceiling the ground it covers. */
  readonly area_mm2: number;
  /** Widest free width of a ceiling, or the reach of a lost edge [mm]; 0 where it has no meaning. */
  readonly width_mm: number;
  /** Distance from the axis of the fan [mm], nearest and farthest; null for a part that does not turn about it. */
  readonly radius_mm: readonly [number, number] | null;
  /** Whether it lies on a face the air works on. */
  readonly aerodynamic: boolean;
  /** How hard it weighs: `stop` will not print, `care` costs shape or strength, `note` good to know. */
  readonly weight: 'stop' | 'care' | 'note';
  readonly text: string;
}

/** One layer in figures. */
export interface LayerFacts {
  /** Height of its middle above the bed [mm]. */
  readonly z_mm: number;
  readonly area_mm2: number;
  readonly perimeter_mm: number;
  /** Outlines less holes. */
  readonly bodies: number;
  /** What is narrower than a line [mm2]. */
  readonly lost_mm2: number;
  /** What hangs farther over the layer below than a lean at the limit would [mm2]. */
  readonly unsupported_mm2: number;
}

/** A part read layer by layer, as it lies. */
export interface LayerCheck {
  readonly layer_mm: number;
  readonly layers: readonly LayerFacts[];
  /** Layer areas times layer height [mm3]. */
  readonly volume_mm3: number;
  /** Ground that the first layer covers [mm2]. */
  readonly contact_mm2: number;
  /** Faces that lean past the limit, measured on the solid [mm2]. */
  readonly overhang_mm2: number;
  /** Of these, on faces the air works on [mm2]. */
  readonly overhangAerodynamic_mm2: number;
  readonly findings: readonly Finding[];
}

/** One layer to look at: closed outlines [mm]. */
export interface LayerPicture {
  readonly z_mm: number;
  readonly outline: readonly Outline2[];
  readonly lost: readonly Outline2[];
  readonly unsupported: readonly Outline2[];
}

export type Outline2 = readonly Point[];
