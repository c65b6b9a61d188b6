import { mapSpeedFor, mapThrust, mapTorque, type FanMap } from '../air/map.ts';
import type { InflowProfile } from '../air/passage.ts';
import { rotorBalance } from '../balance/rotor-balance.ts';
import { hoverEndurance } from '../craft/endurance.ts';
import { driveAt, speedAtThrottle, type Supply } from '../drive/supply.ts';
import type { Project } from '../project/schema.ts';
import { intervalFrom } from '../quantities/interval.ts';
import { angularSpeedFromRpm, millimetresFromMetres, rpmFromAngularSpeed } from '../quantities/units.ts';
import { answersFrom, scaledMap, type Answers } from './answers.ts';
import { compareOpen } from './compare.ts';
import { helpsFor } from './helps.ts';
import { dayOf, mapOf, modelOf, quotedSupply, type Made, type Model } from './model.ts';
import { fanPoint, runAt } from './point.ts';
import { printEffect } from './print-effect.ts';
import { remarksOn } from './remarks.ts';
import { soundOfPoints } from './sound.ts';
import { movedAnswers, type Moved } from './spread.ts';
import { strengthOf } from './strength.ts';
import type { Assessment, FanPoint } from './types.ts';
import { verdictOf } from './verdict.ts';

/** What may be asked beside the project. */
export interface AssessOptions {
  /** Controller duty 0..1 at which one more fan point is wanted. */
  readonly throttle?: number;
  /** How unevenly the lip lets the air in, for example from `ductFlowOf`; left out: evenly. */
  readonly inflow?: InflowProfile;
  /** Whether the blades fly as the printer makes them or as they are drawn; left out: as printed. */
  readonly as?: Made;
}

const withInflow = (model: Model, inflow: InflowProfile | undefined): Model =>
  model.passage && inflow ? { ...model, passage: { ...model.passage, inflow } } : model;

/** Points of the thrust curve along the throttle. */
const CURVE_POINTS = 12;

/**
 * Everything the tool can say of a project without making its solids: does it lift, how well, for how long, and why. Fast
 * (a few ms), pure, synchronous; the same project gives the same answer to the last bit.
 */
export function assess(project: Project, options: AssessOptions = {}): Assessment {
  const model = withInflow(modelOf(project, options.as), options.inflow);
  const supply = quotedSupply(project);
  const map = mapOf(model);
  const fromMap = answersFrom(project, supply, map, model.needed);
  const moved = movedAnswers(model, map, supply, fromMap.hoverSpeed ?? fromMap.fullSpeed);
  const full = pointAtThrottle(model, supply, map, 1);
  const hover = fromMap.hoverSpeed === null ? null : hoverPoint(model, supply, map, fromMap.hoverSpeed);
  const answers = exactAnswers(project, fromMap, full, hover, model.needed);
  const atThrottle =
    options.throttle === undefined ? undefined : pointAtThrottle(model, supply, map, options.throttle);
  const open = hover && compareOpen(model, hover, angularSpeedFromRpm(hover.rpm));
  const lifts = answers.thrustToWeight >= 1;
  // The moved answers come from the map; what the map is off by cancels in the ratio.
  const interval = (pick: (a: Answers) => number | null) => {
    const value = pick(answers) ?? 0;
    const mapped = pick(fromMap) ?? 0;
    const scale = mapped > 0 ? value / mapped : 1;
    return intervalFrom(
      value,
      moved.map((m) => [(pick(m.down) ?? 0) * scale, (pick(m.up) ?? 0) * scale] as const),
    );
  };
  const draft: Omit<Assessment, 'verdict' | 'remarks' | 'helps'> = {
    craft: {
      mass_g: model.mass * 1000,
      hoverThrottle: answers.hoverThrottle,
      hover_min: answers.hoverMinutes,
      thrustToWeight: answers.thrustToWeight,
      lifts,
      thrustToWeightInterval: interval((a) => a.thrustToWeight),
      hoverThrottleInterval: answers.hoverThrottle === null ? null : interval((a) => a.hoverThrottle),
      hoverMinutesInterval: interval((a) => a.hoverMinutes),
      discLoading_Npm2: model.needed / model.discArea,
      batteryShare: project.battery.mass_g / (model.mass * 1000),
      hoverPower_W: (hover?.electricalPower_W ?? 0) * project.craft.fanCount + project.craft.auxiliaryPower_W,
      items: model.items,
      ductOuterDiameter_mm: millimetresFromMetres(
        2 * (model.passage ? model.layout.outerRadius : model.layout.tipRadius),
      ),
    },
    fan: {
      needed_N: model.needed,
      hover,
      full,
      ...(atThrottle && { atThrottle }),
      curve: thrustCurve(supply, map, moved),
      openAtEqualPower: open?.openAtEqualPower ?? null,
      compare: open?.compare ?? null,
    },
    print: printEffect(model, angularSpeedFromRpm((hover ?? full).rpm)),
    air: {
      density_kgpm3: model.air.density,
      viscosity_Pas: model.air.viscosity,
      speedOfSound_mps: model.air.soundSpeed,
      pressure_Pa: model.air.pressure,
    },
    strength: strengthOf(model, map, full, hover),
    sound: soundOfPoints(model, full, hover),
    balance: rotorBalance(project, model.volumes, {
      hover_rpm: hover?.rpm ?? null,
      full_rpm: full.rpm,
      craftMass_g: model.mass * 1000,
    }),
  };
  return {
    verdict: verdictOf(project, draft, answers),
    ...draft,
    remarks: remarksOn(project, model, draft, answers),
    helps: helpsFor(model, map, supply, fromMap),
  };
}

/** The fan where the drive turns it at `throttle`; the map leads there, the fan itself has the last word. */
function pointAtThrottle(model: Model, supply: Supply, map: FanMap, throttle: number): FanPoint {
  const near = speedAtThrottle(supply, (omega) => mapTorque(map, omega), throttle);
  if (near === 0) return fanPoint(model, supply, 0);
  const correction = runAt(model, near).torque / mapTorque(map, near);
  const omega = speedAtThrottle(supply, (w) => correction * mapTorque(map, w), throttle);
  return fanPoint(model, supply, omega);
}

/** The fan where it carries the craft, found as above. */
function hoverPoint(model: Model, supply: Supply, map: FanMap, near: number): FanPoint {
  const correction = runAt(model, near).thrust / mapThrust(map, near);
  const omega = correction > 0 ? mapSpeedFor(scaledMap(map, correction, 1), model.needed) : null;
  return fanPoint(model, supply, omega ?? near);
}

/** The map's answers, with what the two points themselves say in place of it. */
function exactAnswers(
  project: Project,
  fromMap: Answers,
  full: FanPoint,
  hover: FanPoint | null,
  needed: number,
): Answers {
  const thrustToWeight = full.thrust_N / needed;
  const endurance =
    hover && hover.throttle !== null && thrustToWeight >= 1
      ? hoverEndurance(project, hover.torque_Nm, angularSpeedFromRpm(hover.rpm), dayOf(project))
      : { minutes: 0, failsAtCharge: 1 };
  return {
    ...fromMap,
    thrustToWeight,
    fullThrust: full.thrust_N,
    hoverThrottle: hover?.throttle ?? null,
    hoverMinutes: endurance.minutes,
    failsAtCharge: endurance.failsAtCharge,
  };
}

/** Thrust along the throttle with its interval: the speed moves with the load, so each moved fan finds its own. */
function thrustCurve(supply: Supply, map: FanMap, moved: readonly Moved[]): Assessment['fan']['curve'] {
  const movedMaps = moved.map(({ factors }) =>
    factors.map((f) => (f.thrust === 1 && f.torque === 1 ? map : scaledMap(map, f.thrust, f.torque))),
  );
  return Array.from({ length: CURVE_POINTS }, (_, i) => {
    const throttle = (i + 1) / CURVE_POINTS;
    const run = (m: FanMap) => {
      const torqueAt = (omega: number) => mapTorque(m, omega);
      const omega = speedAtThrottle(supply, torqueAt, throttle);
      return { omega, thrust: mapThrust(m, omega) };
    };
    const { omega, thrust } = run(map);
    const band = intervalFrom(
      thrust,
      movedMaps
        .filter(([down]) => down !== map)
        .map(([down, up]) => [run(down).thrust, run(up).thrust] as const),
    );
    return {
      throttle,
      rpm: rpmFromAngularSpeed(omega),
      thrust_N: thrust,
      thrustLow_N: band.low,
      thrustHigh_N: band.high,
      electricalPower_W:
        omega > 0 ? (driveAt(supply, mapTorque(map, omega), omega)?.electricalPower ?? 0) : 0,
    };
  });
}
