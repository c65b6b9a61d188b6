import type { Design, Project } from '../../project/schema.ts';
import type { Quality } from '../../make/fineness.ts';
import type { FitCheck } from '../../make/interference.ts';
import type { PartKind } from '../../make/part.ts';

/** A part as the view needs it: its surface and how each piece of it stands in the fan. */
export interface ShownPart {
  readonly kind: PartKind;
  readonly name: string;
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
  readonly placements: readonly (readonly number[])[];
  readonly volume_m3: number;
}

/** A printable part without its surface. */
export interface PartFacts {
  readonly id: string;
  readonly name: string;
  readonly quantity: number;
  readonly volume_m3: number;
  readonly mass_g: number;
  readonly size_mm: readonly [number, number, number];
  readonly triangles: number;
}

export interface PartFile {
  readonly format: 'stl';
  readonly partId: string;
}

/** What could not be made, in plain sentences. */
export interface Refused {
  readonly ok: false;
  readonly why: readonly string[];
}

/** A whole craft as the view needs it: each surface once, and where its copies stand. */
export interface ShownCraft {
  readonly meshes: readonly { readonly positions: Float32Array; readonly indices: Uint32Array }[];
  readonly pieces: readonly {
    readonly mesh: number;
    readonly look: 'turns' | 'printed' | 'bought';
    readonly placement: readonly number[];
  }[];
  readonly centreOfMass_mm: readonly [x: number, y: number, z: number];
  readonly mass_g: number;
  readonly frameScrews: number;
}

export type Named = Design & { readonly name: string };

/** What the worker offers. A refused call leaves it ready for the next one. */
export interface SolidsWorker {
  shown(
    design: Design,
    quality: Quality,
  ): Promise<{ readonly ok: true; readonly parts: readonly ShownPart[] } | Refused>;
  parts(project: Named): Promise<{ readonly ok: true; readonly parts: readonly PartFacts[] } | Refused>;
  /** The craft put together; coarse, so that it comes at once. */
  assembled(project: Project): Promise<{ readonly ok: true; readonly craft: ShownCraft } | Refused>;
  /** How closely it fits, from the parts in full quality: takes seconds. */
  fit(project: Project): Promise<{ readonly ok: true; readonly fit: FitCheck } | Refused>;
  file(
    project: Named,
    wanted: PartFile,
  ): Promise<{ readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> } | Refused>;
  /** The coupon as STL. */
  coupon(): Promise<{ readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> } | Refused>;
  /** The 3MF files, one for each bed, named from `stem`. */
  beds(
    project: Project,
    stem: string,
  ): Promise<
    | {
        readonly ok: true;
        readonly files: readonly { readonly name: string; readonly bytes: Uint8Array<ArrayBuffer> }[];
      }
    | Refused
  >;
}
