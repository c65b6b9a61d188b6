import type { Project } from '../../project/schema.ts';
import { path, text, widthOf, type Mark, type Point } from './sheet.ts';

/** Radius, chord, angle, thickness and height of the mean line, as written. */
export type TableRow = readonly [string, string, string, string, string];

const HEADS = ['radius', 'chord', 'angle °', 'thickness', 'camber'];
const COLUMN = 17;
const ROW = 4.2;

/** The blade at its stations, upper left corner at `at`. */
export function bladeTable([x, y]: Point, rows: readonly TableRow[]): Mark[] {
  const marks: Mark[] = [text([x, y - 0.6], 'Blade, mm', 2.5)];
  const top = y + 1;
  [HEADS, ...rows].forEach((row, i) => {
    const line = top + (i + 1) * ROW;
    row.forEach((cell, k) => marks.push(text([x + (k + 1) * COLUMN - 1.5, line - 1.1], cell, 2.2, 'end')));
    marks.push(
      path(i === 0 ? 'wide' : 'narrow', [
        [x, line],
        [x + HEADS.length * COLUMN, line],
      ]),
    );
  });
  return marks;
}

const WIDTH = 120;
const HEIGHT = 36;

/** The title block, its lower right corner at `at`. */
export function titleBlock([right, bottom]: Point, project: Project, scale: number, paper: string): Mark[] {
  const [left, top] = [right - WIDTH, bottom - HEIGHT];
  const { fan, material, printer } = project;
  const ratio = scale >= 1 ? `${scale} : 1` : `1 : ${Math.round(1 / scale)}`;
  const marks: Mark[] = [
    path('wide', [
      [left, bottom],
      [left, top],
      [right, top],
    ]),
    path('narrow', [
      [left, top + 14],
      [right, top + 14],
    ]),
    path('narrow', [
      [left, top + 25],
      [right, top + 25],
    ]),
    path('narrow', [
      [left + 72, top + 14],
      [left + 72, bottom],
    ]),
    path('narrow', [
      [left + 96, top + 14],
      [left + 96, bottom],
    ]),
  ];
  const cell = (x: number, y: number, label: string, value: string, room: number, size = 2.8) =>
    marks.push(
      text([x + 1.5, y + 3], label, 1.7),
      text([x + 1.5, y + 8.6], shortened(value, room - 3, size), size),
    );
  cell(left, top + 1.5, 'Title', project.name || 'unnamed', WIDTH, 4);
  const kind = fan.kind === 'ducted' ? 'Ducted fan' : 'Open rotor';
  cell(left, top + 14, 'Drawing', `${kind}, section and end view`, 72);
  cell(left + 72, top + 14, 'Scale', ratio, 24);
  cell(left + 96, top + 14, 'Units', 'mm', 24);
  cell(left, top + 25, 'Material, layer', `${material.name}, ${printer.layer_mm} mm`, 72);
  cell(left + 72, top + 25, 'Sheet', `${paper}, 1 of 1`, 24);
  cell(left + 96, top + 25, 'Drawn by', 'Fanwright', 24);
  return marks;
}

function shortened(words: string, room: number, size: number): string {
  if (widthOf(words, size * 1.1) <= room) return words;
  return words.slice(0, Math.floor(room / (size * 1.1 * 0.56)) - 1) + '…';
}
