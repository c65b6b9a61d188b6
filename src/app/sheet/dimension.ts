/** A dimension as it stands on the drawing, in pixels, and how dragging changes it. */
export interface Dimension {
  /** Path in the project; null where the number follows from others. */
  readonly path: string | null;
  readonly name: string;
  readonly text: string;
  readonly value: number;
  /** One press of an arrow key, and the grid of a drag. */
  readonly step: number;
  readonly at: { readonly x: number; readonly y: number; readonly upright?: boolean };
  readonly anchor: 'middle' | 'start' | 'end';
  /** The line with arrow heads at its ends, or with one at its start where it is a leader. */
  readonly line: string;
  readonly leader: boolean;
  readonly extension: string;
  readonly handle?: { readonly x: number; readonly y: number; readonly turn: 'across' | 'along' };
  /** The value after a move of `dz` downstream and `dr` outwards [m] from where the drag began. */
  readonly moved?: (dz: number, dr: number) => number;
}

/** A dimension with what most of them share left out. */
export type Draft = Omit<Dimension, 'leader' | 'extension' | 'anchor'> &
  Partial<Pick<Dimension, 'leader' | 'extension' | 'anchor'>>;

export const filled = (draft: Draft): Dimension => ({
  leader: false,
  extension: '',
  anchor: 'middle',
  ...draft,
});

/** A number on the drawing. */
export const write = (value: number, digits = 1) => value.toFixed(digits);
