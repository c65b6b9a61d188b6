import { checkValue } from '../project/path.ts';
import type { Motor } from '../project/schema.ts';
import { intervalFrom, type Interval } from '../quantities/interval.ts';
import { formatNumber as n } from '../quantities/format.ts';
import { rpmFromAngularSpeed } from '../quantities/units.ts';
import { readingFaults, type ReadingFault } from './motor-reading-faults.ts';
import {
  solveReadings,
  USUAL_ERRORS,
  type Computed,
  type MotorReadings,
  type NoLoadReading,
  type ReadingErrors,
} from './motor-reading-solve.ts';

export type { MotorReadings, NoLoadReading };

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

export type MotorFromReadings =
  | {
      readonly ok: true;
      readonly constants: MeasuredMotor;
      readonly motor: MeasuredMotorKeys;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly ReadingFault[] };

/**
 * Constants of a motor from bench readings: K_v = Omega / (V - I R) (two readings: the line through both and the origin,
 * weighed by speed), I_0 as read, its steady share from I = I_s + I_e Omega through two readings, R brought to 20 °C.
 * Source: first-order direct-current machine with no-load test; e.g. Hughes and Drury, Electric Motors and Drives, ch. 3
 * (from memory). Intervals: each reading moved by its error, one at a time. Never throws; what no motor can give is
 * refused with the place and the reason.
 */
export function motorFromReadings(readings: MotorReadings): MotorFromReadings {
  const errors = { ...USUAL_ERRORS, ...readings.errors };
  const faults = readingFaults(readings, errors);
  if (faults.length > 0) return { ok: false, faults };

  const middle = solveReadings(readings);
  const moved = movedReadings(readings, errors).map(
    ([down, up]) => [solveReadings(down), solveReadings(up)] as const,
  );
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

function notesOn({ share, disagreement }: Computed, constants: MeasuredMotor, two: boolean): string[] {
  const notes: string[] = [];
  if (!two)
    notes.push(
      'One no-load reading cannot tell how the loss grows with speed; half of it is taken as steady (common practice, no source). A second reading near half the voltage would tell.',
    );
  if (two && Math.abs(disagreement - 1) > 0.03)
    notes.push(
      `The two readings give speeds for each volt that differ by ${n(Math.abs(disagreement - 1) * 100, 2)}\u00a0%, more than a hand meter explains; the mean is used.`,
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
