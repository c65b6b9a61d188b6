/**
 * Lift and drag of blade sections at low Reynolds number: first documented form.
 *
 * Thin-section theory gives zero-lift angle and slope; a laminar share takes lift away and adds bubble drag on thick
 * sections below Re ~ 50 000; two stalls (the nose lets go of its suction first, the lift breaks later) lead to the
 * separated flat plate at any angle. Constants marked `fitted` were fitted to published tunnel polars (flat plate, two
 * cambered sections, University of Illinois) and to the published static runs of small research propellers
 * (AIAA 2014-2151); those rotors are therefore no blind test of it. Nothing measured below Re 40 000 on sections
 * alone was found: there the form extrapolates.
 */

/** What the model needs to know of a section. */
export interface SectionShape {
  /** Largest thickness over chord */
  readonly thickness: number;
  /** Height of the mean line over chord */
  readonly camber: number;
  /** Place of the largest camber over chord */
  readonly camberPosition: number;
  /** Trailing-edge thickness over chord */
  readonly trailingEdge: number;
}

/** The section in one stream: everything that does not depend on the angle of attack. */
export interface SectionStream {
  readonly camber: number;
  readonly thinZeroLift: number;
  readonly laminarShare: number;
  readonly slope: number;
  readonly aspectKeep: number;
  readonly noseStallUp: number;
  readonly noseStallDown: number;
  readonly liftStallUp: number;
  readonly liftStallDown: number;
  readonly suctionKept: number;
  readonly friction: number;
  readonly bubble: number;
  /** Factor on all drag, 1 as modelled. */
  readonly dragFactor: number;
}

/** Lift and drag coefficients on chord. */
export interface LiftDrag {
  readonly cl: number;
  readonly cd: number;
}

/** Lowest Reynolds number the form is evaluated at; below it the value there is held. */
const LOWEST_REYNOLDS = 500;

/** Largest Mach number of the compressibility rule. */
const HIGHEST_MACH = 0.7;

/** No section holds its flow over a mean line bent further than this zero-lift angle [rad] (our limit, 20 degrees). */
const MOST_ZERO_LIFT = 0.35;

/** Reynolds number at which half of the chord's flow behaves as laminar and late to turn; spread of ln Re. Fitted. */
const LAMINAR_MIDDLE = 21_800;
const LAMINAR_SPREAD = 0.7;

/** Widths of the nose stall and of the lift stall [rad]. Fitted. */
const NOSE_WIDTH = 0.02;
const LIFT_WIDTH = 0.03;

/** Normal-force coefficient of a plate square to the stream, deep stall: C_n = 2 sin alpha (Hoerner, Fluid-Dynamic Lift, 1975, ch. 4). */
const PLATE_NORMAL = 2;

/**
 * Zero-lift angle [rad] for each unit of camber of a mean line of two parabolas with its top at `position`, by thin
 * section theory: alpha_0 = (1/pi) integral dz/dx (1 - cos theta) d theta, taken in closed form. Circular arc: -2.
 * Source: Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. 7; mean line: NACA Report 460.
 */
export function zeroLiftPerCamber(position: number): number {
  const p = Math.min(0.95, Math.max(0.05, position));
  const theta = Math.acos(1 - 2 * p);
  const primitive = (t: number) =>
    (p - 0.5) * (Math.sin(t) - t) + 0.5 * (t / 2 + Math.sin(2 * t) / 4 - Math.sin(t));
  const front = primitive(theta) / p ** 2;
  const rear = (primitive(Math.PI) - primitive(theta)) / (1 - p) ** 2;
  return (-2 / Math.PI) * (front + rear);
}

/**
 * Drag added by a blunt trailing edge of thickness `edge` (over chord) on a section of drag `drag`:
 * 0.135 edge^(4/3) / drag^(1/3). Source: Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from memory).
 */
export function bluntEdgeDrag(edge: number, drag: number): number {
  return edge > 0 ? 0.135 * edge ** (4 / 3) * drag ** (-1 / 3) : 0;
}

/**
 * The section at one Reynolds and Mach number and one chord-to-radius ratio (0 for a section that does not turn).
 * Range: Re 5 000 to 3 000 000 intended, held below 500; Mach to 0.6 (Prandtl-Glauert slope).
 */
export function sectionStream(
  shape: SectionShape,
  reynolds: number,
  mach = 0,
  chordOverRadius = 0,
): SectionStream {
  const re = Math.max(LOWEST_REYNOLDS, reynolds);
  const m = shape.camber;
  const t = Math.max(0.005, shape.thickness);
  const rotation = Math.min(chordOverRadius, 0.6) ** 2;
  const laminarShare = 1 / (1 + (re / LAMINAR_MIDDLE) ** (1 / LAMINAR_SPREAD));
  const nose = 0.1385 + 0.014 * Math.log(re / 3e4) + 0.27 * rotation;
  const lift = 0.2195 + 0.27 * rotation;
  const smooth = 0.01226 * (re / 1e5) ** -0.4 * (1 + 2 * t);
  return {
    camber: m,
    thinZeroLift: Math.max(
      -MOST_ZERO_LIFT,
      Math.min(MOST_ZERO_LIFT, zeroLiftPerCamber(shape.camberPosition) * m),
    ),
    laminarShare,
    slope: (2 * Math.PI * 0.93) / Math.sqrt(1 - Math.min(mach, HIGHEST_MACH) ** 2),
    aspectKeep: 1 / (1 + 1.1 * rotation),
    noseStallUp: nose + 1.1 * m,
    noseStallDown: nose - 1.1 * m,
    liftStallUp: lift + 0.9 * m,
    liftStallDown: lift - 0.9 * m,
    suctionKept: 1 / (1 + (0.0385 / t) ** 4),
    friction: smooth + bluntEdgeDrag(Math.min(shape.trailingEdge, t), smooth),
    bubble: 0.0287 * laminarShare * (t / 0.09),
    dragFactor: 1,
  };
}

/** 1 up to 0.4 rad, 0 from 1 rad, smooth between: the low-aspect correction is for flow along the chord. */
function smallAngle(angle: number): number {
  const x = (1 - Math.abs(angle)) / 0.6;
  return x >= 1 ? 1 : x <= 0 ? 0 : x * x * (3 - 2 * x);
}

/** 1 well below `edge`, 0 well above, over a few `width`s. */
function fallsAt(x: number, edge: number, width: number): number {
  const z = (x - edge) / width;
  return z > 37 ? 0 : z < -37 ? 1 : 1 / (1 + Math.exp(z));
}

/**
 * Lift and drag at angle of attack `alpha` [rad], any angle (folded to -pi..pi). Continuous and finite everywhere;
 * drag is positive everywhere.
 */
export function liftDrag(s: SectionStream, alpha: number): LiftDrag {
  const out = new Float64Array(2);
  liftDragInto(s, alpha, out);
  return { cl: out[0], cd: out[1] };
}

/** `liftDrag` without an object a call: lift into `out[0]`, drag into `out[1]`. For the annulus loop. */
export function liftDragInto(s: SectionStream, alpha: number, out: Float64Array): void {
  const angle = alpha > Math.PI ? alpha - 2 * Math.PI : alpha < -Math.PI ? alpha + 2 * Math.PI : alpha;
  const a = angle - (1 - s.aspectKeep) * (angle - s.thinZeroLift) * smallAngle(angle);
  const nose = fallsAt(a, s.noseStallUp, NOSE_WIDTH) * fallsAt(-a, s.noseStallDown, NOSE_WIDTH);
  const attached = fallsAt(a, s.liftStallUp, LIFT_WIDTH) * fallsAt(-a, s.liftStallDown, LIFT_WIDTH);
  const soft = s.laminarShare * nose;
  const zeroLift = s.thinZeroLift * (1 - 0.5 * soft);
  const slope = s.slope * (1 - 0.3 * soft);
  const half = (1 + Math.sqrt(attached)) / 2;
  const broken = (1 - attached) * (1 - attached);
  const cn =
    slope * Math.sin(a - zeroLift) * half * half * (1 - broken) + broken * PLATE_NORMAL * Math.sin(angle);
  const cd =
    s.friction +
    s.bubble * (1 - broken) * (1 + 2.5 * cn * cn) +
    (1 - nose * s.suctionKept) * Math.abs(cn) * Math.abs(Math.sin(angle - 2 * s.camber * (1 - broken)));
  out[0] = cn * Math.cos(a);
  out[1] = cd * s.dragFactor;
}
