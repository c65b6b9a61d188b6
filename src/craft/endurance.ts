import { findRoot } from '../numerics/root.ts';
import type { Design } from '../project/schema.ts';
import { usableShare } from '../drive/battery.ts';
import { driveAt, supplyAt, type DriveDay, type DrivePoint } from '../drive/supply.ts';

/** How long the craft can hover. */
export interface Endurance {
  readonly minutes: number;
  /** Charge left (0..1) at which the fans can no longer hold the craft; 0 where that never comes within the usable charge. */
  readonly failsAtCharge: number;
}

/** Slices of the usable charge; with 12 the answer is within 0.3 % of 200 slices (test). */
const SLICES = 12;

/**
 * Hover time from a full pack down to what the owner wants left, with the pack's voltage falling and the current rising as
 * it empties. `torque` [Nm] and `omega` [rad/s] of one fan in hover. Ends early where full throttle no longer holds, or where
 * a cell comes to its cut-off under load.
 */
export function hoverEndurance(design: Design, torque: number, omega: number, day: DriveDay = {}): Endurance {
  const drive = (charge: number) => driveAt(supplyAt(design, charge, day), torque, omega);
  const spare = (charge: number) => 1 - Math.min(2, drive(charge)?.throttle ?? 2);
  if (spare(1) < 0) return { minutes: 0, failsAtCharge: 1 };
  const wantedEnd = 1 - design.battery.usable_ratio;
  const holds = spare(wantedEnd) >= 0;
  const held = holds ? wantedEnd : findRoot(spare, wantedEnd, 1, 1e-9);
  const { fanCount, auxiliaryPower_W } = design.craft;
  const currentAt = (point: DrivePoint) =>
    fanCount * point.batteryCurrent + auxiliaryPower_W / point.batteryVoltage;
  // A cell is not taken below its cut-off under the load it then has, whatever its owner is willing to use.
  const last = drive(held);
  const cutOff = last ? 1 - usableShare(design.battery, currentAt(last), day.cell_C) : held;
  const end = Math.max(held, cutOff);
  const slice = (1 - end) / SLICES;
  let seconds = 0;
  for (let i = 0; i < SLICES; i++) {
    const point = drive(1 - slice * (i + 0.5));
    if (!point) break;
    seconds += (slice * design.battery.capacity_mAh * 3.6) / currentAt(point);
  }
  return { minutes: seconds / 60, failsAtCharge: holds ? 0 : end };
}
