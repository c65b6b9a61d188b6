import { path, text, type Mark, type Point } from './sheet.ts';

/** Arrow heads, text and the space around both [mm], in the proportions of ISO 129 (from memory). */
const ARROW = 3;
const SIZE = 2.8;
const BEYOND = 1.5;
const OFF = 1;

function arrow([x, y]: Point, [dx, dy]: Point): Mark {
  const half = ARROW / 6;
  return {
    kind: 'solid',
    points: [
      [x, y],
      [x - ARROW * dx + half * dy, y - ARROW * dy - half * dx],
      [x - ARROW * dx - half * dy, y - ARROW * dy + half * dx],
    ],
  };
}

/** An upright dimension line at `x` from `y1` down to `y2`, its extension lines from `from1` and `from2`. */
export function across(
  x: number,
  y1: number,
  y2: number,
  from1: number,
  from2: number,
  words: string,
): Mark[] {
  const toward = (from: number) => (x >= from ? 1 : -1);
  return [
    path('narrow', [
      [from1 + OFF * toward(from1), y1],
      [x + BEYOND * toward(from1), y1],
    ]),
    path('narrow', [
      [from2 + OFF * toward(from2), y2],
      [x + BEYOND * toward(from2), y2],
    ]),
    path('narrow', [
      [x, y1],
      [x, y2],
    ]),
    arrow([x, y1], [0, -1]),
    arrow([x, y2], [0, 1]),
    text([x - 1, (y1 + y2) / 2], words, SIZE, 'middle', true),
  ];
}

/** A level dimension line at `y` from `x1` to `x2`; arrows from outside where they would not fit between. */
export function along(
  y: number,
  x1: number,
  x2: number,
  from1: number,
  from2: number,
  words: string,
): Mark[] {
  const toward = (from: number) => (y >= from ? 1 : -1);
  const tight = x2 - x1 < 2.5 * ARROW;
  const out = 2 * ARROW;
  return [
    path('narrow', [
      [x1, from1 + OFF * toward(from1)],
      [x1, y + BEYOND * toward(from1)],
    ]),
    path('narrow', [
      [x2, from2 + OFF * toward(from2)],
      [x2, y + BEYOND * toward(from2)],
    ]),
    path(
      'narrow',
      tight
        ? [
            [x1 - out, y],
            [x2 + out, y],
          ]
        : [
            [x1, y],
            [x2, y],
          ],
    ),
    arrow([x1, y], [tight ? 1 : -1, 0]),
    arrow([x2, y], [tight ? -1 : 1, 0]),
    tight || x2 - x1 < words.length * SIZE * 0.6
      ? text([x2 + (tight ? out : 0) + 1, y - 0.8], words, SIZE)
      : text([(x1 + x2) / 2, y - 0.8], words, SIZE, 'middle'),
  ];
}

/** A note with a line to the place it is about, ending in an arrow there. */
export function leader(at: Point, elbow: Point, words: string): Mark[] {
  const length = Math.hypot(at[0] - elbow[0], at[1] - elbow[1]);
  const way = elbow[0] >= at[0] ? 1 : -1;
  const shelf = words.length * SIZE * 0.56 + 1;
  return [
    path('narrow', [at, elbow, [elbow[0] + way * shelf, elbow[1]]]),
    arrow(at, [(at[0] - elbow[0]) / length, (at[1] - elbow[1]) / length]),
    text([elbow[0] + way * 0.5, elbow[1] - 0.8], words, SIZE, way > 0 ? 'start' : 'end'),
  ];
}
