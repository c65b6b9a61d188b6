import type { BladeStation, Fan } from '../project/schema.ts';
import { draft, setUp, type Draft } from './design-draft.ts';
import type { Blade, SetUp } from './design-parts.ts';
import { analyse, pressures, refine, type Analysed, type Point } from './design-refine.ts';
import type { DesignRequest, Loading } from './design-request.ts';
import {
  boundsOf,
  liftBeyondStall,
  outOfReach,
  tooThin,
  unfitRequest,
  unmet,
  type DesignBound,
} from './design-words.ts';
import { runFan, type FanAir } from './fan.ts';
import { loadingLimits, type LoadingLimit } from './limits.ts';
import type { RotorAir } from './rotor.ts';

export type { DesignBound, DesignRequest, Loading };

/** One point off the design. */
export interface DesignCurvePoint {
  readonly omega: number;
  readonly thrust: number;
  readonly torque: number;
  readonly shaftPower: number;
  readonly figureOfMerit: number;
}

export interface BladeDesign {
  readonly ok: true;
  /** The fan with the designed blade, stations in the project's form. */
  readonly fan: Fan;
  readonly stations: readonly BladeStation[];
  readonly rotor: RotorAir;
  /** The designed blade as the fan's own calculation sees it at the wanted speed. */
  readonly run: FanAir;
  /** Pressure rise of the blades in each ring [Pa]: as wanted, and as analysed. */
  readonly wantedPressure: Float64Array;
  readonly pressure: Float64Array;
  /** What held the blade, and where. */
  readonly bounds: readonly DesignBound[];
  readonly limits: readonly LoadingLimit[];
  readonly curve: readonly DesignCurvePoint[];
}

export type DesignResult =
  | BladeDesign
  | {
      readonly ok: false;
      /** Why not, and what would do. */
      readonly reasons: readonly string[];
      /** The most thrust found at this speed [N]; null where none was looked for. */
      readonly mostThrust: number | null;
    };

/** Thrust is met to this share of the wanted. */
export const THRUST_TOLERANCE = 0.005;

/** Rounds in which Prandtl's factor of an open rotor is read off the blade: it moves little from one blade to the next. */
const KEEP_ROUNDS = 2;

/** Speeds of the off-design curve over the design speed. */
const CURVE = [0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3];

/**
 * A blade for a wanted thrust at a wanted speed (the inverse of `runFan`).
 *
 * 1. The flow that gives the thrust with the loading wanted, ring by ring (`design-flow.ts`).
 * 2. In each ring the chord whose section carries its share with the least drag, at its own Reynolds number, thickness and
 *    distance from the stall (`design-section.ts`); evened out, held to what prints and clears, and rounded.
 * 3. With these chords the flow again, and the angle in each ring: inflow angle plus angle of attack.
 * 4. The blade is analysed with `runFan` and turned station by station until it agrees (`design-refine.ts`).
 *
 * Loadings: `uniform`: the same pressure rise everywhere (open rotor: the same inflow, so the pressure falls at tip and
 * root as Prandtl's factor); `free vortex`: r V_t the same everywhere; `printable`: uniform where lift allows, on a chord
 * that is straight from root to tip. Thrust is met within 0.5 % or the answer says why not. At rest only. Never throws for
 * finite input. Sources: the equations of `annulus.ts`; method: Wallis, Axial Flow Fans and Ducts, 1983, in its outline.
 */
export function designBlade(request: DesignRequest): DesignResult {
  const unfit = unfitRequest(request);
  if (unfit.length > 0) return { ok: false, reasons: unfit, mostThrust: null };
  const setup = setUp(request);
  let keep = new Float64Array(setup.rings.length).fill(1);
  for (let round = 0; round < KEEP_ROUNDS && !request.passage; round++) {
    const { fan } = draft(request, setup, keep).blade;
    keep = Float64Array.from(analyse(fan, pointOf(request, setup)).run.annuli, (state) => state.tipFactor);
  }
  return finish(request, setup, draft(request, setup, keep));
}

/** Step 4, or why it is not to be had. */
function finish(request: DesignRequest, setup: SetUp, { best, blade }: Draft): DesignResult {
  const { rotor, stallMargin } = setup;
  const { wanted, reached } = blade.drawn;
  if (!reached)
    return { ok: false, reasons: [outOfReach(request, rotor, wanted)], mostThrust: wanted.thrust };
  const beyond = liftBeyondStall(request, rotor, best.working, stallMargin);
  if (beyond) return { ok: false, reasons: [beyond], mostThrust: null };
  const thin = tooThin(request, setup.stations, blade.fan.blade);
  if (thin) return { ok: false, reasons: [thin], mostThrust: null };
  const target = Float64Array.from(wanted.rings, (flow) => flow.pressure);
  const analysed = refine(blade.fan, target, request.thrust, pointOf(request, setup));
  return conclude(request, setup, blade, target, analysed);
}

const pointOf = (request: DesignRequest, { stallMargin }: SetUp): Point => ({ ...request, stallMargin });

function conclude(
  request: DesignRequest,
  setup: SetUp,
  blade: Blade,
  target: Float64Array,
  analysed: Analysed,
): DesignResult {
  const { fan, rotor, run } = analysed;
  const miss = run.thrust / request.thrust - 1;
  if (!(Math.abs(miss) <= THRUST_TOLERANCE)) {
    return {
      ok: false,
      reasons: [unmet(request, run.thrust)],
      mostThrust: run.thrust,
    };
  }
  const half = request.air.density / 2;
  return {
    ok: true,
    fan,
    stations: fan.blade,
    rotor,
    run,
    wantedPressure: target.map((q) => q * half),
    pressure: pressures(analysed).map((q) => q * half),
    bounds: boundsOf(request, setup.stations, fan.blade, blade.bounds, rotor, blade.drawn.wanted),
    limits: loadingLimits(run, rotor, request.air),
    curve: CURVE.map((share) => {
      const omega = share * request.omega;
      const at = runFan(rotor, request.passage, request.air, { omega, axialSpeed: 0 });
      return {
        omega,
        thrust: at.thrust,
        torque: at.torque,
        shaftPower: at.shaftPower,
        figureOfMerit: at.shaftPower > 0 ? at.idealPower / at.shaftPower : 0,
      };
    }),
  };
}
