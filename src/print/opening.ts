import type { Outline } from '../shape/section.ts';
import { probeOf, type Element, type Probe } from './element.ts';

/** Halvings of the place where the element stops fitting. */
const HALVINGS = 8;

/** A stretch of the outline the element can touch from within. Points and, at both ends, where the element then stands. */
interface Run {
  readonly x: number[];
  readonly y: number[];
  readonly start: readonly [number, number];
  end: readonly [number, number];
}

/**
 * What remains of a closed anticlockwise outline when it may only be filled by an element moved about inside it: the
 * opening of mathematical morphology (erode, then dilate; Serra, Image Analysis and Mathematical Morphology, 1982, ch. II).
 * The outline stands in the element's axes, in m. Pieces come largest first; none: the element fits nowhere.
 *
 * A point of the outline remains exactly where the element, set to touch it from within, meets no edge. Between two
 * stretches that remain the outline follows the rim of the element that touches both. Exact for the polygon but for a
 * depth of 0.4 % of the element, within which corners of smooth curves are let pass, and the facets of its round, 9 degrees each.
 */
export function opening(outline: Outline, element: Element): Outline[] {
  const probe = probeOf(element);
  const shape = scaled(outline, probe.scaleY);
  const runs = remainingRuns(shape, probe, 1.6 * Math.max(element.half, element.sweep * probe.scaleY));
  if (runs === 'all') return [outline];
  return joined(runs, probe)
    .map((piece) => scaled(piece, 1 / probe.scaleY))
    .sort((a, b) => areaOf(b) - areaOf(a));
}

const scaled = ({ x, y }: Outline, factor: number): Outline => ({
  x,
  y: factor === 1 ? y : y.map((v) => v * factor),
});

/** Area of a closed outline, positive anticlockwise. */
export function areaOf({ x, y }: Outline): number {
  let twice = 0;
  for (let i = x.length - 1, j = 0; j < x.length; i = j++) twice += x[i] * y[j] - x[j] * y[i];
  return twice / 2;
}

/** Edges to a box. */
const BOX = 5;

/** Least and largest x and y of every few edges, so that far ones need not be asked one by one. */
function boxesOf(x: Float64Array, y: Float64Array): Float64Array {
  const n = x.length;
  const boxes = new Float64Array(4 * Math.ceil(n / BOX));
  for (let box = 0; 4 * box < boxes.length; box++) {
    let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
    for (let k = box * BOX; k <= Math.min(n, (box + 1) * BOX); k++) {
      const i = k < n ? k : 0;
      left = Math.min(left, x[i]);
      right = Math.max(right, x[i]);
      low = Math.min(low, y[i]);
      high = Math.max(high, y[i]);
    }
    boxes[4 * box] = left;
    boxes[4 * box + 1] = right;
    boxes[4 * box + 2] = low;
    boxes[4 * box + 3] = high;
  }
  return boxes;
}

function remainingRuns({ x, y }: Outline, probe: Probe, step: number): Run[] | 'all' {
  const n = x.length;
  const at = new Float64Array(2);
  /** Sets `at` to where the element touches edge `i` at share `t` of it. */
  const place = (i: number, t: number) => {
    const j = i + 1 < n ? i + 1 : 0;
    const dx = x[j] - x[i];
    const dy = y[j] - y[i];
    probe.touch(dy, -dx, at);
    at[0] = x[i] + t * dx - at[0];
    at[1] = y[i] + t * dy - at[1];
  };
  const boxes = boxesOf(x, y);
  const { reachX, reachY, meets } = probe;
  const fits = (i: number, t: number): boolean => {
    place(i, t);
    const cx = at[0];
    const cy = at[1];
    for (let box = 0; box < boxes.length; box += 4) {
      if (boxes[box] > cx + reachX || boxes[box + 1] < cx - reachX) continue;
      if (boxes[box + 2] > cy + reachY || boxes[box + 3] < cy - reachY) continue;
      const from = (box / 4) * BOX;
      const to = Math.min(n, from + BOX);
      for (let a = from; a < to; a++) {
        const b = a + 1 < n ? a + 1 : 0;
        if (meets(cx, cy, x[a], y[a], x[b], y[b])) return false;
      }
    }
    return true;
  };
  const edges: number[] = [];
  const shares: number[] = [];
  for (let i = 0; i < n; i++) {
    const j = i + 1 < n ? i + 1 : 0;
    const pieces = Math.ceil(Math.hypot(x[j] - x[i], y[j] - y[i]) / step);
    for (let k = 0; k < pieces; k++) {
      edges.push(i);
      shares.push((k + 0.5) / pieces);
    }
  }
  const count = edges.length;
  const good = edges.map((i, k) => fits(i, shares[k]));
  if (!good.includes(true)) return [];
  if (!good.includes(false)) return 'all';
  /** Where on edge `i` the element last fits, from share `yes` toward `no`. */
  const last = (i: number, yes: number, no: number): number => {
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (yes + no) / 2;
      if (fits(i, middle)) yes = middle;
      else no = middle;
    }
    return yes;
  };
  const limit = (good: number, bad: number, forward: boolean): { edge: number; share: number } => {
    const corner = forward ? 1 : 0;
    if (edges[good] === edges[bad])
      return { edge: edges[good], share: last(edges[good], shares[good], shares[bad]) };
    if (!fits(edges[good], corner))
      return { edge: edges[good], share: last(edges[good], shares[good], corner) };
    if (!fits(edges[bad], 1 - corner)) return { edge: edges[good], share: corner };
    return { edge: edges[bad], share: last(edges[bad], 1 - corner, shares[bad]) };
  };
  const centre = ({ edge, share }: { edge: number; share: number }) => {
    place(edge, share);
    return [at[0], at[1]] as const;
  };
  const runs: Run[] = [];
  const first = good.findIndex((g, k) => g && !good[(k + count - 1) % count]);
  for (let s = 0; s < count; s++) {
    const k = (first + s) % count;
    if (!good[k]) continue;
    const before = (k + count - 1) % count;
    const after = (k + 1) % count;
    if (!good[before]) {
      const from = limit(k, before, false);
      runs.push({ x: [], y: [], start: centre(from), end: [0, 0] });
      push(runs[runs.length - 1], from);
      if (from.edge !== edges[k]) push(runs[runs.length - 1], { edge: edges[k], share: 0 });
    }
    const run = runs[runs.length - 1];
    if (good[after]) {
      if (edges[after] !== edges[k]) push(run, { edge: edges[after], share: 0 });
      continue;
    }
    const to = limit(k, after, true);
    if (to.edge !== edges[k]) push(run, { edge: to.edge, share: 0 });
    push(run, to);
    run.end = centre(to);
  }
  return runs;

  function push(run: Run, { edge, share }: { edge: number; share: number }): void {
    const j = edge + 1 < n ? edge + 1 : 0;
    run.x.push(x[edge] + share * (x[j] - x[edge]));
    run.y.push(y[edge] + share * (y[j] - y[edge]));
  }
}

/** Closes the runs: from the end of one the rim leads to the run that starts where the element then stands. */
function joined(runs: readonly Run[], probe: Probe): Outline[] {
  const free = new Set(runs.keys());
  const pieces: Outline[] = [];
  for (const seed of runs.keys()) {
    if (!free.has(seed)) continue;
    const x: number[] = [];
    const y: number[] = [];
    let current = seed;
    do {
      free.delete(current);
      const run = runs[current];
      for (const v of run.x) x.push(v);
      for (const v of run.y) y.push(v);
      const [cx, cy] = run.end;
      let next = seed;
      let nearest = Infinity;
      for (const k of [...free, seed]) {
        const distance = Math.hypot(runs[k].start[0] - cx, runs[k].start[1] - cy);
        if (distance < nearest) {
          nearest = distance;
          next = k;
        }
      }
      const to = runs[next];
      probe.rim(x[x.length - 1] - cx, y[y.length - 1] - cy, to.x[0] - cx, to.y[0] - cy, (rx, ry) => {
        x.push(cx + rx);
        y.push(cy + ry);
      });
      current = next;
    } while (current !== seed);
    const piece = { x: Float64Array.from(x), y: Float64Array.from(y) };
    if (x.length > 2 && areaOf(piece) > 0) pieces.push(piece);
  }
  return pieces;
}
