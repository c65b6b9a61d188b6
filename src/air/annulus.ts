import { findRoot } from '../numerics/root.ts';
import { liftDrag, type SectionStream } from './section.ts';

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

/** Prandtl's tip and root factor of an open rotor. Source: Glauert in Durand, Aerodynamic Theory IV, 1935, div. L. */
export function prandtlFactor(input: AnnulusInput, sinPhi: number): number {
  const s = Math.max(Math.abs(sinPhi), TINY);
  const half = input.bladeCount / 2;
  const tip = (half * (input.tipRadius - input.radius)) / (input.radius * s);
  const root = (half * (input.radius - input.hubRadius)) / (Math.max(input.hubRadius, TINY) * s);
  return Math.max(
    1e-4,
    ((2 / Math.PI) * Math.acos(Math.exp(-tip)) * 2 * Math.acos(Math.exp(-root))) / Math.PI,
  );
}

/** Everything at inflow angle `phi`; `balance` is the residual described above. */
function at(input: AnnulusInput, stream: SectionStream, phi: number) {
  const sin = Math.sin(phi);
  const cos = Math.cos(phi);
  const { cl, cd } = liftDrag(stream, input.bladeAngle - phi);
  const cx = cl * cos - cd * sin;
  const ct = cl * sin + cd * cos;
  const size = Math.max(Math.abs(sin), TINY);
  const tipFactor = input.ducted ? 1 : prandtlFactor(input, sin);
  const tau = (input.solidity * ct) / (2 * tipFactor * size);
  const k = cos + tau / 2;
  const bladePressure = input.solidity * cx * (cx > 0 ? 1 - input.gapShare : 1);
  let give: number;
  let balance: number;
  if (input.ducted) {
    const head = sin > 0 ? input.head : -input.headReversed;
    give = bladePressure + input.swirlRecovery * tau * tau - head * sin * sin;
    balance = input.bladeSpeed ** 2 * give + ram(input) * k * k;
  } else {
    give = input.solidity * cx - 4 * tipFactor * sin * size;
    balance = input.bladeSpeed * give + 4 * tipFactor * size * input.axialSpeed * k;
  }
  return { cl, cd, cx, ct, tau, k, tipFactor, give, balance };
}

const ram = (input: AnnulusInput) => input.axialSpeed * Math.abs(input.axialSpeed) + 2 * input.exitSuction;

/** Inflow angles tried from the largest down, as shares of the largest, before a root is closed in. */
const FIRST_STEPS = [0.8, 0.62, 0.48, 0.36, 0.26, 0.18, 0.11, 0.06, 0.02];
const WIDE_STEPS = 36;

/**
 * Solves one annulus. `stream` is the section at the annulus's Reynolds and Mach number.
 * Never throws for finite input; every output is finite.
 */
export function solveAnnulus(input: AnnulusInput, stream: SectionStream): AnnulusState {
  if (input.bladeSpeed === 0 && (input.ducted ? ram(input) === 0 : input.axialSpeed === 0))
    return stillAir(input, stream);
  // Outside k > 0 the relative speed has no meaning; the balance keeps the sign it has where k reaches zero.
  const balance = (phi: number) => {
    const state = at(input, stream, phi);
    if (state.k > 0) return state.balance;
    return phi > 0 ? -Math.abs(state.balance) - Number.MIN_VALUE : Math.abs(state.balance) + Number.MIN_VALUE;
  };
  const phi = bracketedRoot(balance, input.bladeAngle - stream.thinZeroLift);
  const s = at(input, stream, phi);
  const relativeSpeed = speedAt(input, s.k, s.give, Math.abs(Math.sin(phi)), s.tipFactor);
  return {
    phi,
    relativeSpeed,
    axialVelocity: relativeSpeed * Math.sin(phi),
    swirlVelocity: relativeSpeed * s.tau,
    alpha: input.bladeAngle - phi,
    cl: s.cl,
    cd: s.cd,
    cx: s.cx,
    ct: s.ct,
    tipFactor: s.tipFactor,
  };
}

function bracketedRoot(balance: (phi: number) => number, zeroLiftInflow: number): number {
  let high = zeroLiftInflow > 0.02 && zeroLiftInflow < 1.4 ? zeroLiftInflow : NaN;
  if (Number.isFinite(high) && balance(high) < 0) {
    const top = high;
    for (const share of FIRST_STEPS) {
      const low = top * share;
      if (balance(low) >= 0) return findRoot(balance, low, high, 1e-14);
      high = low;
    }
  }
  high = Math.PI - 1e-6;
  for (let i = 1; i <= 2 * WIDE_STEPS; i++) {
    const t = 1 - i / WIDE_STEPS;
    // Steps shrink toward phi = 0, where weak blades have their root; phi = 0 itself is passed by.
    const low = i === WIDE_STEPS ? -1e-7 : Math.sign(t) * Math.PI * Math.abs(t) ** 2 * (1 - 1e-6);
    if (balance(low) >= 0) return findRoot(balance, low, high, 1e-14);
    high = low;
  }
  return 0;
}

/** W from the blade speed where that is well posed, else from the axial balance (a rotor that stands in a wind). */
function speedAt(input: AnnulusInput, k: number, give: number, size: number, tipFactor: number): number {
  if (k > 0.02) return input.bladeSpeed / k;
  if (input.ducted) {
    const drive = ram(input);
    return drive * -give > 0 ? Math.sqrt(drive / -give) : 0;
  }
  const speed = (4 * tipFactor * size * input.axialSpeed) / -give;
  return Number.isFinite(speed) && speed > 0 ? speed : 0;
}

function stillAir(input: AnnulusInput, stream: SectionStream): AnnulusState {
  const { cl, cd } = liftDrag(stream, input.bladeAngle);
  return {
    phi: 0,
    relativeSpeed: 0,
    axialVelocity: 0,
    swirlVelocity: 0,
    alpha: input.bladeAngle,
    cl,
    cd,
    cx: cl,
    ct: cd,
    tipFactor: 1,
  };
}
