import type { Air } from '../atmosphere.ts';
import type { RotorAir } from '../rotor.ts';
import { liftDragInto, sectionStream, type SectionStream } from '../section.ts';
import { solveCirculation, type LiftingLine, type LineMatrix } from './circulation.ts';
import { layWake, wakeInfluence, type Influence, type Known, type Wake, type WakeCut } from './influence.ts';
import {
  equivalentTwist_deg,
  RULE_RANGE,
  wakePath,
  type CarriedTip,
  type WakePath,
  type WakeRotor,
  type WakeRule,
} from './path.ts';
import { apart, carry, moved, startCarried } from './settle.ts';

/** What may be chosen; left out: the values the checks are run with. */
export interface HoverWakeOptions {
  readonly rule?: WakeRule;
  /** Factor on section drag and on lift slope, for intervals and diagnosis. */
  readonly dragFactor?: number;
  readonly liftFactor?: number;
  /** How finely the wake is cut. */
  readonly cut?: Partial<WakeCut>;
  /** Thrust coefficient whose wake is used, instead of the rotor's own (for tests of one geometry). */
  readonly wakeThrust?: number;
}

/** An open rotor in hover. SI; arrays hub to tip, one value an annulus. */
export interface HoverWake {
  readonly thrust: number;
  readonly torque: number;
  readonly shaftPower: number;
  /** Velocity of the air through the disc at the blade [m/s], downstream positive. */
  readonly induced: Float64Array;
  /** Velocity of the air in the sense of rotation at the blade [m/s] */
  readonly swirl: Float64Array;
  /** Bound circulation [m2/s] */
  readonly circulation: Float64Array;
  readonly alpha: Float64Array;
  /** T / (rho A (Omega R)^2), A the whole disc to the axis */
  readonly ct: number;
  readonly cp: number;
  /** Thrust and wake agree, and the circulation is solved. Where false the numbers are the last try: do not use them. */
  readonly converged: boolean;
  /** Wakes tried until thrust and wake agreed. */
  readonly rounds: number;
  /** Descent of the tip vortex per radian over R before and after the first passage, as used; zeros without a wake. */
  readonly descent: readonly [number, number];
  /** The tip vortex as it settled; absent where the path is a rule's. */
  readonly tip?: CarriedTip;
  /** Where the published wake rules are used beyond the rotors they were measured on; plain sentences. */
  readonly outside: readonly string[];
}

const DEGREE = Math.PI / 180;

/** Cut of the wake the checks are run with; finer cuts move the thrust by less than the tests say. */
export const WAKE_CUT: Omit<WakeCut, 'tipTurns' | 'sheetTurns'> = {
  rollUp: 30 * DEGREE,
  stepNear: 15 * DEGREE,
  stepFar: 30 * DEGREE,
  tipCore: 0.02,
};

/**
 * Turns drawn before the cylinders take over: enough for eight tip vortices below the disc (four sheets), and enough to
 * reach 1.5 R down (0.75 R), whichever is more; a far wake sinks at about 1.4 sqrt(C_T/2).
 */
export function turnsFor(blades: number, ct: number): Pick<WakeCut, 'tipTurns' | 'sheetTurns'> {
  const turn = 2 * Math.PI * 1.4 * Math.sqrt(ct / 2);
  return {
    tipTurns: Math.min(8, Math.max(2, 8 / blades, 1.5 / turn)),
    sheetTurns: Math.min(4, Math.max(1, 4 / blades, 0.75 / turn)),
  };
}

/** Least thrust coefficient a wake is drawn for; below it the rotor hardly lifts and no wake was measured. */
const LEAST_CT = 2e-4;
/** Largest thrust coefficient a wake is drawn for. */
const MOST_CT = 0.08;
/** Thrust and wake agree to this share of the thrust. */
const AGREE = 5e-4;
const ROUNDS = 14;
/**
 * Depth over R that even inflow carries the wake between two blades, 2 pi sqrt(C_T/2) / B, below which settled wakes
 * depend on how they are cut: four blades at 0.07 gave thrusts 40 % apart, three at 0.10 2 % (measured here).
 */
const CLOSE = 0.1;
/** Share of the thrust by which it may move before the sheet is laid anew. */
const SAME_SHEET = 0.004;
const SETTLE_ROUNDS = 60;
const SETTLED_THRUST = 2e-3;
/** Distance over R within which the tip vortex must stay. */
const SETTLED_PATH = 3e-3;
/** Least descent per radian of a carried tip vortex, over sqrt(C_T/2). */
const LEAST_SINKING = 0.02;

/**
 * Thrust and torque of an open rotor in hover by lifting line in a prescribed, contracted wake: section circulation at
 * each annulus, its changes trailed into a sheet, what lies outboard of the largest circulation rolled up after
 * `rollUp` into one tip vortex with a core, the far wake as vortex cylinders. The path of the wake depends on the thrust,
 * so the thrust is found by repeated solution (secant steps on the thrust coefficient).
 *
 * Range of the wake rules: see `RULE_RANGE`; beyond it the answer is given and `outside` says so. Wants `omega` > 0.
 * Never throws for finite input and every output is finite; see `converged`.
 */
export function hoverWake(
  rotor: RotorAir,
  air: Air,
  omega: number,
  options: HoverWakeOptions = {},
): HoverWake {
  const blade = bladeOf(rotor, air, Math.abs(omega), options);
  if (!(omega > 1e-6)) return stillRotor(rotor);
  const rule = options.rule ?? 'settled';
  const { wake, outside } = wakeRotorOf(rotor, blade);
  const n = blade.line.r.length;
  const state: Solution = {
    gamma: new Float64Array(n),
    w: new Float64Array(n),
    u: new Float64Array(n),
    solved: false,
    peak: -1,
  };
  const clamp = (ct: number) => Math.min(MOST_CT, Math.max(LEAST_CT, ct));
  const start = clamp(options.wakeThrust ?? startThrust(rotor, blade.line, state));
  const cut = { ...WAKE_CUT, ...turnsFor(rotor.bladeCount, start), ...options.cut };
  const pathAt = (ct: number, carried?: CarriedTip) => wakePath(rule, wake, ct, carried);
  let known: Known | undefined;
  let sheetThrust = 0;
  const layAt = (ct: number, carried?: CarriedTip): Wake => {
    // The sheet follows the thrust alone: while that stays, the costly part of the influence stays too.
    const keep = known && carried && Math.abs(ct / sheetThrust - 1) < SAME_SHEET;
    if (!keep) sheetThrust = ct;
    return layWake(pathAt(ct, carried), rotor.bladeCount, blade.edges, cut, keep ? known?.wake : undefined);
  };
  const solveAt = (laid: Wake): number => {
    known = { wake: laid, influence: wakeInfluence(laid, blade.line.r, known) };
    solveIn(blade.line, known.influence, state);
    return forces(rotor, blade.line, state).ct;
  };
  const { agreed, rounds, descent, tip } =
    rule === 'settled'
      ? settle(start, rotor.bladeCount, state, pathAt, layAt, solveAt, clamp)
      : agree(start, options.wakeThrust !== undefined, layAt, solveAt, clamp);
  const force = forces(rotor, blade.line, state);
  const speed = omega * rotor.tipRadius;
  const unit = air.density * Math.PI * rotor.tipRadius ** 2 * speed ** 2;
  const torque = force.cp * unit * rotor.tipRadius;
  if (!inside(RULE_RANGE.thrust, force.ct))
    outside.push(
      `Thrust coefficient ${force.ct.toFixed(4)} lies outside ${RULE_RANGE.thrust.join(' to ')}, where the wake was measured.`,
    );
  const spacing = (2 * Math.PI * Math.sqrt(Math.max(0, force.ct) / 2)) / rotor.bladeCount;
  if (spacing < CLOSE)
    outside.push(
      `Each tip vortex has sunk only about ${spacing.toFixed(3)} R when the next blade comes; below ${CLOSE} R the settled wake is not the same for every cut and the thrust may be far off.`,
    );
  return {
    thrust: force.ct * unit,
    torque,
    shaftPower: torque * omega,
    induced: state.w.map((v) => v * speed),
    swirl: state.u.map((v) => v * speed),
    circulation: state.gamma.map((v) => v * speed * rotor.tipRadius),
    alpha: force.alpha,
    ct: force.ct,
    cp: force.cp,
    converged: agreed && state.solved,
    rounds,
    descent,
    ...(tip && { tip }),
    outside,
  };
}

interface Found {
  readonly agreed: boolean;
  readonly rounds: number;
  readonly descent: readonly [number, number];
  readonly tip?: CarriedTip;
}

/** Secant steps on the thrust coefficient until the wake's and the rotor's are one. */
function agree(
  start: number,
  held: boolean,
  layAt: (ct: number) => Wake,
  solveAt: (wake: Wake) => number,
  clamp: (ct: number) => number,
): Found {
  let at = start;
  let wake = layAt(at);
  let got = solveAt(wake);
  let before = Number.NaN;
  let gotBefore = Number.NaN;
  for (let rounds = 1; rounds <= ROUNDS; rounds++) {
    if (held || Math.abs(got - at) <= AGREE * Math.max(LEAST_CT, Math.abs(got)))
      return { agreed: true, rounds, descent: wake.descent };
    const slope = (got - gotBefore) / (at - before);
    // A steeper answer than the wake can give is noise of the roll-up point; plain steps then.
    const share = slope > -2 && slope < 0.8 ? 1 / (1 - slope) : 0.7;
    const next = clamp(at + share * (got - at));
    if (next === at) break;
    before = at;
    gotBefore = got;
    at = next;
    wake = layAt(at);
    got = solveAt(wake);
  }
  return { agreed: false, rounds: ROUNDS, descent: wake.descent };
}

/** Damped rounds until thrust and tip vortex stay. */
function settle(
  start: number,
  blades: number,
  state: Solution,
  pathAt: (ct: number, carried?: CarriedTip) => WakePath,
  layAt: (ct: number, carried?: CarriedTip) => Wake,
  solveAt: (wake: Wake) => number,
  clamp: (ct: number) => number,
): Found {
  let ct = start;
  let tip = startCarried(pathAt(ct), blades);
  let wake = layAt(ct, tip);
  for (let rounds = 1; rounds <= SETTLE_ROUNDS; rounds++) {
    const got = clamp(solveAt(wake));
    const to = carry(wake, state.gamma, state.peak, tip, LEAST_SINKING * Math.sqrt(got / 2));
    if (Math.abs(got / ct - 1) < SETTLED_THRUST && apart(tip, to) < SETTLED_PATH)
      return { agreed: true, rounds, descent: wake.descent, tip };
    const share = rounds < 15 ? 0.4 : 0.2;
    ct += 0.6 * (got - ct);
    tip = moved(tip, to, share);
    wake = layAt(ct, tip);
  }
  return { agreed: false, rounds: SETTLE_ROUNDS, descent: wake.descent, tip };
}

interface Blade {
  readonly line: LiftingLine;
  readonly edges: Float64Array;
}

interface Solution {
  readonly gamma: Float64Array;
  readonly w: Float64Array;
  readonly u: Float64Array;
  solved: boolean;
  /** Station of the largest circulation; -1 before the first solution. */
  peak: number;
}

function bladeOf(rotor: RotorAir, air: Air, omega: number, options: HoverWakeOptions): Blade {
  const R = rotor.tipRadius;
  const n = rotor.radius.length;
  const edges = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) edges[i] = (rotor.radius[i] - rotor.width[i] / 2) / R;
  edges[n] = 1;
  const streams: SectionStream[] = [];
  for (let i = 0; i < n; i++) {
    const speed = omega * rotor.radius[i];
    const stream = sectionStream(
      rotor.sections[i],
      (air.density * speed * rotor.chord[i]) / air.viscosity,
      speed / air.soundSpeed,
      rotor.chord[i] / rotor.radius[i],
    );
    streams.push({
      ...stream,
      slope: stream.slope * (options.liftFactor ?? 1),
      dragFactor: options.dragFactor ?? 1,
    });
  }
  const over = (a: Float64Array) => a.map((v) => v / R);
  return { line: { r: over(rotor.radius), chord: over(rotor.chord), angle: rotor.angle, streams }, edges };
}

/** What the wake rules read, held inside their range, and what had to be held. */
function wakeRotorOf(rotor: RotorAir, { line, edges }: Blade): { wake: WakeRotor; outside: string[] } {
  const n = line.r.length;
  const width = line.r.map((_, i) => edges[i + 1] - edges[i]);
  let load = 0;
  let weight = 0;
  for (let i = 0; i < n; i++) {
    load += line.chord[i] * line.r[i] ** 2 * width[i];
    weight += line.r[i] ** 2 * width[i];
  }
  const twist = equivalentTwist_deg(line.r, width, line.angle);
  const [least, most] = RULE_RANGE.twist;
  const outside: string[] = [];
  if (!inside(RULE_RANGE.twist, twist))
    outside.push(
      `Twist of ${twist.toFixed(0)} degrees lies outside ${least} to ${most}; the wake is that of the nearest measured twist.`,
    );
  if (!inside(RULE_RANGE.blades, rotor.bladeCount))
    outside.push(
      `Wakes were measured for ${RULE_RANGE.blades.join(' to ')} blades, not ${rotor.bladeCount}.`,
    );
  const wake = {
    bladeCount: rotor.bladeCount,
    solidity: (rotor.bladeCount * load) / weight / Math.PI,
    twist_deg: Math.min(most, Math.max(least, twist)),
  };
  return { wake, outside };
}

const inside = ([least, most]: readonly [number, number], x: number) => x >= least - 1e-6 && x <= most + 1e-6;

/** Thrust coefficient in the even inflow that momentum gives it; fills the circulation to start from. */
function startThrust(rotor: RotorAir, line: LiftingLine, state: Solution): number {
  const force = new Float64Array(2);
  let ct = 0.005;
  for (let round = 0; round < 12; round++) {
    const inflow = Math.sqrt(Math.max(LEAST_CT, ct) / 2);
    for (let i = 0; i < line.r.length; i++) {
      state.w[i] = inflow;
      state.u[i] = 0;
      liftDragInto(line.streams[i], line.angle[i] - Math.atan2(inflow, line.r[i]), force);
      state.gamma[i] = 0.5 * line.chord[i] * Math.hypot(inflow, line.r[i]) * force[0];
    }
    ct += 0.5 * (forces(rotor, line, state).ct - ct);
  }
  return ct;
}

/** Solves the circulation in one wake; the roll-up point is looked for again until it stays. */
function solveIn(line: LiftingLine, influence: Influence, state: Solution): void {
  if (state.peak < 0) state.peak = peakOf(state.gamma);
  for (let round = 0; round < 4; round++) {
    state.solved = solveCirculation(
      line,
      lineMatrix(influence, line.r.length, state.peak),
      state.gamma,
      state.w,
      state.u,
      1e-6,
    );
    const peak = peakOf(state.gamma);
    if (peak === state.peak) break;
    state.peak = peak;
  }
}

/** The outermost station of largest circulation, not the last one: something must be left to roll up. */
function peakOf(gamma: Float64Array): number {
  let peak = 0;
  for (let i = 0; i < gamma.length - 1; i++) if (gamma[i] >= gamma[peak]) peak = i;
  return peak;
}

/** Velocities by circulation of stations, from velocities by circulation trailed at edges. */
function lineMatrix(influence: Influence, n: number, peak: number): LineMatrix {
  const axial = new Float64Array(n * n);
  const swirl = new Float64Array(n * n);
  const m = n + 1;
  for (let i = 0; i < n; i++) {
    let a = influence.sheetAxial[i * m];
    let s = influence.sheetSwirl[i * m];
    for (let k = 0; k < n; k++) {
      const j = i * m + k + 1;
      const outer = k + 1 > peak;
      const nextA = outer ? influence.outerAxial[j] + influence.tipAxial[i] : influence.sheetAxial[j];
      const nextS = outer ? influence.outerSwirl[j] + influence.tipSwirl[i] : influence.sheetSwirl[j];
      // Edge k trails gamma[k-1] - gamma[k].
      axial[i * n + k] = nextA - a;
      swirl[i * n + k] = nextS - s;
      a = nextA;
      s = nextS;
    }
  }
  return { axial, swirl };
}

function forces(
  rotor: RotorAir,
  line: LiftingLine,
  state: Solution,
): { ct: number; cp: number; alpha: Float64Array } {
  const force = new Float64Array(2);
  const alpha = new Float64Array(line.r.length);
  let thrust = 0;
  let torque = 0;
  for (let i = 0; i < line.r.length; i++) {
    const along = line.r[i] - state.u[i];
    const speed = Math.hypot(state.w[i], along);
    const sin = state.w[i] / speed;
    const cos = along / speed;
    alpha[i] = line.angle[i] - Math.atan2(state.w[i], along);
    liftDragInto(line.streams[i], alpha[i], force);
    const blade = (0.5 * speed * speed * line.chord[i] * rotor.width[i]) / rotor.tipRadius;
    thrust += blade * (force[0] * cos - force[1] * sin);
    torque += blade * (force[0] * sin + force[1] * cos) * line.r[i];
  }
  const scale = rotor.bladeCount / Math.PI;
  return { ct: thrust * scale, cp: torque * scale, alpha };
}

function stillRotor(rotor: RotorAir): HoverWake {
  const none = () => new Float64Array(rotor.radius.length);
  return {
    thrust: 0,
    torque: 0,
    shaftPower: 0,
    induced: none(),
    swirl: none(),
    circulation: none(),
    alpha: none(),
    ct: 0,
    cp: 0,
    converged: false,
    rounds: 0,
    descent: [0, 0],
    outside: ['The rotor does not turn in its own sense; no wake is drawn for it.'],
  };
}
