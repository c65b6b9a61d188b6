import type { Contour } from './recipe.ts';

type Point = readonly [number, number];

/** A piece of a contour [mm]. */
export type Piece =
  | { readonly kind: 'line'; readonly from: Point; readonly to: Point }
  | { readonly kind: 'arc'; readonly from: Point; readonly over: Point; readonly to: Point }
  | { readonly kind: 'curve'; readonly points: readonly Point[] }
  | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number };

/** How far points may lie off a circle to be taken for points of it [mm]. */
const ON_CIRCLE = 2e-4;

/** Points where a contour turns by less than this are no points of its shape [rad]. */
const STRAIGHT = 1e-6;

/** Corners sharper than these stay corners: between pieces of an arc, and of another curve [rad]. */
const ARC_CORNER = 0.9;
const CURVE_CORNER = 0.26;

/** A curve ends where one of its pieces is this many times as long as the one before, or the other way. */
const UNEVEN = 1.8;

/** Arcs that turn less than this are drawn as a curve through their points [rad]. */
const LEAST_ARC = 0.6;

/** A closed contour all on one circle is that circle from this many points on: six or eight are a nut or a plate. */
const CIRCLE_POINTS = 16;

/**
 * Finds the lines, arcs and curves that a contour of straight pieces stands for. The outlines this program draws put
 * their points exactly on the curves they follow, so each recognised piece passes through all of its points.
 */
export function traced(contour: Contour): Piece[] {
  const apart = contour.filter((p, i) => !same(p, contour[(i + 1) % contour.length]));
  const turns = apart.map((_, i) => turnAt(apart, i));
  const points = apart.filter((_, i) => {
    if (Math.abs(turns[i]) > STRAIGHT) return true;
    // Where a curve changes its bend it may run straight through a point of its own.
    const [before, after] = [turns.at(i - 1)!, turns[(i + 1) % turns.length]];
    return before * after < 0 && Math.max(Math.abs(before), Math.abs(after)) < CURVE_CORNER;
  });
  const whole = points.length >= CIRCLE_POINTS ? circleThrough(points, 0, points.length - 1, true) : null;
  if (whole) return [{ kind: 'circle', ...whole }];
  const n = points.length;
  let start = 0;
  for (let i = 1; i < n; i++) if (Math.abs(turnAt(points, i)) > Math.abs(turnAt(points, start))) start = i;
  const run = Array.from({ length: n + 1 }, (_, i) => points[(start + i) % n]);
  const pieces: Piece[] = [];
  let i = 0;
  while (i < n) {
    const arc = arcEnd(run, i);
    if (arc > i) {
      pieces.push({ kind: 'arc', from: run[i], over: run[(i + arc) >> 1], to: run[arc] });
      i = arc;
      continue;
    }
    const end = curveEnd(run, i);
    if (end - i >= 4) pieces.push({ kind: 'curve', points: run.slice(i, end + 1) });
    else for (let k = i; k < end; k++) pieces.push({ kind: 'line', from: run[k], to: run[k + 1] });
    i = end;
  }
  return pieces;
}

const same = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-7;
const gap = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Turn from the piece before point `i` of a closed contour to the one after it [rad]. */
function turnAt(points: readonly Point[], i: number): number {
  const n = points.length;
  return turn(points[(i + n - 1) % n], points[i], points[(i + 1) % n]);
}

function turn(a: Point, b: Point, c: Point): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** Where the arc that begins at `from` ends; `from` where none does. */
function arcEnd(run: readonly Point[], from: number): number {
  let total = 0;
  let end = from + 1;
  while (end + 1 < run.length) {
    const by = turn(run[end - 1], run[end], run[end + 1]);
    const ratio = gap(run[end], run[end + 1]) / gap(run[end - 1], run[end]);
    if (Math.abs(by) > ARC_CORNER || Math.abs(by) < 1e-4 || by * total < 0 || Math.abs(ratio - 1) > 0.02)
      break;
    if (end - from >= 2 && !circleThrough(run, from, end + 1, false)) break;
    total += by;
    end++;
  }
  return end - from >= 3 && Math.abs(total) >= LEAST_ARC ? end : from;
}

/** Where the smooth run that begins at `from` ends: at a corner, a sudden change of spacing, or where an arc begins. */
function curveEnd(run: readonly Point[], from: number): number {
  let end = from + 1;
  while (end + 1 < run.length) {
    const ratio = gap(run[end], run[end + 1]) / gap(run[end - 1], run[end]);
    const sharp = Math.abs(turn(run[end - 1], run[end], run[end + 1])) > CURVE_CORNER;
    if (sharp || ratio > UNEVEN || ratio < 1 / UNEVEN || arcEnd(run, end) > end) break;
    end++;
  }
  return end;
}

/** The circle through three of the points, if all of them (from, to] lie on it. */
function circleThrough(points: readonly Point[], from: number, to: number, closed: boolean) {
  const count = to - from;
  const [a, b, c] = closed
    ? [points[from], points[from + Math.floor(count / 3)], points[from + Math.floor((2 * count) / 3)]]
    : [points[from], points[(from + to) >> 1], points[to]];
  const [bx, by, cx, cy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
  const twice = 2 * (bx * cy - by * cx);
  if (Math.abs(twice) < 1e-12) return null;
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  const [x, y] = [(cy * bb - by * cc) / twice, (bx * cc - cx * bb) / twice];
  const radius = Math.hypot(x, y);
  const centre: Point = [a[0] + x, a[1] + y];
  for (let i = from; i <= to; i++) if (Math.abs(gap(points[i], centre) - radius) > ON_CIRCLE) return null;
  return { centre, radius };
}
