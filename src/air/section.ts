import { interpolateLinear } from '../numerics/interpolate.ts';
import { FITTED, type SectionConstants } from './section-constants.ts';
import { measuredShare, polarAt, type PolarCurve, type PolarTable } from './polar.ts';

/**
 * Lift and drag of blade sections at low Reynolds number.
 *
 * Thin-section theory gives zero-lift angle and slope; friction is that of a plate, laminar and turbulent by shares; a
 * laminar share takes lift away and adds bubble drag on thick sections below Re ~ 50 000; below its ideal incidence a thin
 * cambered section separates on its lower side; two stalls (the nose lets go of its suction first, the lift breaks later)
 * lead to the separated flat plate at any angle. How the constants were found and how far the form is from what was
 * measured: `section-constants.ts` and docs/checks.md. No section alone was found measured below Re 40 000: there the form
 * rests on measured small rotors.
 */

/** What the model needs to know of a section. Lengths over chord. */
export interface SectionShape {
  /** Largest thickness */
  readonly thickness: number;
  /** Height of the mean line */
  readonly camber: number;
  /** Place of the largest camber */
  readonly camberPosition: number;
  /** Trailing-edge thickness */
  readonly trailingEdge: number;
  /** Leading-edge bluntness: 1 as the four-digit form, less for a plate whose nose is a corner rounded off. */
  readonly nose?: number;
  /** Height of surface roughness, for example of layer steps. */
  readonly roughness?: number;
  /** Measured lift and drag, used within its angles in place of the form. */
  readonly polar?: PolarTable;
}

/** Bluntness of a plate's rounded nose: with it the measured flat plate loses its suction as it should. */
export const PLATE_NOSE = 0.5;

/** The section in one stream: everything that does not depend on the angle of attack. */
export interface SectionStream {
  readonly camber: number;
  readonly zeroLift: number;
  readonly slope: number;
  readonly aspectKeep: number;
  readonly softZero: number;
  readonly softSlope: number;
  /** Angle at which the nose lets go of its suction. */
  readonly noseStallUp: number;
  /** exp(-angle / width) of the angles, up and down, at which the nose lets go and the lift breaks. */
  readonly noseUp: number;
  readonly noseDown: number;
  readonly liftUp: number;
  readonly liftDown: number;
  readonly suctionKept: number;
  readonly friction: number;
  readonly bubble: number;
  /** exp(angle / width) of the lower-side onset. */
  readonly lowerOnset: number;
  readonly lowerDrag: number;
  readonly lowerLift: number;
  readonly measured: PolarCurve | null;
  /** Factor on all drag, 1 as modelled. */
  readonly dragFactor: number;
}

/** Lift and drag coefficients on chord. */
export interface LiftDrag {
  readonly cl: number;
  readonly cd: number;
}

/** Lowest and highest Reynolds number the form is evaluated at; beyond them it is held. */
const LOWEST_REYNOLDS = 500;
const HIGHEST_REYNOLDS = 1e7;

/** Largest Mach number of the compressibility rule. */
const HIGHEST_MACH = 0.7;

/** No section holds its flow over a mean line bent further than this zero-lift angle [rad] (our limit, 20 degrees). */
const MOST_ZERO_LIFT = 0.35;

/** Widths of the nose stall, the lift stall and the lower-side separation [rad] (trial fits; little depends on them). */
const NOSE_WIDTH = 0.02;
const LIFT_WIDTH = 0.03;
const LOWER_WIDTH = 0.015;

/** 3 nose widths, 2 lift widths, 4 lower widths: one exponential of the angle over this serves all edges. */
const COMMON_WIDTH = 0.06;

/** Angle over which lower-side separation stops growing [rad]. */
const LOWER_REACH = 0.15;

/** Bubble drag grows with the square of the lift: 1 + 2.5 c_n^2 (trial fits). */
const BUBBLE_LIFT = 2.5;

/** Normal-force coefficient of a plate square to the stream: C_n = 2 sin alpha (Hoerner, Fluid-Dynamic Lift, 1975, ch. 4). */
const PLATE_NORMAL = 2;

/** Most of a smooth section's surface that turns turbulent, and the Reynolds number at which half of that has. */
const MOST_TURBULENT = 0.6;
const TURBULENT_MIDDLE = 2e5;

/** Roughness Reynolds number Re k/c at which roughness trips the layer: about 600. Source: Braslow and Knox, NACA TN 4363, 1958. */
const TRIP = 600;

/**
 * Zero-lift angle [rad] for each unit of camber of a mean line of two parabolas with its top at `position`, by thin
 * section theory: alpha_0 = (1/pi) integral dz/dx (1 - cos theta) d theta, taken in closed form. Circular arc: -2.
 * Source: Glauert, The Elements of Aerofoil and Airscrew Theory, 1926, ch. 7; mean line: NACA Report 460.
 */
export function zeroLiftPerCamber(position: number): number {
  const p = Math.min(0.95, Math.max(0.05, position));
  const theta = Math.acos(1 - 2 * p);
  // Integrals of (p - 1/2 + cos(t) / 2) (cos(t) - 1) from the nose to the top and to the end; sin(theta) = 2 sqrt(p (1 - p)).
  const toTop = (0.75 - p) * theta + (p - 1.5) * Math.sqrt(p * (1 - p));
  const toEnd = (0.75 - p) * Math.PI;
  const front = toTop / p ** 2;
  const rear = (toEnd - toTop) / (1 - p) ** 2;
  return (-2 / Math.PI) * (front + rear);
}

/**
 * Drag added by a blunt trailing edge of thickness `edge` (over chord) on a section of drag `drag`:
 * 0.135 edge^(4/3) / drag^(1/3). Source: Hoerner, Fluid-Dynamic Drag, 1965, ch. 3 (from memory).
 */
export function bluntEdgeDrag(edge: number, drag: number): number {
  return edge > 0 ? 0.135 * edge * Math.cbrt(edge / drag) : 0;
}

/**
 * Friction and form drag of both sides of a section of `thickness`, `tripped` 0..1 of the way to a wholly turbulent surface
 * of roughness `roughness` (over chord): plate friction times 1 + 2 t + 60 t^4.
 * Sources: Blasius and Prandtl-Schlichting plate friction, Schlichting, Boundary-Layer Theory, ch. 7 and 21; rough plate
 * (1.89 + 1.62 log10 c/k)^-2.5, ch. 21; form factor: Hoerner, Fluid-Dynamic Drag, 1965, ch. 6 (from memory).
 */
export function smoothDrag(reynolds: number, thickness: number, tripped = 0, roughness = 0): number {
  const laminar = 1.328 / Math.sqrt(reynolds);
  const decades = Math.LOG10E * Math.log(Math.max(reynolds, 1e4));
  // exp(log) because a power that is no whole number costs three times as much.
  const smooth = 0.455 * Math.exp(-2.58 * Math.log(decades));
  const rough = roughness > 1e-6 ? (1.89 + 1.62 * Math.log10(1 / roughness)) ** -2.5 : 0;
  const natural = MOST_TURBULENT / (1 + TURBULENT_MIDDLE / reynolds);
  const share = natural + (1 - natural) * tripped;
  return (
    2 *
    ((1 - share) * laminar + share * Math.max(smooth, rough)) *
    (1 + 2 * thickness + 60 * (thickness * thickness) ** 2)
  );
}

/**
 * The section at one Reynolds and Mach number and one chord-to-radius ratio (0 for a section that does not turn);
 * `lattice` multiplies the lift slope for the neighbours in a dense row of blades.
 * Range: Re 5 000 to 3 000 000; Mach to 0.6 (Prandtl-Glauert slope).
 */
export function sectionStream(
  shape: SectionShape,
  reynolds: number,
  mach = 0,
  chordOverRadius = 0,
  lattice = 1,
  constants: SectionConstants = FITTED,
  dragFactor = 1,
): SectionStream {
  const k = constants;
  const re = Math.min(HIGHEST_REYNOLDS, Math.max(LOWEST_REYNOLDS, reynolds));
  const m = shape.camber;
  const t = Math.max(0.005, shape.thickness);
  const bluntness = t * (shape.nose ?? 1);
  const roughness = shape.roughness ?? 0;
  const tripped = roughness > 0 ? 1 / (1 + (TRIP / (re * roughness)) ** 4) : 0;
  const rotation = Math.min(chordOverRadius, 0.6) ** 2;
  const laminar = (1 - tripped) / (1 + Math.exp(Math.log(re / k.laminarMiddle) / k.laminarSpread));
  // Stall and lower-side onset stop moving where tunnels no longer see Reynolds number in them.
  const logRe = Math.log(Math.min(re, 1e6));
  const nose = k.noseStall + k.noseStallReynolds * (logRe - Math.log(3e4)) + k.rotationDelay * rotation;
  const lift = k.liftStall + k.rotationDelay * rotation;
  const smooth = k.friction * smoothDrag(re, t, tripped, roughness);
  const size = Math.abs(m);
  return {
    camber: m,
    zeroLift: Math.max(
      -MOST_ZERO_LIFT,
      Math.min(MOST_ZERO_LIFT, zeroLiftPerCamber(shape.camberPosition) * m),
    ),
    slope: (2 * Math.PI * k.slope * lattice) / Math.sqrt(1 - Math.min(mach, HIGHEST_MACH) ** 2),
    aspectKeep: 1 / (1 + k.lowAspect * rotation),
    softZero: k.softZero * laminar,
    softSlope: k.softSlope * laminar,
    noseStallUp: nose + k.noseStallCamber * m,
    noseUp: Math.exp(-(nose + k.noseStallCamber * m) / NOSE_WIDTH),
    noseDown: Math.exp(-(nose - k.noseStallCamber * m) / NOSE_WIDTH),
    liftUp: Math.exp(-(lift + k.liftStallCamber * m) / LIFT_WIDTH),
    liftDown: Math.exp(-(lift - k.liftStallCamber * m) / LIFT_WIDTH),
    suctionKept: 1 / (1 + ((k.suctionThickness / bluntness) ** 2) ** 2),
    friction: smooth + bluntEdgeDrag(Math.min(shape.trailingEdge, t), smooth),
    bubble: k.bubble * laminar * (t / 0.09),
    lowerOnset: Math.exp(
      (k.lowerOnset +
        k.lowerCamber * size -
        k.lowerThickness * bluntness -
        k.lowerReynolds * Math.max(0, logRe - Math.log(6e4))) /
        LOWER_WIDTH,
    ),
    lowerDrag: k.lowerDrag * size,
    lowerLift: k.lowerLift * m,
    measured: shape.polar ? polarAt(shape.polar, re) : null,
    dragFactor,
  };
}

/** 1 up to 0.4 rad, 0 from 1 rad, smooth between: the low-aspect correction is for flow along the chord. */
function smallAngle(angle: number): number {
  const x = (1 - Math.abs(angle)) / 0.6;
  return x >= 1 ? 1 : x <= 0 ? 0 : x * x * (3 - 2 * x);
}

/**
 * How far below its lower-side onset the section stands [rad]: 0 above, straight below, bent to a limit far below.
 * `rise` is exp(angle / width), the angle that of the side that cambers outward.
 */
function lowerDepth(onset: number, rise: number): number {
  const past = onset / rise;
  if (past < 1e-16) return 0;
  const depth = LOWER_WIDTH * Math.log1p(past);
  return depth / (1 + depth / LOWER_REACH);
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
  const a = angle - (1 - s.aspectKeep) * (angle - s.zeroLift) * smallAngle(angle);
  // Each edge is a smooth fall 1 / (1 + exp((a - angle) / width)); all four and the lower side share one exponential.
  const e = Math.exp(a / COMMON_WIDTH);
  const e2 = e * e;
  const e3 = e2 * e;
  const nose = 1 / ((1 + e3 * s.noseUp) * (1 + s.noseDown / e3));
  const attached = 1 / ((1 + e2 * s.liftUp) * (1 + s.liftDown / e2));
  const zeroLift = s.zeroLift * (1 - s.softZero * nose);
  const slope = s.slope * (1 - s.softSlope * nose);
  const half = (1 + Math.sqrt(attached)) / 2;
  const broken = (1 - attached) * (1 - attached);
  const whole = 1 - broken;
  const lower = s.lowerDrag === 0 ? 0 : lowerDepth(s.lowerOnset, s.camber < 0 ? 1 / (e2 * e2) : e2 * e2);
  const cn =
    (slope * Math.sin(a - zeroLift) - s.lowerLift * lower) * half * half * whole +
    broken * PLATE_NORMAL * Math.sin(angle);
  const cd =
    s.friction +
    (s.bubble * (1 + BUBBLE_LIFT * cn * cn) + s.lowerDrag * lower * lower) * whole +
    (1 - nose * s.suctionKept) * Math.abs(cn) * Math.abs(Math.sin(angle - 2 * s.camber * whole));
  out[0] = cn * Math.cos(a);
  out[1] = cd * s.dragFactor;
  if (s.measured !== null) blendMeasured(s, angle, out);
}

/** Puts the measured section in the place of the form within its angles. */
function blendMeasured(s: SectionStream, angle: number, out: Float64Array): void {
  const curve = s.measured;
  if (curve === null) return;
  const share = measuredShare(curve, angle);
  if (share === 0) return;
  out[0] += share * (interpolateLinear(curve.alpha, curve.cl, angle) - out[0]);
  out[1] += share * (interpolateLinear(curve.alpha, curve.cd, angle) * s.dragFactor - out[1]);
}
