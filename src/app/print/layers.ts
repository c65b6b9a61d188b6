import type { Divisions } from '../../make/layers/divisions.ts';
import type { PrintSet } from '../../make/layers/set.ts';
import type { LayerPicture } from '../../make/layers/types.ts';
import type { Box } from '../../make/mesh.ts';
import type { Project } from '../../project/schema.ts';

export type LayersQuestion =
  | { readonly kind: 'set'; readonly project: Project }
  | { readonly kind: 'divisions'; readonly project: Project }
  /** A layer of a part of the set that was read last; `layer` counts from the bed. */
  | { readonly kind: 'picture'; readonly part: string; readonly layer: number }
  | { readonly kind: 'stop' };

/** What the worker says. After each but 'progress' it is ready for the next question. */
export type LayersAnswer =
  | { readonly kind: 'progress'; readonly done: number; readonly part: string }
  | { readonly kind: 'set'; readonly set: PrintSet; readonly boxes: Readonly<Record<string, Box>> }
  | { readonly kind: 'divisions'; readonly divisions: Divisions }
  | {
      readonly kind: 'picture';
      readonly part: string;
      readonly layer: number;
      readonly picture: LayerPicture | null;
    }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'refused'; readonly why: readonly string[] }
  | { readonly kind: 'failed' };
