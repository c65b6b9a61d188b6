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
  /** Share of the no-load current at `noLoadSpeed` that does not grow with speed (bearings, hysteresis). */
  readonly steadyShare: number;
}

/** Copper gains 0.39 % resistance a kelvin. Source: IEC 60028 (annealed copper at 20 C: 0.00393 / K). */
const COPPER_TEMPERATURE_COEFFICIENT = 0.00393;

/** Resistance of copper at `temperature_C` over that at 20 °C; straight, good from -50 to 200 °C. Never below a tenth. */
export const copperFactor = (temperature_C: number): number =>
  Math.max(0.1, 1 + COPPER_TEMPERATURE_COEFFICIENT * (temperature_C - 20));

/** Winding above the temperature of the resistance reading while it works [K]. Common practice, no source. */
export const WINDING_RISE = 40;

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
    resistance: cold * copperFactor(20 + rise),
    noLoadCurrent: motor.noLoadCurrent_A,
    noLoadSpeed: velocityConstant * noLoadVoltage,
    steadyShare: motor.noLoadSteady_ratio,
  };
}

/**
 * No-load current [A] at `omega` [rad/s]: a steady share, and the rest growing with speed (eddy currents and air). Where
 * nobody measured the split it is half and half: common practice, no source.
 */
export function noLoadCurrentAt(motor: MotorConstants, omega: number): number {
  const growing = (1 - motor.steadyShare) * (Math.abs(omega) / motor.noLoadSpeed);
  return motor.noLoadCurrent * (motor.steadyShare + growing);
}

/** Current [A] for shaft torque [Nm]: I = Q K_v + I_0. Source: first-order direct-current machine; e.g. Hughes and Drury, Electric Motors and Drives, ch. 3 (from memory). */
export function motorCurrent(motor: MotorConstants, torque: number, omega: number): number {
  return torque * motor.velocityConstant + noLoadCurrentAt(motor, omega);
}

/** Voltage across the winding [V]: V = Omega / K_v + I R. */
export function motorVoltage(motor: MotorConstants, current: number, omega: number): number {
  return omega / motor.velocityConstant + current * motor.resistance;
}
