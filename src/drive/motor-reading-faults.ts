import { formatNumber as n } from '../quantities/format.ts';
import { solveReadings, type MotorReadings, type ReadingErrors } from './motor-reading-solve.ts';

export interface ReadingFault {
  /** As in `noLoad.0.rpm`. */
  readonly path: string;
  readonly message: string;
}

/** Ranges within which a reading can be of a motor this program knows. */
const RANGES = {
  voltage_V: [0.1, 100, 'V'],
  current_A: [0, 20, 'A'],
  rpm: [10, 500_000, 'rpm'],
} as const;

/** What no meter shows or no motor can give, each with its place; empty: the readings can be used. */
export function readingFaults(readings: MotorReadings, errors: ReadingErrors): ReadingFault[] {
  const faults = rangeFaults(readings);
  return faults.length > 0 ? faults : physicalFaults(readings, errors);
}

function rangeFaults({ resistance_mohm, noLoad, temperature_C = 20 }: MotorReadings): ReadingFault[] {
  const faults: ReadingFault[] = [];
  const within = (path: string, value: number, [low, high, unit]: readonly [number, number, string]) => {
    if (!(value >= low && value <= high))
      faults.push({
        path,
        message: `${path} is ${String(value)}; it must be a number from ${low} to ${high} ${unit}.`,
      });
  };
  within('resistance_mohm', resistance_mohm, [0.1, 10_000, 'mΩ']);
  within('temperature_C', temperature_C, [-40, 150, '°C']);
  if (noLoad.length < 1 || noLoad.length > 2)
    faults.push({
      path: 'noLoad',
      message: `noLoad holds ${noLoad.length} readings; one is needed, and a second at another voltage tells more.`,
    });
  noLoad.forEach((reading, i) => {
    for (const key of ['voltage_V', 'current_A', 'rpm'] as const)
      within(`noLoad.${i}.${key}`, reading[key], RANGES[key]);
  });
  return faults;
}

function physicalFaults({ resistance_mohm, noLoad }: MotorReadings, errors: ReadingErrors): ReadingFault[] {
  const faults: ReadingFault[] = [];
  noLoad.forEach(({ voltage_V, current_A }, i) => {
    const drop = (current_A * resistance_mohm) / 1000;
    if (drop >= 0.9 * voltage_V)
      faults.push({
        path: `noLoad.${i}.current_A`,
        message: `noLoad.${i}.current_A is ${n(current_A)} A; through ${n(resistance_mohm)} mΩ that takes ${n(drop)} V of the ${n(voltage_V)} V, and nothing is left to turn the motor. Check the resistance (mΩ, not Ω) and whether the shaft was free.`,
      });
  });
  if (faults.length > 0 || noLoad.length < 2) return faults;
  const [a, b] = noLoad;
  const [low, top, at] = a.voltage_V <= b.voltage_V ? [a, b, 1] : [b, a, 0];
  if (top.voltage_V - low.voltage_V < Math.max(4 * errors.voltage_V, 0.05 * top.voltage_V))
    faults.push({
      path: `noLoad.${at}.voltage_V`,
      message: `The two no-load readings stand at ${n(low.voltage_V)} and ${n(top.voltage_V)} V, too close to part the steady loss from the growing one; take one near half of the highest voltage, or give one reading alone.`,
    });
  else if (top.rpm <= low.rpm)
    faults.push({
      path: `noLoad.${at}.rpm`,
      message: `noLoad.${at}.rpm is ${n(top.rpm)} rpm at ${n(top.voltage_V)} V, but the other reading has ${n(low.rpm)} rpm at only ${n(low.voltage_V)} V; a free motor turns faster at more voltage. Check which reading belongs to which voltage.`,
    });
  else if (top.current_A + 2 * errors.current_A < low.current_A)
    faults.push({
      path: `noLoad.${at}.current_A`,
      message: `noLoad.${at}.current_A is ${n(top.current_A)} A at ${n(top.voltage_V)} V, less than the ${n(low.current_A)} A at ${n(low.voltage_V)} V; a free motor never loses less when it turns faster. Check the currents, and that both were read at full command.`,
    });
  else {
    const { disagreement } = solveReadings({ resistance_mohm, noLoad });
    if (Math.abs(disagreement - 1) > 0.15)
      faults.push({
        path: `noLoad.${at}.rpm`,
        message: `The two readings give speeds for each volt that differ by ${n(Math.abs(disagreement - 1) * 100, 2)}\u00a0%; they cannot both be right. A controller below full command shows the battery's voltage, not the motor's; and a tachometer may count magnet poles or blades in place of turns.`,
      });
  }
  return faults;
}
