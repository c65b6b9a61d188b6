import { findRoot } from '../numerics/root.ts';
import { liftDragInto, type SectionStream } from './section.ts';

/**
 * One annulus of the rotor in its stream.
 *
 * The unknown is the inflow angle phi (relative wind at the blade to the plane of rotation). With lift and drag taken at
 * alpha = beta - phi, axial and tangential force coefficients c_x and c_t, solidity s = B c / (2 pi r):
 *
 *   swirl behind the rotor over relative speed   tau = V_t / W = s c_t / (2 F |sin phi|)      (angular momentum)
 *   blade speed over relative speed              k   = Omega r / W = cos phi + tau / 2
 *
 * and one balance along the axis, written so that it is finite at phi = 0 and its sign is that of
 * (what the blades give) - (what the stream asks):
 *
 *   in a duct     (Omega r)^2 [ (1-g) s c_x + e tau^2 - h sin^2 phi ] + X k^2,   X = V_0 |V_0| + 2 P / rho
 *   open          Omega r [ s c_x - 4 F sin phi |sin phi| ] + 4 F |sin phi| V_0 k
 *
 * h = 1/sigma^2 + K: exit head and losses on the axial velocity; e: share of swirl energy a stator turns into pressure;
 * g: share of the blades' pressure lost at the tip gap; P: suction of the swirling exit stream. In the open rotor
 * V_e - V_0 = 2 (V_x - V_0) far behind; F is Prandtl's tip and root factor.
 *
 * A root always exists: where k first falls to zero (relative speed without bound) the balance is negative for phi > 0
 * and positive for phi < 0. Of several roots the one with the largest inflow is taken (the unstalled blade).
 */
export interface AnnulusInput {
  readonly ducted: boolean;
  readonly bladeCount: number;
  readonly hubRadius: number;
  readonly tipRadius: number;
  readonly radius: number;
  /** B c / (2 pi r) */
  readonly solidity: number;
  /** Chord to plane of rotation [rad] */
  readonly bladeAngle: number;
  /** Omega r, not negative [m/s] */
  readonly bladeSpeed: number;
  /** Flight speed along the axis V_0 [m/s] */
  readonly axialSpeed: number;
  /** h for flow in the right direction, and for reversed flow. */
  readonly head: number;
  readonly headReversed: number;
  /** Share of blade pressure lost at the gap, 0..1 */
  readonly gapShare: number;
  /** Share of swirl energy recovered, 0..1 */
  readonly swirlRecovery: number;
  /** 1; or 0 for a rotor whose swirl is taken out at no cost (ideal limits). */
  readonly swirlFactor: number;
  /** Suction of the exit swirl outside this annulus over density [m2/s2] */
  readonly exitSuction: number;
}

/** The annulus solved. */
export interface AnnulusState {
  /** Inflow angle [rad] */
  phi: number;
  /** Relative speed [m/s] */
  relativeSpeed: number;
  axialVelocity: number;
  swirlVelocity: number;
  alpha: number;
  cl: number;
  cd: number;
  /** Axial and tangential force coefficients. */
  cx: number;
  ct: number;
  tipFactor: number;
}

/** Smallest |sin phi| used in a denominator. */
const TINY = 1e-9;

/**
 * How much steeper than at the disc the helix of the wake counts in the tip factor, as a power of the velocity's growth: the
 * less the wake sinks between two blades, the more its contraction and the near tip vortex matter. The form 1/sink is what
 * `wake/` (a lifting line in a free tip vortex) shows over blade counts and chords; the size 0.6 is set on one point of
 * NASA TM 81232 (8 degrees), its other pitches and all propellers being tests. In climb the growth goes to 1 and with it
 * the effect. Held at 3.5.
 */
const WAKE_STEEPNESS = 0.6;
const MOST_STEEPNESS = 3.5;

/**
 * Prandtl's tip and root factor of an open rotor, at the pitch of the developed wake:
 * tan phi_w = (V_far / V_x)^p tan phi, V_far = 2 V_x - V_0, p = 0.6 / sink, sink = (2 pi / B) (r / R) tan phi.
 * Source: Glauert in Durand, Aerodynamic Theory IV, 1935, div. L; wake pitch for heavy loading: Theodorsen, Theory of
 * Propellers, 1948 (the idea; the exponent is ours).
 */
export function prandtlFactor(input: AnnulusInput, sinPhi: number, cosPhi: number): number {
  const size = Math.max(Math.abs(sinPhi), TINY);
  const tangent = size / Math.max(Math.abs(cosPhi), TINY);
  const sink = ((2 * Math.PI) / input.bladeCount) * (input.radius / input.tipRadius) * tangent;
  const power = Math.min(MOST_STEEPNESS, WAKE_STEEPNESS / sink);
  const flight = input.bladeSpeed > 0 ? (input.axialSpeed / input.bladeSpeed) * cosPhi : 0;
  const growth = Math.max(0.5, Math.abs(2 * sinPhi - flight) / size);
  const steep = tangent * Math.min(growth, 4) ** power;
  const s = Math.max(TINY, steep / Math.sqrt(1 + steep * steep));
  const half = input.bladeCount / 2;
  const tip = (half * (input.tipRadius - input.radius)) / (input.radius * s);
  const root = (half * (input.radius - input.hubRadius)) / (Math.max(input.hubRadius, TINY) * s);
  return Math.max(
    1e-4,
    ((2 / Math.PI) * Math.acos(Math.exp(-tip)) * 2 * Math.acos(Math.exp(-root))) / Math.PI,
  );
}

/** The balance described above at inflow angle `phi`; where k <= 0 the sign it has where k reaches zero. */
function balanceAt(input: AnnulusInput, stream: SectionStream, phi: number, scratch: Float64Array): number {
  const sin = Math.sin(phi);
  const cos = Math.cos(phi);
  liftDragInto(stream, input.bladeAngle - phi, scratch);
  const cx = scratch[0] * cos - scratch[1] * sin;
  const ct = scratch[0] * sin + scratch[1] * cos;
  const size = Math.max(Math.abs(sin), TINY);
  const tipFactor = input.ducted ? 1 : prandtlFactor(input, sin, cos);
  const tau = (input.swirlFactor * input.solidity * ct) / (2 * tipFactor * size);
  const k = cos + tau / 2;
  const give = giveOf(input, cx, tau, sin, size, tipFactor);
  const scale = input.ducted ? input.bladeSpeed * input.bladeSpeed : input.bladeSpeed;
  if (k <= 0) {
    // Away from zero, so that no root finder rests on the mirror image that k * k has here.
    const wind = input.ducted ? Math.abs(ram(input)) : Math.abs(input.axialSpeed);
    const away = (scale + wind) * (Math.abs(give) + k * k);
    return phi > 0 ? -away : away;
  }
  return input.ducted
    ? scale * give + ram(input) * k * k
    : scale * give + 4 * tipFactor * size * input.axialSpeed * k;
}

/** What the blades give less what the stream asks, over 1/2 rho W^2, the flight speed's part left out. */
function giveOf(
  input: AnnulusInput,
  cx: number,
  tau: number,
  sin: number,
  size: number,
  tipFactor: number,
): number {
  if (!input.ducted) return input.solidity * cx - 4 * tipFactor * sin * size;
  const pressure = input.solidity * cx * (cx > 0 ? 1 - input.gapShare : 1);
  const head = sin > 0 ? input.head : -input.headReversed;
  return pressure + input.swirlRecovery * tau * tau - head * sin * sin;
}

const ram = (input: AnnulusInput) => input.axialSpeed * Math.abs(input.axialSpeed) + 2 * input.exitSuction;

/** Inflow angles tried from the largest down, as shares of the largest, before a root is closed in. */
const FIRST_STEPS = [0.8, 0.62, 0.48, 0.36, 0.26, 0.18, 0.11, 0.06, 0.02];
const WIDE_STEPS = 36;

/** Odd states (stalled, standing, reversed) can be steep in the inflow angle: they are closed in this much further. */
const ODD_CARE = 0.01;

/** Secant steps before a guess is given up, and the largest step of the first, as a share of the guess. */
const SECANT_STEPS = 9;
const FIRST_STEP = 0.08;

/** Share of the tolerance that the error foreseen after a secant step may take. */
const SURE = 0.01;

/**
 * Solves one annulus. `stream` is the section at the annulus's Reynolds and Mach number; `guess` an inflow angle near
 * which to look first (NaN: none), taken up only if the blade is unstalled there, where the root is the largest one.
 * `tolerance` is on the inflow angle [rad]. `scratch` holds three numbers from call to call: lift, drag, and how steep the
 * balance was at the last root over its estimate (1 to begin with), which makes the neighbour's first step a good one.
 * Never throws for finite input; every output is finite.
 */
export function solveAnnulus(
  input: AnnulusInput,
  stream: SectionStream,
  guess: number,
  tolerance: number,
  scratch: Float64Array,
): AnnulusState {
  if (input.bladeSpeed === 0 && (input.ducted ? ram(input) === 0 : input.axialSpeed === 0)) {
    return stateAt(input, stream, 0, scratch);
  }
  const near = rootNear(input, stream, guess, tolerance, scratch);
  if (near > 0 && input.bladeAngle - near < stream.noseStallUp) return stateAt(input, stream, near, scratch);
  const balance = (phi: number) => balanceAt(input, stream, phi, scratch);
  return stateAt(
    input,
    stream,
    largestRoot(balance, input.bladeAngle - stream.zeroLift, tolerance * ODD_CARE),
    scratch,
  );
}

function stateAt(
  input: AnnulusInput,
  stream: SectionStream,
  phi: number,
  scratch: Float64Array,
): AnnulusState {
  const sin = Math.sin(phi);
  const cos = Math.cos(phi);
  const alpha = input.bladeAngle - phi;
  liftDragInto(stream, alpha, scratch);
  const cl = scratch[0];
  const cd = scratch[1];
  const cx = cl * cos - cd * sin;
  const ct = cl * sin + cd * cos;
  const size = Math.max(Math.abs(sin), TINY);
  const tipFactor = input.ducted ? 1 : prandtlFactor(input, sin, cos);
  const tau = (input.swirlFactor * input.solidity * ct) / (2 * tipFactor * size);
  const k = cos + tau / 2;
  const relativeSpeed = speedAt(input, k, giveOf(input, cx, tau, sin, size, tipFactor), size, tipFactor);
  return {
    phi,
    relativeSpeed,
    axialVelocity: relativeSpeed * (sin < 0 ? -size : size),
    swirlVelocity: relativeSpeed * tau,
    alpha,
    cl,
    cd,
    cx,
    ct,
    tipFactor,
  };
}

/**
 * The root that secant steps reach from `guess`, 0 where they reach none: four or five balances where a bracket needs
 * eight. The first step uses the slope of an unstalled blade; a root where the balance rises is not the one wanted.
 */
function rootNear(
  input: AnnulusInput,
  stream: SectionStream,
  guess: number,
  tolerance: number,
  scratch: Float64Array,
): number {
  if (!(guess > 1e-3 && guess < 1.2 && input.bladeSpeed > 0)) return 0;
  const scale = input.ducted ? input.bladeSpeed * input.bladeSpeed : input.bladeSpeed;
  const fall = scale * (input.solidity * stream.slope + 2 * (input.ducted ? input.head : 4) * guess);
  let a = guess;
  let fa = balanceAt(input, stream, a, scratch);
  if (fa === 0) return a;
  const most = FIRST_STEP * guess;
  let b = a + Math.max(-most, Math.min(most, fa / (fall * scratch[2])));
  let before = 0;
  for (let i = 0; i < SECANT_STEPS; i++) {
    const fb = balanceAt(input, stream, b, scratch);
    if (fb === 0) return b;
    const slope = (fb - fa) / (b - a);
    if (!(slope < 0)) return 0;
    const next = b - fb / slope;
    if (!(next > 0.4 * guess && next < 1.7 * guess)) return 0;
    const step = Math.abs(next - b);
    // Secant errors go as the product of the two before: next to b as b is to the point before a.
    if (step < tolerance || step * step < SURE * tolerance * before) {
      scratch[2] = -slope / fall;
      return next;
    }
    before = Math.abs(b - a);
    a = b;
    fa = fb;
    b = next;
  }
  return 0;
}

function largestRoot(balance: (phi: number) => number, zeroLiftInflow: number, tolerance: number): number {
  let high = zeroLiftInflow;
  if (high > 0.02 && high < 1.4 && balance(high) < 0) {
    for (const share of FIRST_STEPS) {
      const low = zeroLiftInflow * share;
      if (balance(low) >= 0) return findRoot(balance, low, high, tolerance);
      high = low;
    }
  }
  high = Math.PI - 1e-6;
  for (let i = 1; i <= 2 * WIDE_STEPS; i++) {
    const t = 1 - i / WIDE_STEPS;
    // Steps shrink toward phi = 0, where weak blades have their root; phi = 0 itself is passed by.
    const low = i === WIDE_STEPS ? -1e-7 : Math.sign(t) * Math.PI * t * t * (1 - 1e-6);
    if (balance(low) >= 0) return findRoot(balance, low, high, tolerance);
    high = low;
  }
  return 0;
}

/**
 * W from the blade speed (W = Omega r / k) or, where that is the worse posed of the two, from the balance along the axis: a
 * rotor that hardly turns in a wind.
 */
function speedAt(input: AnnulusInput, k: number, give: number, size: number, tipFactor: number): number {
  if (k < Math.abs(give)) {
    const drive = input.ducted ? ram(input) / -give : (4 * tipFactor * size * input.axialSpeed) / -give;
    if (drive > 0 && Number.isFinite(drive)) return input.ducted ? Math.sqrt(drive) : drive;
  }
  return k > 1e-9 ? input.bladeSpeed / k : 0;
}
