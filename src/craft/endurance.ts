import { findRoot } from '../numerics/root.ts';
import type { Design } from '../project/schema.ts';
import { driveAt, supplyAt, type DriveDay } from '../drive/supply.ts';

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
 * it empties. `torque` [Nm] and `omega` [rad/s] of one fan in hover. Ends early where full throttle no longer holds.
 */
export function hoverEndurance(design: Design, torque: number, omega: number, day: DriveDay = {}): Endurance {
  const drive = (charge: number) => driveAt(supplyAt(design, charge, day), torque, omega);
  const spare = (charge: number) => 1 - Math.min(2, drive(charge)?.throttle ?? 2);
  if (spare(1) < 0) return { minutes: 0, failsAtCharge: 1 };
  const wantedEnd = 1 - design.battery.usable_ratio;
  const holds = spare(wantedEnd) >= 0;
  const end = holds ? wantedEnd : findRoot(spare, wantedEnd, 1, 1e-9);
  const slice = (1 - end) / SLICES;
  let seconds = 0;
  for (let i = 0; i < SLICES; i++) {
    const point = drive(1 - slice * (i + 0.5));
    if (!point) break;
    const { fanCount, auxiliaryPower_W } = design.craft;
    const current = fanCount * point.batteryCurrent + auxiliaryPower_W / point.batteryVoltage;
    seconds += (slice * design.battery.capacity_mAh * 3.6) / current;
  }
  return { minutes: seconds / 60, failsAtCharge: holds ? 0 : end };
}
