import { findRoot } from '../numerics/root.ts';
import { gapEfficiencyLoss, gapShare } from './gap.ts';
import { totalLoss } from './fan.ts';
import type { Loading } from './design-request.ts';
import type { Passage } from './passage.ts';

/** The rings a design is made on, hub to tip, and what it knows of each so far. SI. */
export interface DesignRings {
  readonly radius: Float64Array;
  readonly width: Float64Array;
  readonly tipRadius: number;
  readonly omega: number;
  readonly density: number;
  readonly passage: Passage | null;
  /** Share of its loading an open rotor keeps near tip and root (Prandtl's factor); 1 in a duct. */
  readonly keep: Float64Array;
  /** Angle of drag to lift, atan(c_d / c_l) [rad] */
  readonly drag: Float64Array;
  /** Share of blade pressure lost at the gap. */
  readonly gapShare: number;
  /** Power of the radius with which a printable blade's pressure grows outward. */
  readonly outboard: number;
  /** Most that solidity times axial force coefficient may be. */
  readonly mostWork: Float64Array;
}

/** The flow wanted in one ring. */
export interface WantedFlow {
  readonly axialVelocity: number;
  readonly swirlVelocity: number;
  readonly phi: number;
  readonly relativeSpeed: number;
  /** Pressure rise of the blades over half the density [m2/s2] */
  readonly pressure: number;
  /** Solidity times axial force coefficient: pressure / W^2. */
  readonly work: number;
  /** Why it carries less than wanted; null where it does not. */
  readonly held: 'lift' | 'swirl' | null;
}

/**
 * Swirl over blade speed past which a ring is asked for no more: with the usual V_x of two thirds of the blade speed the
 * air then slows to 0.69 of its speed in the row, where de Haller's limit lies.
 */
const MOST_SWIRL = 0.5;

/** The whole disc's flow for one level of loading. */
export interface Wanted {
  readonly rings: readonly WantedFlow[];
  readonly thrust: number;
}

/**
 * The flow that gives `thrust` [N] at rest with the loading wanted. Blades give, in each ring, with q the pressure rise
 * over half the density, g the gap's share, e the share of swirl recovered, h the head and P the suction of the exit swirl
 * (as in `annulus.ts`), gamma = atan(c_d / c_l):
 *
 *   q tan(phi + gamma) = 2 F V_x V_t,   tan phi = V_x / (Omega r - V_t / 2)
 *   in a duct  h V_x^2 = (1 - g) q + e V_t^2 + 2 P / rho,     open  q = 4 F V_x^2
 *
 * `uniform`: q = level F; `printable`: q = level F (r / R)^outboard; `free vortex`: r V_t = level. Rings that cannot carry their share carry what they
 * can, and the others more. Not `reached`: the level was raised until nothing was gained, and that is the answer.
 */
export function flowForThrust(
  rings: DesignRings,
  loading: Loading,
  thrust: number,
): { readonly wanted: Wanted; readonly reached: boolean } {
  const tipSpeed = rings.omega * rings.tipRadius;
  const unit = loading === 'free vortex' ? rings.omega * rings.tipRadius ** 2 : tipSpeed ** 2;
  const short = (level: number) => flowAt(rings, loading, level * unit).thrust - thrust;
  let high = 0.01;
  for (let last = -Infinity; ; high *= 2) {
    const now = short(high);
    if (now >= 0) break;
    if (high > 4 || (high > 0.1 && now - last < 1e-9 * thrust)) {
      return { wanted: flowAt(rings, loading, high * unit), reached: false };
    }
    last = now;
  }
  const level = findRoot(short, 0, high, 1e-7 * high);
  return { wanted: flowAt(rings, loading, level * unit), reached: true };
}

/** Share of blade pressure lost at the gap in this flow; 0 for an open rotor. */
export function gapShareIn(rings: DesignRings, flows: readonly WantedFlow[]): number {
  const { passage } = rings;
  if (!passage || !(passage.gapOverHeight > 0)) return 0;
  const tipSpeed = rings.omega * rings.tipRadius;
  let area = 0;
  let axial = 0;
  let pressure = 0;
  flows.forEach((flow, i) => {
    const ring = rings.radius[i] * rings.width[i];
    area += ring;
    axial += flow.axialVelocity * ring;
    pressure += flow.pressure * ring;
  });
  const psi = pressure / area / tipSpeed ** 2;
  return gapShare(
    gapEfficiencyLoss(passage.gapOverHeight, psi, axial / area / tipSpeed, passage.bladeAspect),
  );
}

function flowAt(rings: DesignRings, loading: Loading, level: number): Wanted {
  const { radius, width, passage, omega, density } = rings;
  const flows: WantedFlow[] = new Array(radius.length);
  let suction = 0;
  let last = 0;
  let thrust = 0;
  for (let i = radius.length - 1; i >= 0; i--) {
    const r = radius[i];
    const outside = suction + last / 2;
    const ring: Ring = {
      bladeSpeed: omega * r,
      keep: rings.keep[i],
      drag: rings.drag[i],
      kept: 1 - rings.gapShare,
      head: passage ? 1 / passage.exitRatio ** 2 + totalLoss(passage) : 0,
      recovery: passage?.swirlRecovery ?? 0,
      suction: passage ? outside : 0,
      ducted: passage !== null,
    };
    const flow = flowInRing(ring, loading, aimAt(rings, loading, level, r), rings.mostWork[i]);
    flows[i] = flow;
    const area = 2 * Math.PI * r * width[i];
    if (passage) {
      last = ((1 - passage.swirlRecovery) * flow.swirlVelocity ** 2 * width[i]) / r;
      suction += last;
      thrust += density * area * (flow.axialVelocity ** 2 / passage.exitRatio - outside * passage.exitRatio);
    } else thrust += (density / 2) * flow.pressure * area;
  }
  return { rings: flows, thrust };
}

/** The swirl (free vortex) or the pressure over half the density (else) asked of the ring at `r`. */
function aimAt({ tipRadius, outboard }: DesignRings, loading: Loading, level: number, r: number): number {
  if (loading === 'free vortex') return level / r;
  return loading === 'printable' ? level * (r / tipRadius) ** outboard : level;
}

interface Ring {
  readonly bladeSpeed: number;
  readonly keep: number;
  readonly drag: number;
  readonly kept: number;
  readonly head: number;
  readonly recovery: number;
  readonly suction: number;
  readonly ducted: boolean;
}

function flowInRing(ring: Ring, loading: Loading, aim: number, mostWork: number): WantedFlow {
  const mostSwirl = MOST_SWIRL * ring.bladeSpeed;
  let swirl = mostSwirl;
  let held: WantedFlow['held'] = 'swirl';
  if (loading === 'free vortex') {
    if (aim <= mostSwirl) {
      swirl = aim;
      held = null;
    }
  } else {
    const short = (v: number) => withSwirl(ring, v).pressure - aim * ring.keep;
    if (short(mostSwirl) >= 0) {
      swirl = short(0) >= 0 ? 0 : findRoot(short, 0, mostSwirl, 1e-7 * mostSwirl);
      held = null;
    }
  }
  const flow = withSwirl(ring, swirl);
  if (flow.work <= mostWork) return { ...flow, held };
  const spare = (v: number) => mostWork - withSwirl(ring, v).work;
  const less = spare(0) <= 0 ? 0 : findRoot(spare, 0, swirl, 1e-7 * mostSwirl);
  return { ...withSwirl(ring, less), held: 'lift' };
}

/** The ring's flow when the blades leave the swirl `swirl` [m/s] behind them. */
function withSwirl(ring: Ring, swirl: number): Omit<WantedFlow, 'held'> {
  const along = ring.bladeSpeed - swirl / 2;
  let axial = ring.ducted
    ? Math.sqrt((2 * ring.kept * swirl * along + 2 * ring.suction) / ring.head)
    : Math.sqrt((swirl * along) / 2);
  let phi = Math.atan2(axial, along);
  let pressure = 0;
  // A contraction by about the drag angle over the inflow angle: a dozen steps leave no more than rounding.
  for (let i = 0; i < 40 && axial > 0; i++) {
    // Past a right angle drag eats all the pressure: the ring then moves no air of its own.
    pressure = Math.max(0, (2 * ring.keep * axial * swirl) / Math.tan(phi + ring.drag));
    const next = ring.ducted
      ? Math.sqrt((ring.kept * pressure + ring.recovery * swirl ** 2 + 2 * ring.suction) / ring.head)
      : Math.sqrt(Math.max(0, (axial * swirl) / (2 * Math.tan(phi + ring.drag))));
    const settled = Math.abs(next - axial) <= 1e-8 * next;
    axial = next;
    phi = Math.atan2(axial, along);
    if (settled) break;
  }
  if (axial > 0) pressure = Math.max(0, (2 * ring.keep * axial * swirl) / Math.tan(phi + ring.drag));
  const relativeSpeed = Math.hypot(axial, along);
  return {
    axialVelocity: axial,
    swirlVelocity: swirl,
    phi,
    relativeSpeed,
    pressure,
    work: pressure / relativeSpeed ** 2,
  };
}
