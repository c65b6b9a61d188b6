import type { MotorConstants } from '../src/drive/motor.ts';
import { driveAt, type DrivePoint, type Supply } from '../src/drive/supply.ts';
import { angularSpeedFromRpm } from '../src/quantities/units.ts';
import { readTable } from './data.ts';

/** One row of the stand run. SI. */
export interface StandRow {
  readonly omega: number;
  readonly rpm: number;
  readonly torque: number;
  readonly voltage: number;
  readonly current: number;
}

export const standRows = (): readonly StandRow[] => {
  const table = readTable('stand_3cells.csv');
  const column = (name: string) => table.column(name);
  const [rpm, torque, voltage, current] = ['rpm_elec', 'torque_Nm', 'V', 'I_A'].map(column);
  return rpm.map((speed, i) => ({
    omega: angularSpeedFromRpm(speed),
    rpm: speed,
    torque: torque[i],
    voltage: voltage[i],
    current: current[i],
  }));
};

/** Drive constants that fit the chosen rows, for one assumed winding resistance. */
export interface StandFit {
  readonly supply: Supply;
  /** Relative error of the electrical power: root mean square over the fitted rows. */
  readonly fitted: number;
}

const rms = (errors: readonly number[]): number =>
  Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / errors.length);

export const powerErrors = (supply: Supply, rows: readonly StandRow[]): number[] =>
  rows.map((row) => pointOf(supply, row).electricalPower / (row.voltage * row.current) - 1);

export const rmsError = (supply: Supply, rows: readonly StandRow[]): number => rms(powerErrors(supply, rows));

/** The tool's own drive at a row's torque and speed. */
export function pointOf(supply: Supply, { torque, omega }: StandRow): DrivePoint {
  const point = driveAt(supply, torque, omega);
  if (!point) throw new Error('the fitted supply cannot turn the stand');
  return point;
}

/**
 * Fits what can be fitted. The row of full command ties K_v and I_0 to the resistance, since there the motor has the
 * battery's voltage and current: K_v = Omega / (V - I R), I_0 = I - K_v Q. Left are the steady share of I_0 and the ripple
 * loss, by least squares of the relative error of power over `rows`; the pack is a straight line of voltage over current.
 * The duty of the other rows is never needed: the tool finds it.
 */
export function fitStand(rows: readonly StandRow[], full: StandRow, resistance: number): StandFit {
  const { rest, pack } = packLine(rows);
  const velocityConstant = full.omega / (full.voltage - full.current * resistance);
  const noLoadCurrent = Math.max(0, full.current - velocityConstant * full.torque);
  const supplyFor = (steadyShare: number, rippleLoss: number): Supply => {
    const motor: MotorConstants = {
      velocityConstant,
      resistance,
      noLoadCurrent,
      noLoadSpeed: full.omega,
      steadyShare,
    };
    return {
      motor,
      switchResistance: 0,
      switchingLoss: 0,
      rippleLoss,
      rest,
      packResistance: pack,
      fans: 1,
      auxiliaryPower: 0,
    };
  };
  const cost = (share: number, ripple: number) => rmsError(supplyFor(share, ripple), rows);
  const bestRipple = (share: number) => least((ripple) => cost(share, ripple), 0, 4);
  const steadyShare = least((share) => cost(share, bestRipple(share)), 0, 1);
  const supply = supplyFor(steadyShare, bestRipple(steadyShare));
  return { supply, fitted: rmsError(supply, rows) };
}

/** Voltage of the pack as a straight line over its current, by least squares. */
export function packLine(rows: readonly StandRow[]): { rest: number; pack: number } {
  const mean = (value: (r: StandRow) => number) => rows.reduce((s, r) => s + value(r), 0) / rows.length;
  const [i, v] = [mean((r) => r.current), mean((r) => r.voltage)];
  const slope =
    rows.reduce((s, r) => s + (r.current - i) * (r.voltage - v), 0) /
    rows.reduce((s, r) => s + (r.current - i) ** 2, 0);
  return { rest: v - slope * i, pack: -slope };
}

/** Place of the least value of a function with one valley, by golden section. */
function least(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [fa, fb] = [f(a), f(b)];
  for (let i = 0; i < 30; i++) {
    if (fa < fb) {
      [high, b, fb] = [b, a, fa];
      a = high - golden * (high - low);
      fa = f(a);
    } else {
      [low, a, fa] = [a, b, fb];
      b = low + golden * (high - low);
      fb = f(b);
    }
  }
  return (low + high) / 2;
}
