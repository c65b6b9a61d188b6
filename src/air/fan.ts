import { interpolateLinear } from '../numerics/interpolate.ts';
import type { Air } from './atmosphere.ts';
import { solveAnnulus, type AnnulusInput, type AnnulusState } from './annulus.ts';
import { gapEfficiencyLoss, gapShare } from './gap.ts';
import { idealPower } from './momentum.ts';
import { vaneRecovery, type Passage } from './passage.ts';
import type { RotorAir } from './rotor.ts';
import { insideTorque, outsideTorque, ringLeak } from './tip-ring.ts';
import type { SectionConstants } from './section-constants.ts';
import { sectionStream } from './section.ts';

/** How the fan runs. */
export interface FanRun {
  /** Angular speed [rad/s]; negative: turned the wrong way round. */
  readonly omega: number;
  /** Speed of the air toward the fan along its axis [m/s]; negative: the fan sinks through it. */
  readonly axialSpeed: number;
  /** Factor on section drag, for intervals and diagnosis. */
  readonly dragFactor?: number;
  /** Factor on section lift slope. */
  readonly liftFactor?: number;
  /** Constants of the section form, for fits and blind checks; left out: the fitted ones. */
  readonly constants?: SectionConstants;
  /** Blade pressure kept whole at the gap and no section drag: for the ideal limits. */
  readonly ideal?: boolean;
}

/** Where the shaft power goes [W]; the items add up to it but for the closure error. */
export interface Ledger {
  /** Least power momentum allows for this thrust through this area. */
  readonly ideal: number;
  /** Price of a jet that is faster at some radii than at others; in an open rotor with the tip and root losses. */
  readonly unevenJet: number;
  readonly profileDrag: number;
  /** What flows over the tips; with a tip ring, what leaks past it and the drag of the ring in the air. */
  readonly tipGap: number;
  readonly swirl: number;
  readonly inletLip: number;
  readonly wallFriction: number;
  readonly hubBase: number;
  readonly struts: number;
  readonly exitExpansion: number;
}

/** One fan at one running point. SI; arrays hub to tip. */
export interface FanAir {
  readonly thrust: number;
  readonly rotorThrust: number;
  readonly torque: number;
  readonly shaftPower: number;
  readonly massFlow: number;
  /** Mean over mass flow. */
  readonly axialVelocity: number;
  readonly exitVelocity: number;
  readonly idealPower: number;
  readonly ledger: Ledger;
  /** Shaft power less the sum of the ledger [W] */
  readonly ledgerError: number;
  readonly annuli: readonly AnnulusState[];
  readonly exitVelocities: Float64Array;
  readonly reynolds: Float64Array;
}

/**
 * The first round solves every third annulus, to find the mean flow for the gap loss and where to look in the others; the
 * second solves all. The ledger closes after either. Accuracies are on the inflow angle [rad].
 */
const FIRST_STRIDE = 3;
const FIRST_TOLERANCE = 1e-8;
const LAST_TOLERANCE = 1e-12;

/**
 * Thrust, torque and power of a rotor, in a duct (`passage`) or open (`null`), annulus by annulus from tip to hub.
 * Range: any finite input; see `annulus.ts` for the equations and what is promised. Net thrust of a ducted fan is
 * sum m_i (V_e - V_0) less the suction of the swirl left in the exit (radial equilibrium dp/dr = rho V_t^2 / r);
 * duct and vanes carry the difference to the rotor's own thrust.
 */
export function runFan(rotor: RotorAir, passage: Passage | null, air: Air, request: FanRun): FanAir {
  const n = rotor.radius.length;
  const backward = request.omega < 0;
  const run: FanRun = {
    ...request,
    omega: stillIfTiny(request.omega),
    axialSpeed: stillIfTiny(request.axialSpeed),
  };
  const omega = Math.abs(run.omega);
  const job: Job = {
    rotor,
    passage,
    air,
    run,
    omega,
    backward,
    states: new Array(n),
    suctions: new Float64Array(n),
    reynolds: new Float64Array(n),
    axial: new Float64Array(n).fill(Number.NaN),
    swirl: new Float64Array(n),
    exitRatio: localExitRatios(rotor, passage),
    scratch: Float64Array.of(0, 0, 1),
  };
  const given = passage?.swirlRecovery ?? 0;
  solveAll(job, FIRST_STRIDE, { gapShare: 0, recovery: given }, FIRST_TOLERANCE);
  const settled: Settled = {
    gapShare: passage && !run.ideal ? gapShareOf(job) : 0,
    recovery: passage?.vanes ? vaneRecovery(passage.vanes, swirlAngleOf(job)) : given,
  };
  spreadGuesses(job);
  solveAll(job, 1, settled, LAST_TOLERANCE);
  return sumUp(job, settled);
}

/** What the first round settles for the second: share of blade pressure lost at the gap, of swirl energy recovered. */
interface Settled {
  readonly gapShare: number;
  readonly recovery: number;
}

/** One call's working state. */
interface Job {
  readonly rotor: RotorAir;
  readonly passage: Passage | null;
  readonly air: Air;
  readonly run: FanRun;
  readonly omega: number;
  readonly backward: boolean;
  readonly states: AnnulusState[];
  readonly suctions: Float64Array;
  readonly reynolds: Float64Array;
  /** Guessed axial and swirl velocity in each annulus [m/s]; NaN: none */
  readonly axial: Float64Array;
  readonly swirl: Float64Array;
  /** Axial velocity over exit velocity in each annulus; empty for an open rotor. */
  readonly exitRatio: Float64Array;
  /** See `solveAnnulus`. */
  readonly scratch: Float64Array;
}

/** Speeds whose squares would drown in rounding are no speeds. */
const stillIfTiny = (speed: number) => (Math.abs(speed) < 1e-6 ? 0 : speed);

/** Solves every `stride`-th annulus from the tip in, each standing for its inner neighbours left out. */
function solveAll(job: Job, stride: number, { gapShare, recovery }: Settled, tolerance: number): void {
  const { rotor, passage, air, run, omega, states, axial, swirl } = job;
  const loss = passage ? totalLoss(passage) : 0;
  // One object for all annuli: a new one each would cost more than the numbers in it.
  const input: { -readonly [K in keyof AnnulusInput]: AnnulusInput[K] } = {
    ducted: passage !== null,
    bladeCount: rotor.bladeCount,
    hubRadius: rotor.hubRadius,
    tipRadius: rotor.tipRadius,
    radius: NaN,
    solidity: NaN,
    bladeAngle: NaN,
    bladeSpeed: NaN,
    axialSpeed: run.axialSpeed,
    head: NaN,
    headReversed: passage ? 1 / passage.reversedExitRatio ** 2 + passage.reversedLoss : 0,
    gapShare,
    swirlRecovery: recovery,
    swirlFactor: run.ideal ? 0 : 1,
    exitSuction: NaN,
  };
  let suction = 0;
  let last = 0;
  for (let i = rotor.radius.length - 1; i >= 0; i -= stride) {
    const r = rotor.radius[i];
    const bladeSpeed = omega * r;
    // The guess of the flow, else of the outer neighbour, gives the Reynolds number and where to look for the root.
    const known = Number.isNaN(axial[i]) ? i + stride : i;
    const through = known < axial.length ? axial[known] : run.axialSpeed;
    const across = bladeSpeed - (known < axial.length ? swirl[known] : 0) / 2;
    const speed = Math.sqrt(through * through + across * across);
    job.reynolds[i] = (air.density * speed * rotor.chord[i]) / air.viscosity;
    const stream = sectionStream(
      rotor.sections[i],
      job.reynolds[i],
      speed / air.soundSpeed,
      rotor.chord[i] / r,
      rotor.lattice[i] * (run.liftFactor ?? 1),
      run.constants,
      run.ideal ? 0 : run.dragFactor,
    );
    input.radius = r;
    input.solidity = (rotor.bladeCount * rotor.chord[i]) / (2 * Math.PI * r);
    input.bladeAngle = job.backward ? Math.PI - rotor.angle[i] : rotor.angle[i];
    input.bladeSpeed = bladeSpeed;
    input.head = passage ? 1 / job.exitRatio[i] ** 2 + loss : 0;
    input.exitSuction = passage ? suction + last / 2 : 0;
    job.suctions[i] = input.exitSuction;
    const guess = known < axial.length ? Math.atan2(through, across) : Number.NaN;
    const state = solveAnnulus(input, stream, guess, tolerance, job.scratch);
    states[i] = state;
    axial[i] = state.axialVelocity;
    swirl[i] = state.swirlVelocity;
    if (passage) {
      let width = 0;
      for (let k = i; k > i - stride && k >= 0; k--) width += rotor.width[k];
      last = ((1 - recovery) * carriedSwirl(state) * width) / r;
      suction += last;
    }
  }
}

/**
 * Axial velocity over exit velocity, annulus by annulus: the passage's ratio, times how much more or less than the mean the
 * lip lets in at that radius (its area mean made 1, so that the jet keeps its area).
 */
function localExitRatios(rotor: RotorAir, passage: Passage | null): Float64Array {
  if (!passage) return new Float64Array(0);
  const { inflow, exitRatio } = passage;
  if (!inflow) return new Float64Array(rotor.radius.length).fill(exitRatio);
  const ratio = rotor.radius.map((r) => Math.max(0.1, interpolateLinear(inflow.radius, inflow.ratio, r)));
  let area = 0;
  let sum = 0;
  ratio.forEach((x, i) => {
    const ring = rotor.radius[i] * rotor.width[i];
    area += ring;
    sum += ring * x;
  });
  return ratio.map((x) => (x * exitRatio * area) / sum);
}

/** Mean angle of the swirl behind the rotor to the axis [rad], by mass flow, from the first round. */
function swirlAngleOf({ rotor, states }: Job): number {
  let axial = 0;
  let swirl = 0;
  for (let i = states.length - 1; i >= 0; i -= FIRST_STRIDE) {
    const { axialVelocity, swirlVelocity } = states[i];
    const flow = Math.max(0, axialVelocity) * rotor.radius[i] * rotor.width[i];
    axial += flow * Math.max(0, axialVelocity);
    swirl += flow * swirlVelocity;
  }
  return axial > 0 ? Math.atan2(swirl, axial) : 0;
}

/** Velocities between the annuli of the first round, by straight lines over the radius; held at the hub. */
function spreadGuesses({ rotor, axial, swirl }: Job): void {
  const n = axial.length;
  for (let i = n - 1; i >= 0; i -= FIRST_STRIDE) {
    const inner = i - FIRST_STRIDE;
    for (let k = i - 1; k > Math.max(inner, -1); k--) {
      const t =
        inner >= 0 ? (rotor.radius[i] - rotor.radius[k]) / (rotor.radius[i] - rotor.radius[inner]) : 0;
      axial[k] = axial[i] + t * (axial[Math.max(inner, 0)] - axial[i]);
      swirl[k] = swirl[i] + t * (swirl[Math.max(inner, 0)] - swirl[i]);
    }
  }
}

/** Axial over swirl velocity below which an annulus no longer carries its swirl to the exit. */
const CARRIES = 0.03;

/** Swirl velocity squared [m2/s2] that reaches the exit: all of it with a healthy flow, none without flow. */
function carriedSwirl({ axialVelocity, swirlVelocity }: AnnulusState): number {
  if (!(axialVelocity > 0)) return 0;
  const flow = axialVelocity ** 2;
  const swirl = swirlVelocity ** 2;
  return (swirl * flow) / (flow + CARRIES ** 2 * swirl);
}

/** Sum of a passage's loss coefficients on 1/2 rho V_x^2. */
export function totalLoss({ losses }: Passage): number {
  return losses.inletLip + losses.wallFriction + losses.hubBase + losses.struts + losses.exitExpansion;
}

/** The share of blade pressure lost at the gap, from the last round's mean flow. */
function gapShareOf({ rotor, passage, air, omega, states }: Job): number {
  const tipSpeed = omega * rotor.tipRadius;
  if (!passage || !(passage.gapOverHeight > 0) || tipSpeed === 0) return 0;
  let area = 0;
  let flow = 0;
  let force = 0;
  for (let i = states.length - 1; i >= 0; i -= FIRST_STRIDE) {
    const ring = rotor.radius[i] * rotor.width[i];
    area += ring;
    flow += Math.max(0, states[i].axialVelocity) * ring;
    force += rotor.chord[i] * rotor.width[i] * states[i].relativeSpeed ** 2 * states[i].cx;
  }
  const pressure = ((air.density / 2) * rotor.bladeCount * Math.max(0, force)) / (2 * Math.PI * area);
  // Past a ring the air leaks back instead: that share of the flow was pressed in vain, taken as that share of the pressure.
  if (rotor.tipRing && flow > 0)
    return gapShare(ringLeak(rotor.tipRing, gapOf(rotor, passage), air, pressure) / (2 * Math.PI * flow));
  const psi = pressure / ((air.density / 2) * tipSpeed ** 2);
  return gapShare(gapEfficiencyLoss(passage.gapOverHeight, psi, flow / area / tipSpeed, passage.bladeAspect));
}

/** The gap at the tips [m]. */
const gapOf = ({ tipRadius, hubRadius }: RotorAir, passage: Passage): number =>
  passage.gapOverHeight * (tipRadius - hubRadius);

/** Torque that the tip ring takes from the shaft [N m], against the turning; 0 without a ring. */
function ringTorque({ rotor, passage, air, run, omega, states }: Job): number {
  if (!rotor.tipRing || run.ideal) return 0;
  const tip = states[states.length - 1];
  const across = omega * rotor.tipRing.innerRadius - tip.swirlVelocity;
  return (
    outsideTorque(rotor.tipRing, passage ? gapOf(rotor, passage) : null, air, omega) +
    insideTorque(rotor.tipRing, air, tip.axialVelocity, across)
  );
}

/** Forces, flow and the ledger, each annulus by what the air carries away (not by what the blade gave). */
function sumUp(job: Job, { gapShare: share, recovery }: Settled): FanAir {
  const { rotor, passage, air, run, omega, states, suctions, reynolds } = job;
  const rho = air.density;
  const v0 = run.axialSpeed;
  let thrust = 0;
  let rotorThrust = 0;
  let torque = 0;
  let massFlow = 0;
  let axialMoment = 0;
  let exitMoment = 0;
  let jet = 0;
  let profileDrag = 0;
  let tipGap = 0;
  let swirl = 0;
  let heads = 0;
  let reversedLip = 0;
  let throughFlow = 0;
  const exitVelocities = new Float64Array(states.length);
  for (let i = 0; i < states.length; i++) {
    const s = states[i];
    const r = rotor.radius[i];
    const ring = 2 * Math.PI * r * rotor.width[i];
    const blade = (rho / 2) * s.relativeSpeed ** 2 * rotor.bladeCount * rotor.chord[i] * rotor.width[i];
    const axialForce = blade * s.cx;
    rotorThrust += axialForce;
    torque += blade * s.ct * r;
    profileDrag += blade * s.cd * s.relativeSpeed;
    const vx = s.axialVelocity;
    const flow = Math.abs(vx) * ring;
    const swirlHead = (rho / 2) * s.swirlVelocity ** 2;
    let exitVelocity: number;
    if (!passage) {
      exitVelocity = 2 * vx - v0;
      const through = 2 * rho * s.tipFactor * flow;
      thrust += axialForce;
      jet += through * (vx - v0) * vx;
      swirl += (through * s.swirlVelocity ** 2) / 4;
    } else if (vx >= 0) {
      exitVelocity = vx / job.exitRatio[i];
      thrust += rho * flow * (exitVelocity - v0) - rho * suctions[i] * ring * job.exitRatio[i];
      jet += flow * (rho / 2) * (exitVelocity ** 2 - v0 * Math.abs(v0));
      swirl += flow * ((1 - recovery) * swirlHead - rho * suctions[i]);
      tipGap += (Math.max(0, axialForce) / ring) * flow * share;
      heads += flow * (rho / 2) * vx ** 2;
    } else {
      exitVelocity = vx / passage.reversedExitRatio;
      thrust += rho * flow * (exitVelocity - v0);
      jet += flow * (rho / 2) * (exitVelocity ** 2 + v0 * Math.abs(v0) + 2 * suctions[i]);
      swirl += flow * (1 + recovery) * swirlHead;
      tipGap -= (Math.max(0, axialForce) / ring) * flow * share;
      reversedLip += flow * (rho / 2) * vx ** 2 * passage.reversedLoss;
    }
    massFlow += rho * vx * ring;
    axialMoment += flow * vx;
    exitMoment += flow * exitVelocity;
    throughFlow += flow;
    exitVelocities[i] = exitVelocity;
  }
  const ring = ringTorque(job);
  torque += ring;
  tipGap += ring * omega;
  const disc = Math.PI * (rotor.tipRadius ** 2 - rotor.hubRadius ** 2);
  const ideal = idealPower(thrust, disc, passage ? passage.exitRatio : null, rho, v0);
  const losses = passage?.losses;
  const ledger: Ledger = {
    ideal,
    unevenJet: jet - ideal,
    profileDrag,
    tipGap,
    swirl,
    inletLip: heads * (losses?.inletLip ?? 0) + reversedLip,
    wallFriction: heads * (losses?.wallFriction ?? 0),
    hubBase: heads * (losses?.hubBase ?? 0),
    struts: heads * (losses?.struts ?? 0),
    exitExpansion: heads * (losses?.exitExpansion ?? 0),
  };
  const shaftPower = torque * Math.abs(run.omega);
  const total = Object.values(ledger).reduce((a: number, b: number) => a + b, 0);
  return {
    thrust,
    rotorThrust,
    torque: job.backward ? -torque : torque,
    shaftPower,
    massFlow,
    axialVelocity: throughFlow > 0 ? axialMoment / throughFlow : 0,
    exitVelocity: throughFlow > 0 ? exitMoment / throughFlow : 0,
    idealPower: ideal,
    ledger,
    ledgerError: shaftPower - total,
    annuli: states,
    exitVelocities,
    reynolds,
  };
}
