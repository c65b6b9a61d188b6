import { findRoot } from '../numerics/root.ts';
import type { Design } from '../project/schema.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { dischargeLimit } from './battery.ts';
import type { DriveLimit, DriveLimits, LimitKind, WindingHeat } from './limit-types.ts';
import { limitWords } from './limit-words.ts';
import { motorConstants, noLoadCurrentAt } from './motor.ts';
import { driveAt, speedAtThrottle, supplyAt, type DriveDay, type DrivePoint } from './supply.ts';
import { HEAT_SPREAD, motorHeat, steadyHeat, timeToHeat, WINDING_LIMIT_C, type HeatLoad } from './thermal.ts';

/** What the drive must turn, at rest in its air; SI. */
export interface FanLoad {
  readonly torqueAt: (omega: number) => number;
  readonly thrustAt: (omega: number) => number;
  /** Air past the motor [m/s] */
  readonly airSpeedAt: (omega: number) => number;
}

export interface LimitOptions extends DriveDay {
  /** Air where it flies [C] */
  readonly air_C: number;
  /** Speed of one fan in hover [rad/s]; null: it cannot hover. One past full throttle counts as none. */
  readonly hoverSpeed: number | null;
  /** 0 empty to 1 full; left out: half. */
  readonly charge?: number;
  /** Highest speed the printed rotor stands [rpm], where that is known. */
  readonly strengthLimit_rpm?: number;
}

/**
 * Every limit of the drive along the throttle at one state of charge, and which binds first. The throttle at which one binds
 * is found by root-finding, as what it limits grows with throttle. Winding: steady state of `motorHeat`, an estimate.
 */
export function driveLimits(design: Design, load: FanLoad, options: LimitOptions): DriveLimits {
  const supply = supplyAt(design, options.charge ?? 0.5, options);
  const speedAt = (throttle: number) => speedAtThrottle(supply, load.torqueAt, throttle);
  const pointAt = (omega: number) => (omega > 0 ? driveAt(supply, load.torqueAt(omega), omega) : null);
  const heatLoad = (omega: number): HeatLoad =>
    heatLoadOf(design, load.torqueAt(omega), omega, options.air_C);
  const winding = (omega: number, spread = 1) =>
    steadyHeat(motorHeat(design.motor, load.airSpeedAt(omega), spread), heatLoad(omega));

  const fullSpeed = speedAt(1);
  const stopped: DrivePoint = {
    throttle: 1,
    motorCurrent: 0,
    batteryCurrent: 0,
    batteryVoltage: supply.rest,
    electricalPower: 0,
    efficiency: 0,
  };
  const fullPoint = pointAt(fullSpeed) ?? stopped;
  const asked = options.hoverSpeed === null ? null : pointAt(options.hoverSpeed);
  const hoverPoint = asked && asked.throttle <= 1 ? asked : null;
  const hoverSpeed = hoverPoint && options.hoverSpeed;

  const packCurrent = (point: DrivePoint) =>
    supply.fans * point.batteryCurrent + supply.auxiliaryPower / point.batteryVoltage;
  const limit = (
    kind: LimitKind,
    path: string,
    unit: DriveLimit['unit'],
    bound: number,
    lasting: boolean,
    value: (omega: number) => number,
  ): DriveLimit => {
    const finite = (omega: number) => {
      const v = value(omega);
      return Number.isFinite(v) ? v : null;
    };
    const excess = (throttle: number) => {
      const omega = speedAt(throttle);
      return omega > 0 ? Math.min(value(omega), 10 * bound) - bound : -bound;
    };
    const reached = fullSpeed > 0 && excess(1) > 0 ? findRoot(excess, 0, 1, 1e-6) : null;
    const there = reached === null ? 0 : speedAt(reached);
    return {
      kind,
      path,
      unit,
      limit: bound,
      lasting,
      hover: hoverSpeed === null ? null : finite(hoverSpeed),
      full: fullSpeed > 0 ? finite(fullSpeed) : 0,
      at:
        reached === null
          ? null
          : { throttle: reached, thrust_N: load.thrustAt(there), rpm: rpmFromAngularSpeed(there) },
    };
  };
  const motorCurrent = (omega: number) => pointAt(omega)?.motorCurrent ?? 0;
  const { motor, controller, battery } = design;
  const limits = [
    limit(
      'motor continuous',
      'motor.continuousCurrent_A',
      'A',
      motor.continuousCurrent_A,
      true,
      motorCurrent,
    ),
    limit('motor burst', 'motor.burstCurrent_A', 'A', motor.burstCurrent_A, false, motorCurrent),
    limit('winding temperature', '', '°C', WINDING_LIMIT_C, true, (w) => winding(w)?.winding_C ?? Infinity),
    limit(
      'controller',
      'controller.continuousCurrent_A',
      'A',
      controller.continuousCurrent_A,
      true,
      motorCurrent,
    ),
    limit('cell current', 'battery.dischargeLimit_C', 'A', dischargeLimit(battery), false, (w) => {
      const point = pointAt(w);
      return point ? packCurrent(point) : 0;
    }),
    ...(options.strengthLimit_rpm === undefined
      ? []
      : [limit('rotor strength', '', 'rpm', options.strengthLimit_rpm, false, rpmFromAngularSpeed)]),
  ].sort((a, b) => (a.at?.throttle ?? 2) - (b.at?.throttle ?? 2));

  const heatOf = (omega: number, from: number | null): WindingHeat => {
    const steady = [1, 1 / HEAT_SPREAD, HEAT_SPREAD].map((s) => winding(omega, s)?.winding_C ?? Infinity);
    const time = [1, HEAT_SPREAD, 1 / HEAT_SPREAD].map((s) =>
      timeToHeat(
        motorHeat(motor, load.airSpeedAt(omega), s),
        heatLoad(omega),
        WINDING_LIMIT_C,
        (from !== null && winding(from, s)) || undefined,
      ),
    );
    return {
      steady_C: Number.isFinite(steady[0]) ? { value: steady[0], low: steady[1], high: steady[2] } : null,
      timeToLimit_s: { value: time[0], low: time[1], high: time[2] },
    };
  };
  const answer = {
    limits,
    first: limits[0].at ? limits[0] : null,
    heat: {
      hover: hoverSpeed === null ? null : heatOf(hoverSpeed, null),
      full: heatOf(fullSpeed, hoverSpeed),
    },
    hoverThrottle: hoverPoint?.throttle ?? null,
    full: { ...fullPoint, rpm: rpmFromAngularSpeed(fullSpeed), thrust_N: load.thrustAt(fullSpeed) },
  };
  return { ...answer, words: limitWords(answer) };
}

/** Loss in a motor at a running point, for its heat. */
export function heatLoadOf(design: Design, torque: number, omega: number, air_C: number): HeatLoad {
  const constants = motorConstants(design.motor, 0);
  const idle = noLoadCurrentAt(constants, omega);
  return {
    current: torque * constants.velocityConstant + idle,
    resistance: constants.resistance,
    idleLoss: (omega / constants.velocityConstant) * idle,
    air_C,
  };
}
