import { evaluateCubic, shapeKeepingCubic } from '../numerics/interpolate.ts';
import type { BladeStation, Fan } from '../project/schema.ts';
import { degreesFromRadians, metresFromMillimetres, millimetresFromMetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from '../shape/blade.ts';
import { halfDepth } from '../shape/root.ts';
import { largestChord, leastChord, thicknessFor, type BladePlace } from './design-section.ts';
import type { RotorAir } from './rotor.ts';

/** Places of the stations along the span: closer where chord and angle turn fastest. */
export const STATION_SPANS: readonly number[] = [0, 0.1, 0.22, 0.37, 0.54, 0.72, 0.87, 1];

/** Steps to which stations are rounded. */
export const CHORD_STEP_MM = 0.05;
export const ANGLE_STEP_DEG = 0.1;
const RATIO_STEP = 0.001;

/** Pull of a fitted station to zero, over the mean weight of a station. */
const PULL = 0.003;

/** How fast the chord may widen outward from a root that the hub's height holds, over the span. Our choice. */
const ROOT_WIDENING = 4;

/** Turn [rad] by which a blade may still move after its chord is settled; its depth is judged at one less to two more. */
const LAST_TURN = 0.15;

/** Width of the window that smooths the chord, over the span. Our choice. */
const SMOOTHING = 0.1;

/** The blade at any radius, as far as the design does not choose it: section, thickness and camber of the fan in hand. */
export function placesOf(fan: Fan, rotor: RotorAir, leastThickness: number): (radius: number) => BladePlace {
  const curves = bladeCurves(fan);
  const [base] = rotor.sections;
  return (radius) => {
    const at = bladeAt(curves, radius);
    return {
      radius,
      bladeCount: fan.bladeCount,
      section: {
        ...base,
        thickness: at.thickness,
        camber: fan.section.family === 'flat-plate' ? 0 : at.camber,
      },
      trailingEdge: metresFromMillimetres(fan.section.trailingEdge_mm),
      leastThickness,
    };
  };
}

/** Share of the span of each ring of a rotor. */
export const spansOf = (rotor: RotorAir): Float64Array =>
  rotor.radius.map((r) => (r - rotor.hubRadius) / (rotor.tipRadius - rotor.hubRadius));

/** Values known in the rings, at the stations: a cubic between, straight on to hub and tip. */
export function atStations(spans: Float64Array, values: ArrayLike<number>): number[] {
  const last = spans.length - 1;
  const straight = (to: number, a: number, b: number) =>
    values[a] + ((to - spans[a]) * (values[b] - values[a])) / (spans[b] - spans[a]);
  const cubic = shapeKeepingCubic(
    [0, ...spans, 1],
    [straight(0, 0, 1), ...Array.from(values), straight(1, last, last - 1)],
  );
  return STATION_SPANS.map((span) => evaluateCubic(cubic, span));
}

/**
 * Station values whose straight-line interpolant comes closest to `values` in the rings (weighted least squares, with a
 * little pull to zero where a station weighs nothing). The normal equations couple neighbours alone.
 */
export function fitToStations(spans: Float64Array, weights: Float64Array, values: Float64Array): number[] {
  const n = STATION_SPANS.length;
  const own = new Float64Array(n);
  const next = new Float64Array(n);
  const right = new Float64Array(n);
  spans.forEach((span, i) => {
    let k = 0;
    while (k < n - 2 && STATION_SPANS[k + 1] <= span) k++;
    const t = (span - STATION_SPANS[k]) / (STATION_SPANS[k + 1] - STATION_SPANS[k]);
    own[k] += weights[i] * (1 - t) ** 2;
    own[k + 1] += weights[i] * t ** 2;
    next[k] += weights[i] * t * (1 - t);
    right[k] += weights[i] * (1 - t) * values[i];
    right[k + 1] += weights[i] * t * values[i];
  });
  const pull = (PULL * own.reduce((a, b) => a + b, 0)) / n;
  for (let k = 0; k < n; k++) own[k] += pull + Number.MIN_VALUE;
  for (let k = 1; k < n; k++) {
    const factor = next[k - 1] / own[k - 1];
    own[k] -= factor * next[k - 1];
    right[k] -= factor * right[k - 1];
  }
  const out: number[] = new Array(n);
  for (let k = n - 1; k >= 0; k--) out[k] = (right[k] - (k < n - 1 ? next[k] * out[k + 1] : 0)) / own[k];
  return out;
}

/** Chords with their unevenness taken out: a weighted mean over neighbours within about a tenth of the span. */
export function smoothed(spans: Float64Array, widths: Float64Array, chords: readonly number[]): number[] {
  return chords.map((_, i) => {
    let sum = 0;
    let weight = 0;
    for (let j = 0; j < chords.length; j++) {
      const w = widths[j] * Math.exp(-(((spans[i] - spans[j]) / SMOOTHING) ** 2));
      sum += w * chords[j];
      weight += w;
    }
    return sum / weight;
  });
}

/** What held a chord. */
export type ChordBound = 'printer' | 'neighbours' | 'hub height' | 'vanes' | null;

export interface ChordAtStation {
  readonly chord_mm: number;
  readonly bound: ChordBound;
}

const round = (value: number, step: number, how: (x: number) => number = Math.round): number =>
  Number((how(value / step) * step).toFixed(4));

/**
 * A chord [m] held between what prints, what clears its neighbours and what the hub is high enough for, and rounded.
 * `root`: the largest chord the hub's height takes; outward of it a blade may widen only so fast. `deepest`: most that
 * the blade may reach along the axis [m], for what stands behind it.
 */
export function heldChord(
  place: BladePlace,
  span: number,
  angle: number,
  chord: number,
  root: number,
  deepest: number,
): ChordAtStation {
  const least = Math.max(leastChord(place), 0.0005);
  const neighbours = largestChord(place, angle);
  const hub = root * (1 + ROOT_WIDENING * span);
  const behind = chordOfDepth(place, angle, deepest);
  const most = Math.min(neighbours, hub, behind, 0.5);
  const mm = millimetresFromMetres;
  if (chord >= most)
    return {
      chord_mm: Math.max(0.5, round(mm(most) - 1e-9, CHORD_STEP_MM, Math.floor)),
      bound: most === hub ? 'hub height' : most === behind ? 'vanes' : 'neighbours',
    };
  if (chord <= least)
    return { chord_mm: round(mm(least) - 1e-9, CHORD_STEP_MM, Math.ceil), bound: 'printer' };
  return { chord_mm: Math.max(0.5, round(mm(chord), CHORD_STEP_MM)), bound: null };
}

/** Largest chord [m] that is no deeper along the axis than `depth` [m]; infinite where the widest that fits is not. */
export function chordOfDepth(place: BladePlace, angle: number, depth: number): number {
  const most = largestChord(place, angle);
  const depthAt = (chord: number, at: number) =>
    2 *
    halfDepth({
      radius: place.radius,
      chord,
      angle: at,
      thickness: thicknessFor(place, chord),
      camber: place.section.camber,
    });
  const depthOf = (chord: number) =>
    Math.max(...[-1, 0, 1, 2].map((turns) => depthAt(chord, angle + turns * LAST_TURN)));
  if (depthOf(most) <= depth) return Infinity;
  let chord = most;
  // Depth grows a little less than in proportion where the thickness is the printer's: a few steps settle it.
  for (let i = 0; i < 8 && depthOf(chord) > depth; i++) chord *= (0.9999 * depth) / depthOf(chord);
  return chord;
}

/** Stations in the project's form. Angles [rad] are rounded to 0.1 degree. */
export function stationsOf(
  places: readonly BladePlace[],
  chords_mm: readonly number[],
  angles: readonly number[],
): BladeStation[] {
  return STATION_SPANS.map((span_ratio, i) => ({
    span_ratio,
    chord_mm: chords_mm[i],
    angle_deg: Math.min(90, Math.max(-90, round(degreesFromRadians(angles[i]), ANGLE_STEP_DEG))),
    thickness_ratio: round(
      thicknessFor(places[i], metresFromMillimetres(chords_mm[i])) - 1e-6,
      RATIO_STEP,
      Math.ceil,
    ),
    camber_ratio: round(places[i].section.camber, RATIO_STEP),
  }));
}
