import type { Section } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { BladeSection } from './blade.ts';

/** A section of unit chord. Every length is over the chord. */
export interface SectionSpec {
  readonly family: Section['family'];
  /** Largest thickness, used within 0.005..0.4 */
  readonly thickness: number;
  /** Height of the mean line, used within -0.15..0.15; a flat plate has none */
  readonly camber: number;
  /** Where the mean line stands highest, used within 0.1..0.9; only the four-digit family asks */
  readonly camberPosition: number;
  /** Thickness of the back edge, used within THINNEST_EDGE..thickness */
  readonly trailingEdge: number;
  /** Least thickness of the front edge, used up to `thickness`; left out: the edge of the family */
  readonly leadingEdge?: number;
}

/** A closed outline: the last point joins the first. Anticlockwise seen with x to the right and y up. */
export interface Outline {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Of an outline of unit chord: area [chord^2], centroid [chord], second moments about the centroid [chord^4]. */
export interface SectionIntegrals {
  readonly area: number;
  readonly perimeter: number;
  readonly centroidX: number;
  readonly centroidY: number;
  /** Integral of (y - centroidY)^2: bending about the chord line. */
  readonly momentX: number;
  /** Integral of (x - centroidX)^2. */
  readonly momentY: number;
  /** Integral of (x - centroidX)(y - centroidY). */
  readonly momentXY: number;
}

/** A back edge thinner than this share of the chord is drawn this thick, so that a lofted solid stays closed. */
export const THINNEST_EDGE = 0.002;

/** Plates keep their thickness up to here and thin in a straight line to the back edge behind it. */
const PLATE_TAIL = 0.8;

/** Where the NACA four-digit thickness form is thickest. */
const THICKEST = 0.3;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** The section a fan's blade has where its curves read `at`. */
export function sectionSpecAt(section: Section, at: BladeSection): SectionSpec {
  return {
    family: section.family,
    thickness: at.thickness,
    camber: at.camber,
    camberPosition: section.camberPosition_ratio,
    trailingEdge: metresFromMillimetres(section.trailingEdge_mm) / at.chord,
    leadingEdge: metresFromMillimetres(section.leadingEdge_mm) / at.chord,
  };
}

/**
 * The outline of a section: nose at x = 0, tail at x = 1, suction side up for positive camber. Starts at the upper
 * corner of the tail, runs over the upper side to the nose and back below: 2 * pointsPerSide + 1 points, so sections
 * of one family match point for point and can be lofted. Points are densest at the nose.
 *
 * - flat-plate: constant thickness, round nose, no camber.
 * - arc-plate: the same wrapped on a circular arc of the given height.
 * - both plates thin in a straight line over the last fifth to the back edge; a back edge as thick as the plate is square.
 *   Their front edge is as thick as they are.
 * - four-digit: thickness form and mean line of Jacobs, Ward and Pinkerton, The characteristics of 78 related airfoil
 *   sections, NACA Report 460 (1933), eqs. for y_t and y_c, thickness laid off square to the mean line. Behind the
 *   thickest place the form is stretched to end at the wanted back edge (at 2.1 % of the thickness it is the published
 *   form). Where the mean line would bend tighter than the section is thick, its highest place moves to the middle
 *   just far enough. A least front edge is a bar of that thickness with a round end, let into the form as far back as
 *   that is thinner.
 */
export function sectionOutline(spec: SectionSpec, pointsPerSide: number): Outline {
  const n = Math.max(8, Math.round(pointsPerSide));
  const t = clamp(spec.thickness, 0.005, 0.4);
  const te = clamp(spec.trailingEdge, THINNEST_EDGE, t);
  const x = new Float64Array(2 * n + 1);
  const y = new Float64Array(2 * n + 1);
  const put = (k: number, meanX: number, meanY: number, angle: number, half: number) => {
    const across = half * Math.sin(angle);
    const up = half * Math.cos(angle);
    x[n - k] = meanX - across;
    y[n - k] = meanY + up;
    x[n + k] = meanX + across;
    y[n + k] = meanY - up;
  };
  const m = spec.family === 'flat-plate' ? 0 : clamp(spec.camber, -0.15, 0.15);
  if (spec.family === 'four-digit') fourDigit(put, n, t, m, spec, te);
  else plate(put, n, t, m, te);
  return { x, y };
}

type Put = (k: number, meanX: number, meanY: number, angle: number, half: number) => void;

function plate(put: Put, n: number, t: number, m: number, te: number): void {
  const halfAngle = 2 * Math.atan(2 * m);
  const bent = Math.abs(halfAngle) > 1e-9;
  const radius = bent ? 0.5 / Math.sin(halfAngle) : Infinity;
  const length = bent ? 2 * halfAngle * radius : 1;
  const noseSteps = Math.max(3, Math.round(n * 0.35));
  const tailSteps = Math.max(2, Math.round(n * 0.15));
  const middleSteps = n - noseSteps - tailSteps;
  for (let k = 0; k <= n; k++) {
    let along: number;
    let half = t / 2;
    if (k <= noseSteps) {
      const a = (Math.PI / 2) * (k / noseSteps);
      along = (t / 2) * (1 - Math.cos(a));
      half = (t / 2) * Math.sin(a);
    } else if (k <= noseSteps + middleSteps) {
      along = t / 2 + (PLATE_TAIL * length - t / 2) * ((k - noseSteps) / middleSteps);
    } else {
      const tail = (k - noseSteps - middleSteps) / tailSteps;
      along = length * (PLATE_TAIL + (1 - PLATE_TAIL) * tail);
      half = t / 2 + (te / 2 - t / 2) * tail;
    }
    if (!bent) {
      put(k, along, 0, 0, half);
      continue;
    }
    const angle = halfAngle * (1 - (2 * along) / length);
    put(k, 0.5 - radius * Math.sin(angle), radius * (Math.cos(angle) - Math.cos(halfAngle)), angle, half);
  }
}

/**
 * How blunt a four-digit section's nose is against the published form of its thickness: the thickness whose nose radius
 * 1.1019 t^2 (NACA Report 460) is that of the front edge, over the section's own; 1 where the edge is not thickened.
 * Plates: 1, their front edge is never thinner than they are.
 */
export function noseThickening({ family, thickness, leadingEdge = 0 }: SectionSpec): number {
  const t = clamp(thickness, 0.005, 0.4);
  if (family !== 'four-digit' || !(leadingEdge > 0)) return 1;
  return Math.max(1, Math.sqrt(Math.min(leadingEdge, t) / 2 / 1.1019) / t);
}

/** The camber position as used: moved toward the middle where the mean line's curvature 2 m / p^2 asks for it. */
function fourDigitPeak(t: number, m: number, position: number): number {
  const tightest = Math.min(0.5, Math.sqrt(2 * Math.abs(m) * t));
  return clamp(clamp(position, 0.1, 0.9), tightest, 1 - tightest);
}

/** Radius of the hollow side where it is tightest [chord]; infinite without camber. */
export function sectionHollow(spec: SectionSpec): number {
  const t = clamp(spec.thickness, 0.005, 0.4);
  const m = spec.family === 'flat-plate' ? 0 : Math.abs(clamp(spec.camber, -0.15, 0.15));
  if (m < 1e-6) return Infinity;
  if (spec.family === 'arc-plate') return (1 + 4 * m * m) / (8 * m) - t / 2;
  const p = fourDigitPeak(t, m, spec.camberPosition);
  return Math.min(p, 1 - p) ** 2 / (2 * m) - t / 2;
}

/** Half thickness of the published form of thickness 1; NACA Report 460. */
const form = (x: number): number =>
  5 * (0.2969 * Math.sqrt(x) + x * (-0.126 + x * (-0.3516 + x * (0.2843 - 0.1015 * x))));

/** Half thickness at `x` of a bar of half thickness `edge` whose front end is half round. */
const bar = (x: number, edge: number): number =>
  x < edge ? Math.sqrt(edge * edge - (edge - x) * (edge - x)) : edge;

function fourDigit(put: Put, n: number, t: number, m: number, spec: SectionSpec, te: number): void {
  const p = fourDigitPeak(t, m, spec.camberPosition);
  const edge = Math.min(Math.max(0, spec.leadingEdge ?? 0), t) / 2;
  const top = form(THICKEST);
  const end = form(1);
  for (let k = 0; k <= n; k++) {
    const x = (1 - Math.cos((Math.PI * k) / n)) / 2;
    const half =
      x <= THICKEST
        ? Math.max(t * form(x), bar(x, edge))
        : te / 2 + ((form(x) - end) / (top - end)) * (t * top - te / 2);
    const q = x < p ? p : 1 - p;
    const meanY = x < p ? (m / (p * p)) * x * (2 * p - x) : (m / (q * q)) * (1 - 2 * p + x * (2 * p - x));
    put(k, x, meanY, Math.atan(((2 * m) / (q * q)) * (p - x)), half);
  }
}

/**
 * Area, centroid and second moments of a closed outline as sums over its edges (Green's theorem; for polygons e.g.
 * Steger, On the calculation of arbitrary moments of polygons, TU Munich FGBV-96-05, 1996). Exact for the polygon, so
 * they agree with solids lofted through the same points.
 */
export function sectionIntegrals(outline: Outline): SectionIntegrals {
  const { x, y } = outline;
  const n = x.length;
  let twice = 0;
  let perimeter = 0;
  let sx = 0;
  let sy = 0;
  let sxx = 0;
  let syy = 0;
  let sxy = 0;
  for (let i = n - 1, j = 0; j < n; i = j++) {
    const cross = x[i] * y[j] - x[j] * y[i];
    twice += cross;
    const dx = x[j] - x[i];
    const dy = y[j] - y[i];
    perimeter += Math.sqrt(dx * dx + dy * dy);
    sx += (x[i] + x[j]) * cross;
    sy += (y[i] + y[j]) * cross;
    sxx += (x[i] * x[i] + x[i] * x[j] + x[j] * x[j]) * cross;
    syy += (y[i] * y[i] + y[i] * y[j] + y[j] * y[j]) * cross;
    sxy += (x[i] * y[j] + 2 * x[i] * y[i] + 2 * x[j] * y[j] + x[j] * y[i]) * cross;
  }
  const area = twice / 2;
  const centroidX = sx / (6 * area);
  const centroidY = sy / (6 * area);
  return {
    area,
    perimeter,
    centroidX,
    centroidY,
    momentX: syy / 12 - area * centroidY * centroidY,
    momentY: sxx / 12 - area * centroidX * centroidX,
    momentXY: sxy / 24 - area * centroidX * centroidY,
  };
}
