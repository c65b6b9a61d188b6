import { findRoot } from '../numerics/root.ts';
import type { Design } from '../project/schema.ts';
import { packResistance, restVoltage } from './battery.ts';
import { motorConstants, motorCurrent, motorVoltage, type MotorConstants } from './motor.ts';

/** Motor, controller and battery of the whole craft at one state of charge, as equations in the duty d:
 *
 *   d V_b = I (R_m + R_c) + Omega / K_v                 winding and switches
 *   I_b   = d I (1 + s (1 - d)) + g V_b d^2 (1 - d)^2   from the battery, with switching loss s and ripple loss g at part throttle
 *   V_b   = E(charge) - R_b (n I_b + P_x / V_b)         pack sag under n fans and the electronics' power P_x
 */
export interface Supply {
  readonly motor: MotorConstants;
  readonly switchResistance: number;
  readonly switchingLoss: number;
  /**
   * Power of the current's ripple in the winding over (V_b d (1 - d))^2 [1/ohm]: R / (12 (L f)^2) for an inductance L switched
   * at f. 0 where nobody knows it; large where a fast motor of little inductance is switched slowly.
   */
  readonly rippleLoss: number;
  readonly rest: number;
  readonly packResistance: number;
  readonly fans: number;
  readonly auxiliaryPower: number;
}

/** How one fan's drive runs. */
export interface DrivePoint {
  readonly throttle: number;
  readonly motorCurrent: number;
  readonly batteryCurrent: number;
  readonly batteryVoltage: number;
  readonly electricalPower: number;
  /** Shaft power over power taken from the battery. */
  readonly efficiency: number;
}

/** What is not as usual on the day. */
export interface DriveDay {
  /** Temperature of the cells [C]; left out: 20. */
  readonly cell_C?: number;
  /** Winding above the temperature of its resistance reading [K]; left out: 40. */
  readonly windingRise?: number;
}

/** The drive of a design at `charge` (0 empty to 1 full). */
export function supplyAt(design: Design, charge: number, day: DriveDay = {}): Supply {
  const motor = motorConstants(design.motor, day.windingRise);
  const { velocityConstant_factor, windingResistance_factor, packResistance_factor } = design.calibration;
  return {
    motor: {
      ...motor,
      velocityConstant: motor.velocityConstant * velocityConstant_factor,
      resistance: motor.resistance * windingResistance_factor,
    },
    switchResistance: design.controller.resistance_mohm * 1e-3,
    switchingLoss: design.controller.switchingLoss_ratio,
    rippleLoss: design.controller.rippleLoss_S,
    rest: restVoltage(design.battery, charge),
    packResistance: packResistance(design.battery, day.cell_C) * packResistance_factor,
    fans: design.craft.fanCount,
    auxiliaryPower: design.craft.auxiliaryPower_W,
  };
}

/** Current one fan draws from the battery at duty `d` with `current` in its winding, and the voltage left [A, V]. */
function loaded(supply: Supply, duty: number, current: number) {
  const part = Math.max(0, 1 - duty);
  const steady = duty * current * (1 + supply.switchingLoss * part);
  // The ripple draws in proportion to the voltage, like a resistor across the pack.
  const conductance = supply.rippleLoss * (duty * part) ** 2;
  const share = 1 + supply.packResistance * supply.fans * conductance;
  const open = (supply.rest - supply.packResistance * supply.fans * steady) / share;
  // V = open - R P / V, the higher root; a pack that cannot feed the electronics at all keeps half of its voltage.
  const discriminant = open * open - (4 * supply.packResistance * supply.auxiliaryPower) / share;
  const voltage = open > 0 && discriminant > 0 ? (open + Math.sqrt(discriminant)) / 2 : open / 2;
  return { each: steady + conductance * voltage, voltage };
}

/** Largest duty looked at: past it the answer is "more than the battery can give". */
const DUTY_CEILING = 4;

/**
 * The duty that turns the motor at `omega` [rad/s] against `torque` [Nm]. A throttle above 1 says how far the supply falls
 * short; null: no duty up to 4 would do, the pack sags faster than the duty rises.
 */
export function driveAt(supply: Supply, torque: number, omega: number): DrivePoint | null {
  const current = motorCurrent(supply.motor, torque, omega);
  const wanted = motorVoltage(supply.motor, current, omega) + current * supply.switchResistance;
  const short = (duty: number) => duty * loaded(supply, duty, current).voltage - wanted;
  let high = 0;
  for (let step = 1; step <= 16; step++) {
    high = (DUTY_CEILING * step) / 16;
    if (short(high) >= 0) break;
    if (step === 16) return null;
  }
  if (wanted <= 0) return null;
  return pointAt(supply, findRoot(short, 0, high, 1e-13), current, torque * omega);
}

function pointAt(supply: Supply, throttle: number, current: number, shaftPower: number): DrivePoint {
  const { each, voltage } = loaded(supply, throttle, current);
  const electricalPower = each * voltage;
  return {
    throttle,
    motorCurrent: current,
    batteryCurrent: each,
    batteryVoltage: voltage,
    electricalPower,
    efficiency: electricalPower > 0 ? shaftPower / electricalPower : 0,
  };
}

/**
 * Speed [rad/s] at which the motor at duty `throttle` turns a fan that asks for `torqueAt(omega)` [Nm]. Torque must not
 * fall with speed faster than the motor's does; fans never do. 0 where the supply can't turn it at all.
 */
export function speedAtThrottle(
  supply: Supply,
  torqueAt: (omega: number) => number,
  throttle: number,
): number {
  const excess = (omega: number) => {
    const current = motorCurrent(supply.motor, torqueAt(omega), omega);
    const { voltage } = loaded(supply, throttle, current);
    return (
      throttle * voltage - motorVoltage(supply.motor, current, omega) - current * supply.switchResistance
    );
  };
  const top = supply.motor.velocityConstant * supply.rest * Math.max(throttle, 1e-6) * 1.001;
  if (excess(0) <= 0) return 0;
  if (excess(top) > 0) return top;
  return findRoot(excess, 0, top, top * 1e-13);
}
