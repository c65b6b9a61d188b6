import type { Outline } from '../shape/section.ts';
import { elementOf } from './element.ts';
import { areaOf, opening } from './opening.ts';

/** How the printer lays a section down. SI. */
export interface Laying {
  readonly lineWidth: number;
  readonly layer: number;
  /** How much an outside grows on each side within a layer; negative: it comes out smaller. */
  readonly growth: number;
  /** Build direction in the section's own axes: x along the chord to the back, y to the suction side, z along the span. */
  readonly up: readonly [x: number, y: number, z: number];
}

/** What is measured of an outline, in the axes it stands in [m, rad]. */
export interface SectionMeasure {
  /** Ends of the outline along the drawn chord. */
  readonly front: number;
  readonly back: number;
  /** Chord from the middle of the front edge to the middle of the back edge. */
  readonly chord: number;
  /** Fall of that chord below the x axis toward the back: what it adds to the blade angle. */
  readonly turn: number;
  /** Largest thickness square to the mean line. */
  readonly thickness: number;
  /** Largest height of the mean line over the chord, negative where it bends down. */
  readonly camber: number;
  /** Thickness half of itself before the end: the blunt end's own width. */
  readonly edge: number;
  /** Half thickness a little behind the front, over the largest half thickness: how blunt the nose is. */
  readonly nose: number;
}

/** A section as drawn and as this printer makes it. */
export interface AsPrinted {
  readonly drawn: SectionMeasure;
  /** null: lost entirely */
  readonly printed: SectionMeasure | null;
  /** What comes out, in the section's axes [m]; null: lost entirely. */
  readonly outline: Outline | null;
  /** Pieces that come out beside the largest, which hold to nothing. */
  readonly loosePieces: number;
  /** Share of the drawn area that comes out. */
  readonly areaShare: number;
  /** Mean height of the steps of the layers on both faces [m]. */
  readonly steps: number;
}

/**
 * The section `outline` [m], nose at x = 0 and back edge at x = chord, as the printer lays it down: opened by its smallest
 * element as that looks along the span, then grown within the layers. The blade is taken as even along its span, so that
 * what is true of the section is true of the solid; taper and twist within one line width are left out.
 *
 * Layer steps: a face whose normal n makes an angle with the build direction u is stepped by layer |n . u| in depth; the
 * figure is the mean over the outline. Source: plane geometry.
 */
export function asPrintedSection(outline: Outline, laying: Laying): AsPrinted {
  const drawn = measureSection(outline);
  const [ux, uy, uz] = laying.up;
  const length = Math.hypot(ux, uy, uz) || 1;
  const inPlane = Math.hypot(ux, uy);
  const across = inPlane / length;
  // Bed axes within the section: second axis along the build direction as the section sees it.
  const [p, q] = inPlane > 1e-9 * length ? [ux / inPlane, uy / inPlane] : [0, 1];
  const element = elementOf(laying.lineWidth, laying.layer, uz / length);
  const pieces = opening(rotated(outline, q, -p, p, q), element);
  const steps = laying.layer * across * meanRise(outline, p, q);
  if (pieces.length === 0)
    return { drawn, printed: null, outline: null, loosePieces: 0, areaShare: 0, steps };
  const grown = grownWithinLayer(pieces[0], laying.growth, element.round);
  const back = rotated(grown, q, p, -p, q);
  return {
    drawn,
    printed: measureSection(back),
    outline: back,
    loosePieces: pieces.length - 1,
    areaShare: areaOf(back) / areaOf(outline),
    steps,
  };
}

function rotated({ x, y }: Outline, xx: number, xy: number, yx: number, yy: number): Outline {
  return { x: x.map((v, i) => xx * v + xy * y[i]), y: x.map((v, i) => yx * v + yy * y[i]) };
}

/** Mean over the outline of |n . u|, u = (p, q). */
function meanRise({ x, y }: Outline, p: number, q: number): number {
  let rise = 0;
  let perimeter = 0;
  for (let i = x.length - 1, j = 0; j < x.length; i = j++) {
    const dx = x[j] - x[i];
    const dy = y[j] - y[i];
    rise += Math.abs(dy * p - dx * q);
    perimeter += Math.sqrt(dx * dx + dy * dy);
  }
  return perimeter > 0 ? rise / perimeter : 0;
}

/** Two edges that turn by more than this cosine at a corner are moved apart there and joined straight. */
const SHARP = 0.9;

/** The outline moved outward by a round of radius `growth` lying in the layer: `round` is how much of its depth the section sees. */
function grownWithinLayer({ x, y }: Outline, growth: number, round: number): Outline {
  if (growth === 0) return { x, y };
  const n = x.length;
  const outX: number[] = [];
  const outY: number[] = [];
  const put = (j: number, nx: number, ny: number) => {
    const size = Math.sqrt(nx * nx + ny * ny * round * round);
    outX.push(x[j] + (size > 0 ? (growth * nx) / size : 0));
    outY.push(y[j] + (size > 0 ? (growth * ny * round * round) / size : 0));
  };
  for (let i = n - 1, j = 0; j < n; i = j++) {
    const k = j + 1 < n ? j + 1 : 0;
    const px = y[j] - y[i];
    const py = x[i] - x[j];
    const qx = y[k] - y[j];
    const qy = x[j] - x[k];
    // Without depth to see, what faces left and what faces right part at the top and the bottom, however gently it turns.
    const along = px * qx + py * round * (qy * round);
    const sizes = Math.sqrt((px * px + (py * round) ** 2) * (qx * qx + (qy * round) ** 2));
    if (px * qy - py * qx > 0 && along < SHARP * sizes) {
      put(j, px, py);
      put(j, qx, qy);
    } else put(j, px + qx, py + qy);
  }
  return { x: Float64Array.from(outX), y: Float64Array.from(outY) };
}

/** Cuts across the outline. */
const CUTS = 14;

/** Where the nose is measured, over the chord. */
const NOSE_AT = 0.0125;

/**
 * Measures an outline by cuts across x. It is meant for comparison: drawn and printed are measured alike, so that what
 * the measuring itself is off by cancels.
 */
export function measureSection(outline: Outline): SectionMeasure {
  let front = Infinity;
  let back = -Infinity;
  for (const v of outline.x) {
    if (v < front) front = v;
    if (v > back) back = v;
  }
  const span = back - front;
  const cut = (at: number) => cutAt(outline, at);
  let edge = 0.02 * span;
  for (let k = 0; k < 4; k++) edge = thickness(cut(back - Math.min(edge / 2, span / 4)));
  const means = new Float64Array(CUTS);
  let thickest = 0;
  for (let k = 1; k < CUTS; k++) {
    const here = cut(front + (span * k) / CUTS);
    means[k] = middle(here);
    const slope = k > 1 ? ((means[k] - means[k - 1]) * CUTS) / span : 0;
    thickest = Math.max(thickest, thickness(here) / Math.sqrt(1 + slope * slope));
  }
  // The mean line is taken up where the ends no longer tell: half a thickness in.
  const inset = Math.min(thickest / 2, span / 4);
  const nose = middle(cut(front + inset));
  const fall = nose - middle(cut(back - inset));
  const chord = Math.hypot(span, fall);
  let camber = 0;
  for (let k = 1; k < CUTS; k++) {
    const height = means[k] - (nose - (fall * k) / CUTS);
    if (Math.abs(height) > Math.abs(camber)) camber = height;
  }
  return {
    front,
    back,
    chord,
    turn: Math.atan2(fall, span),
    thickness: thickest,
    camber: (camber * span) / chord,
    edge,
    nose: thickest > 0 ? thickness(cut(front + NOSE_AT * span)) / thickest : 0,
  };
}

type Cut = readonly [low: number, high: number];
const thickness = ([low, high]: Cut): number => high - low;
const middle = ([low, high]: Cut): number => (low + high) / 2;

/** Lowest and highest point of the outline at `at`. */
function cutAt({ x, y }: Outline, at: number): Cut {
  let low = Infinity;
  let high = -Infinity;
  for (let i = x.length - 1, j = 0; j < x.length; i = j++) {
    const a = x[i] - at;
    const b = x[j] - at;
    if (a > 0 === b > 0) continue;
    const v = y[i] + ((y[j] - y[i]) * a) / (a - b);
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return low <= high ? [low, high] : [0, 0];
}
