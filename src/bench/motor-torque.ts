import { motorConstants, noLoadCurrentAt } from '../drive/motor.ts';
import { findRoot } from '../numerics/root.ts';
import type { Design } from '../project/schema.ts';
import type { Interval } from '../quantities/interval.ts';
import { around, propagated } from './errors.ts';

/**
 * Half-widths (90 %, over the value) of the motor and controller constants where nobody measured them on the bench: as in
 * the assessment; no-load current and switching from common practice, no source.
 */
export const DRIVE_HALF_WIDTHS = {
  velocityConstant: 0.05,
  resistance: 0.15,
  noLoadCurrent: 0.3,
  ripple: 1,
} as const;

/** Highest duty a solution may have: above 1 only by what the constants are off. */
const HIGHEST_DUTY = 1.15;

/** Constants that turn volts, amps and speed into torque. */
interface Constants {
  readonly velocityConstant: number;
  readonly resistance: number;
  readonly noLoadCurrent: number;
  readonly ripple: number;
}

/**
 * Shaft torque [N m] of a fan whose pack voltage, current from the pack and speed were read, by the motor's constants:
 *   d V = I R + Omega / K_v,   I_b = d I (1 + s (1 - d)) + g V d^2 (1 - d)^2,   Q = (I - I_0) / K_v
 * two equations for duty d and motor current I. At full throttle d is 1 and I = I_b. NaN where no duty up to 1.15 fits.
 */
function torqueBy(
  design: Design,
  constants: Constants,
  voltage: number,
  current: number,
  omega: number,
  full: boolean,
): number {
  const motor = motorConstants(design.motor);
  const velocityConstant = motor.velocityConstant * constants.velocityConstant;
  const resistance = motor.resistance * constants.resistance + design.controller.resistance_mohm * 1e-3;
  const idle = noLoadCurrentAt(motor, omega) * constants.noLoadCurrent;
  const torque = (motorCurrent: number) => (motorCurrent - idle) / velocityConstant;
  if (full) return torque(current);
  const winding = (duty: number) => (duty * voltage - omega / velocityConstant) / resistance;
  const drawn = (duty: number) => {
    const part = Math.max(0, 1 - duty);
    return (
      duty * winding(duty) * (1 + design.controller.switchingLoss_ratio * part) +
      design.controller.rippleLoss_S * constants.ripple * voltage * (duty * part) ** 2
    );
  };
  const least = omega / velocityConstant / voltage;
  if (!(least > 0) || least > HIGHEST_DUTY) return Number.NaN;
  if (drawn(least) > current || drawn(HIGHEST_DUTY) < current) return Number.NaN;
  return torque(winding(findRoot((duty) => drawn(duty) - current, least, HIGHEST_DUTY, 1e-10)));
}

/** Torque with its 90 % interval from readings and constants; null where they contradict the motor. */
export function torqueFromMotor(
  design: Design,
  voltage: Interval,
  current: Interval,
  omega: Interval,
  throttle: number | null,
): Interval | null {
  const w = DRIVE_HALF_WIDTHS;
  const inputs = [
    voltage,
    current,
    omega,
    around(1, w.velocityConstant),
    around(1, w.resistance),
    around(1, w.noLoadCurrent),
    around(1, w.ripple),
  ];
  const full = throttle !== null && throttle >= 0.985;
  const found = propagated(inputs, (v, i, o, velocityConstant, resistance, noLoadCurrent, ripple) =>
    torqueBy(design, { velocityConstant, resistance, noLoadCurrent, ripple }, v, i, o, full),
  );
  return Number.isFinite(found.value) && found.value > 0 ? found : null;
}
