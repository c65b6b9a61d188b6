import { angularSpeedFromRpm } from '../quantities/units.ts';
import { copperFactor } from './motor.ts';

/** The shaft free, a steady voltage on the motor. */
export interface NoLoadReading {
  /** At the motor: with the controller at full command, the battery's or bench supply's voltage while it runs. */
  readonly voltage_V: number;
  readonly current_A: number;
  readonly rpm: number;
}

/** Half-widths that hold the true reading nine times in ten. */
export interface ReadingErrors {
  readonly resistance_mohm: number;
  readonly resistance_ratio: number;
  readonly voltage_V: number;
  readonly current_A: number;
  readonly rpm_ratio: number;
}

/** A hand meter, a current passed for the resistance, an optical or sound tachometer. Common practice, no source. */
export const USUAL_ERRORS: ReadingErrors = {
  resistance_mohm: 2,
  resistance_ratio: 0.02,
  voltage_V: 0.03,
  current_A: 0.02,
  rpm_ratio: 0.005,
};

export interface MotorReadings {
  /** Between two of the three leads, the mean of the three pairs. */
  readonly resistance_mohm: number;
  /** One reading, or two at different voltages, which also part the steady loss from the one that grows with speed. */
  readonly noLoad: readonly NoLoadReading[];
  /** Of the winding while its resistance was read; left out: 20. */
  readonly temperature_C?: number;
  /** Left out: `USUAL_ERRORS`. */
  readonly errors?: Partial<ReadingErrors>;
}

/** What the readings say, before any interval. */
export interface Computed {
  readonly velocityConstant: number;
  readonly resistance: number;
  /** As the two readings have it, not yet held between 0 and 1. */
  readonly share: number;
  /** K_v of the lower reading over that of the higher; 1 with one reading. */
  readonly disagreement: number;
  readonly top: NoLoadReading;
}

/** See `motorFromReadings`. Readings must have passed `readingFaults`. */
export function solveReadings({ resistance_mohm, noLoad, temperature_C = 20 }: MotorReadings): Computed {
  const ohm = resistance_mohm * 1e-3;
  const speed = ({ rpm }: NoLoadReading) => angularSpeedFromRpm(rpm);
  const back = ({ voltage_V, current_A }: NoLoadReading) => voltage_V - current_A * ohm;
  const sum = (value: (r: NoLoadReading) => number) => noLoad.reduce((s, r) => s + value(r), 0);
  const [low, top] = [...noLoad].sort((a, b) => a.voltage_V - b.voltage_V);
  const resistance = ohm / copperFactor(temperature_C);
  const velocityConstant = sum((r) => speed(r) ** 2) / sum((r) => speed(r) * back(r));
  if (noLoad.length === 1) return { velocityConstant, resistance, share: 0.5, disagreement: 1, top: low };
  const growth = (top.current_A - low.current_A) / (speed(top) - speed(low));
  return {
    velocityConstant,
    resistance,
    share: top.current_A > 0 ? 1 - (growth * speed(top)) / top.current_A : 0.5,
    disagreement: (speed(low) * back(top)) / (speed(top) * back(low)),
    top,
  };
}
