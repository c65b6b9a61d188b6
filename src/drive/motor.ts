import type { Motor } from '../project/schema.ts';
import { angularSpeedFromRpm } from '../quantities/units.ts';

/** A brushless motor as a first-order machine, constants line to line. SI. */
export interface MotorConstants {
  /** [rad/s for each V] */
  readonly velocityConstant: number;
  /** Winding at running temperature [ohm] */
  readonly resistance: number;
  /** No-load current [A] at `noLoadSpeed` [rad/s] */
  readonly noLoadCurrent: number;
  readonly noLoadSpeed: number;
}

/** Copper gains 0.39 % resistance a kelvin. Source: IEC 60028 (annealed copper at 20 C: 0.00393 / K). */
const COPPER_TEMPERATURE_COEFFICIENT = 0.00393;

/** Winding above the temperature of the resistance reading while it works [K]. Common practice, no source. */
export const WINDING_RISE = 40;

/** Share of the no-load current that does not grow with speed (bearings, hysteresis). Common practice, no source. */
const STEADY_SHARE = 0.5;

/** The project's motor in SI, its winding `rise` [K] above the reading. */
export function motorConstants(motor: Motor, rise = WINDING_RISE): MotorConstants {
  const velocityConstant = angularSpeedFromRpm(motor.velocityConstant_rpmPerV);
  const cold = motor.resistance_mohm * 1e-3;
  const noLoadVoltage = Math.max(
    0.1 * motor.noLoadVoltage_V,
    motor.noLoadVoltage_V - motor.noLoadCurrent_A * cold,
  );
  return {
    velocityConstant,
    resistance: cold * (1 + COPPER_TEMPERATURE_COEFFICIENT * rise),
    noLoadCurrent: motor.noLoadCurrent_A,
    noLoadSpeed: velocityConstant * noLoadVoltage,
  };
}

/**
 * No-load current [A] at `omega` [rad/s]: half of it steady, half growing with speed (eddy currents and air). The split is
 * common practice, no source.
 */
export function noLoadCurrentAt(motor: MotorConstants, omega: number): number {
  return motor.noLoadCurrent * (STEADY_SHARE + ((1 - STEADY_SHARE) * Math.abs(omega)) / motor.noLoadSpeed);
}

/** Current [A] for shaft torque [Nm]: I = Q K_v + I_0. Source: first-order direct-current machine; e.g. Hughes and Drury, Electric Motors and Drives, ch. 3 (from memory). */
export function motorCurrent(motor: MotorConstants, torque: number, omega: number): number {
  return torque * motor.velocityConstant + noLoadCurrentAt(motor, omega);
}

/** Voltage across the winding [V]: V = Omega / K_v + I R. */
export function motorVoltage(motor: MotorConstants, current: number, omega: number): number {
  return omega / motor.velocityConstant + current * motor.resistance;
}
