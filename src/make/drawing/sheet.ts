export type Point = readonly [x: number, y: number];

/**
 * Line kinds after ISO 128 (from memory): visible edges wide, everything else half as wide; centre lines long dash and dot;
 * what is hidden or shown for reference in short dashes.
 */
export type Line = 'wide' | 'narrow' | 'centre' | 'dashed' | 'hatch';

/** Widths [mm] and dashes [mm] of the line kinds. */
export const LINES: Readonly<Record<Line, { readonly width: number; readonly dash: readonly number[] }>> = {
  wide: { width: 0.5, dash: [] },
  narrow: { width: 0.25, dash: [] },
  centre: { width: 0.25, dash: [6, 1, 0.5, 1] },
  dashed: { width: 0.25, dash: [2, 1] },
  hatch: { width: 0.18, dash: [] },
};

export type Mark =
  | {
      readonly kind: 'path';
      readonly points: readonly Point[];
      readonly closed: boolean;
      readonly line: Line;
    }
  | { readonly kind: 'solid'; readonly points: readonly Point[] }
  | {
      readonly kind: 'text';
      readonly at: Point;
      readonly text: string;
      /** Height of the capitals' box [mm] */
      readonly size: number;
      readonly anchor: 'start' | 'middle' | 'end';
      /** Reads upwards. */
      readonly upright: boolean;
    };

/** A sheet of paper [mm]: x to the right, y down from the upper left corner. Plain data, for any writer. */
export interface Sheet {
  readonly title: string;
  readonly paper: 'A4' | 'A3';
  readonly width_mm: number;
  readonly height_mm: number;
  readonly marks: readonly Mark[];
}

export const path = (line: Line, points: readonly Point[], closed = false): Mark => ({
  kind: 'path',
  points,
  closed,
  line,
});

export const text = (
  at: Point,
  words: string,
  size = 2.5,
  anchor: 'start' | 'middle' | 'end' = 'start',
  upright = false,
): Mark => ({ kind: 'text', at, text: words, size, anchor, upright });

export function circle(line: Line, [x, y]: Point, radius: number): Mark {
  const points = Array.from({ length: 120 }, (_, i): Point => {
    const a = (2 * Math.PI * i) / 120;
    return [x + radius * Math.cos(a), y + radius * Math.sin(a)];
  });
  return path(line, points, true);
}

/** Width of a line of Helvetica [mm], near enough to leave room for it. */
export const widthOf = (words: string, size: number): number => words.length * size * 0.56;
