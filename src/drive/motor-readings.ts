import { checkValue } from '../project/path.ts';
import type { Motor } from '../project/schema.ts';
import { intervalFrom, type Interval } from '../quantities/interval.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { angularSpeedFromRpm, rpmFromAngularSpeed } from '../quantities/units.ts';
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

/** Constants with 90 % intervals. */
export interface MeasuredMotor {
  readonly velocityConstant_rpmPerV: Interval;
  /** Torque for each ampere beyond the no-load current. */
  readonly torqueConstant_NmpA: Interval;
  /** Winding at 20 °C, between two leads. */
  readonly resistance_mohm: Interval;
  /** At `noLoadVoltage_V`, as read at the higher voltage. */
  readonly noLoadCurrent_A: Interval;
  readonly noLoadVoltage_V: number;
  /** Share of that current that does not grow with speed; null: one reading cannot tell, half is assumed. */
  readonly noLoadSteady_ratio: Interval | null;
}

/** Ready for the motor group of a project file. */
export type MeasuredMotorKeys = Pick<
  Motor,
  | 'velocityConstant_rpmPerV'
  | 'resistance_mohm'
  | 'noLoadCurrent_A'
  | 'noLoadVoltage_V'
  | 'noLoadSteady_ratio'
>;

export interface ReadingFault {
  /** As in `noLoad.0.rpm`. */
  readonly path: string;
  readonly message: string;
}

export type MotorFromReadings =
  | {
      readonly ok: true;
      readonly constants: MeasuredMotor;
      readonly motor: MeasuredMotorKeys;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly ReadingFault[] };

/** Ranges within which a reading can be of a motor this program knows. */
const RANGES = {
  voltage_V: [0.1, 100, 'V'],
  current_A: [0, 20, 'A'],
  rpm: [10, 500_000, 'rpm'],
} as const;

/**
 * Constants of a motor from bench readings: K_v = Omega / (V - I R) (two readings: the line through both and the origin,
 * weighed by speed), I_0 as read, its steady share from I = I_s + I_e Omega through two readings, R brought to 20 °C.
 * Source: first-order direct-current machine with no-load test; e.g. Hughes and Drury, Electric Motors and Drives, ch. 3
 * (from memory). Intervals: each reading moved by its error, one at a time. Never throws; what no motor can give is
 * refused with the place and the reason.
 */
export function motorFromReadings(readings: MotorReadings): MotorFromReadings {
  const errors = { ...USUAL_ERRORS, ...readings.errors };
  const faults = rangeFaults(readings);
  if (faults.length > 0) return { ok: false, faults };
  const impossible = physicalFaults(readings, errors);
  if (impossible.length > 0) return { ok: false, faults: impossible };

  const middle = compute(readings);
  const moved = movedReadings(readings, errors).map(([down, up]) => [compute(down), compute(up)] as const);
  const interval = (pick: (c: Computed) => number): Interval =>
    intervalFrom(
      pick(middle),
      moved.map(([down, up]) => [pick(down), pick(up)] as const),
    );
  const two = readings.noLoad.length === 2;
  const constants: MeasuredMotor = {
    velocityConstant_rpmPerV: interval((c) => rpmFromAngularSpeed(c.velocityConstant)),
    torqueConstant_NmpA: interval((c) => 1 / c.velocityConstant),
    resistance_mohm: interval((c) => c.resistance * 1000),
    noLoadCurrent_A: interval((c) => c.top.current_A),
    noLoadVoltage_V: middle.top.voltage_V,
    noLoadSteady_ratio: two ? clampInterval(interval((c) => c.share)) : null,
  };
  const motor: MeasuredMotorKeys = {
    velocityConstant_rpmPerV: tidy(constants.velocityConstant_rpmPerV.value),
    resistance_mohm: tidy(constants.resistance_mohm.value),
    noLoadCurrent_A: middle.top.current_A,
    noLoadVoltage_V: middle.top.voltage_V,
    noLoadSteady_ratio: tidy(constants.noLoadSteady_ratio?.value ?? 0.5),
  };
  const outside = Object.entries(motor).flatMap(([key, value]) => {
    const refused = checkValue(`motor.${key}`, value);
    return refused
      ? [
          {
            path: key,
            message: `These readings give a motor that no project file can hold: ${refused.message}`,
          },
        ]
      : [];
  });
  if (outside.length > 0) return { ok: false, faults: outside };
  return { ok: true, constants, motor, notes: notesOn(middle, constants, two) };
}

interface Computed {
  readonly velocityConstant: number;
  readonly resistance: number;
  /** As the two readings have it, not yet held between 0 and 1. */
  readonly share: number;
  /** K_v of the lower reading over that of the higher; 1 with one reading. */
  readonly disagreement: number;
  readonly top: NoLoadReading;
}

function compute({ resistance_mohm, noLoad, temperature_C = 20 }: MotorReadings): Computed {
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

/** The readings with each one moved down, and up, by its error. */
function movedReadings(readings: MotorReadings, errors: ReadingErrors): [MotorReadings, MotorReadings][] {
  const pair = (change: (sign: number) => MotorReadings): [MotorReadings, MotorReadings] => [
    change(-1),
    change(1),
  ];
  const resistance = Math.hypot(errors.resistance_mohm, errors.resistance_ratio * readings.resistance_mohm);
  const at = (i: number, change: (r: NoLoadReading) => Partial<NoLoadReading>): MotorReadings => ({
    ...readings,
    noLoad: readings.noLoad.map((r, k) => (k === i ? { ...r, ...change(r) } : r)),
  });
  return [
    pair((sign) => ({
      ...readings,
      resistance_mohm: Math.max(0.05, readings.resistance_mohm + sign * resistance),
    })),
    ...readings.noLoad.flatMap((_, i) => [
      pair((sign) => at(i, (r) => ({ voltage_V: r.voltage_V + sign * errors.voltage_V }))),
      pair((sign) => at(i, (r) => ({ current_A: Math.max(0, r.current_A + sign * errors.current_A) }))),
      pair((sign) => at(i, (r) => ({ rpm: r.rpm * (1 + sign * errors.rpm_ratio) }))),
    ]),
  ];
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
    const { disagreement } = compute({ resistance_mohm, noLoad });
    if (Math.abs(disagreement - 1) > 0.15)
      faults.push({
        path: `noLoad.${at}.rpm`,
        message: `The two readings give speeds for each volt that differ by ${n(Math.abs(disagreement - 1) * 100, 2)} %; they cannot both be right. A controller below full command shows the battery's voltage, not the motor's; and a tachometer may count magnet poles or blades in place of turns.`,
      });
  }
  return faults;
}

function notesOn({ share, disagreement }: Computed, constants: MeasuredMotor, two: boolean): string[] {
  const notes: string[] = [];
  if (!two)
    notes.push(
      'One no-load reading cannot tell how the loss grows with speed; half of it is taken as steady (common practice, no source). A second reading near half the voltage would tell.',
    );
  if (two && Math.abs(disagreement - 1) > 0.03)
    notes.push(
      `The two readings give speeds for each volt that differ by ${n(Math.abs(disagreement - 1) * 100, 2)} %, more than a hand meter explains; the mean is used.`,
    );
  if (two && share > 1)
    notes.push(
      'The current did not grow with speed beyond what the meter resolves; all of it is taken as steady.',
    );
  if (two && share < 0)
    notes.push('The current grew faster than the speed; all of it is taken as growing with speed.');
  const spread = constants.noLoadSteady_ratio;
  if (spread && spread.high - spread.low > 0.6)
    notes.push('The split of the no-load current is hardly known; a finer ammeter would settle it.');
  return notes;
}

const clamp = (value: number): number => Math.min(1, Math.max(0, value));
const clampInterval = ({ value, low, high }: Interval): Interval => ({
  value: clamp(value),
  low: clamp(low),
  high: clamp(high),
});
const tidy = (value: number): number => Number(value.toPrecision(5));
