import { rightSide, type Bodies } from './bodies.ts';
import { backSolve } from './lu.ts';
import { panelStream, panelVelocity } from './panel.ts';
import { addSheetVelocity, sheetStream, type Sheet } from './sheet.ts';

/** A solved state: surface speed at the nodes, stream function of the duct, and the sheets in their places. */
export interface FlowState {
  readonly speed: Float64Array;
  readonly ductStream: number;
  readonly sheets: readonly Sheet[];
  readonly passes: number;
  /** Largest move of a sheet in the last pass, in its start radii. */
  readonly lastMove: number;
  readonly settled: boolean;
}

export interface RelaxOptions {
  readonly freeStream: number;
  readonly passes: number;
  readonly tolerance: number;
}

/** Largest move of a node in one pass, as a share of its radius. */
const LARGEST_MOVE = 0.15;

/**
 * Finds the sheets' places and strengths with the bodies' surface speeds; the first sheet is the jet's edge and leaves the
 * duct's exit, the rest leave the disc. Each pass: solve the bodies under free stream
 * and sheets (the factored system stays); set each sheet's strength from equal pressure on both its faces,
 *   gamma (q_in + q_out) / 2 = jump of total pressure / rho = (farInside^2 - farOutside^2) / 2;
 * move its nodes onto the stream surface through its start, one Newton step on psi with the inner speed (which counts
 * that a sheet carries its own field along). Source: Lewis 1991, ch. 5 (from memory), for the model; the step is ours.
 */
export function relax(bodies: Bodies, sheets: readonly Sheet[], options: RelaxOptions): FlowState {
  const n = bodies.z.length;
  const ends = new Float64Array(2);
  const outside = new Float64Array(n);
  let speed: Float64Array = new Float64Array(n);
  let ductStream = 0;
  let lastMove = Infinity;
  let passes = 0;
  for (; ; passes++) {
    if (bodies.system) {
      for (let i = 0; i < n; i++) {
        if (bodies.r[i] === 0) continue;
        let sum = 0.5 * options.freeStream * bodies.r[i] ** 2;
        for (const sheet of sheets) sum += sheetStream(sheet, bodies.z[i], bodies.r[i], ends);
        outside[i] = sum;
      }
      const jet = sheets.length > 0 ? sheets[0].strength[0] : 0;
      const x = backSolve(bodies.system, rightSide(bodies, outside, jet));
      speed = x.subarray(0, n);
      if (bodies.ductNodes > 0) ductStream = x[n];
    }
    if (sheets.length === 0) return { speed, ductStream, sheets, passes: 0, lastMove: 0, settled: true };
    if (lastMove < options.tolerance || passes >= options.passes) break;
    const state = { bodies, speed, sheets, freeStream: options.freeStream };
    const moved = sheets.map((sheet, k) => moveSheet(sheet, state, k === 0 ? ductStream : null));
    lastMove = 0;
    sheets.forEach((sheet, k) => {
      for (let i = 0; i < sheet.z.length; i++) {
        lastMove = Math.max(lastMove, Math.abs(moved[k].r[i] - sheet.r[i]) / sheet.r[0]);
        sheet.r[i] = moved[k].r[i];
        sheet.strength[i] = moved[k].strength[i];
      }
    });
  }
  return { speed, ductStream, sheets, passes, lastMove, settled: lastMove < options.tolerance };
}

interface Field {
  readonly bodies: Bodies;
  readonly speed: Float64Array;
  readonly sheets: readonly Sheet[];
  readonly freeStream: number;
}

function moveSheet(sheet: Sheet, field: Field, exitStream: number | null) {
  const { z, r, developed, farInside, farOutside } = sheet;
  const nodes = z.length;
  const rise = (farInside ** 2 - farOutside ** 2) / 2;
  const velocity = new Float64Array(2);
  // Mean speed along each free panel, then strength and inner speed there.
  const strengthMid = new Float64Array(developed);
  const insideMid = new Float64Array(developed);
  for (let p = 0; p < developed; p++) {
    velocityAt(field, (z[p] + z[p + 1]) / 2, (r[p] + r[p + 1]) / 2, velocity);
    const length = Math.hypot(z[p + 1] - z[p], r[p + 1] - r[p]);
    const mean = (velocity[0] * (z[p + 1] - z[p]) + velocity[1] * (r[p + 1] - r[p])) / length;
    // The outer face never runs backwards along the sheet by more than it would to stand still.
    const jump = rise / Math.max(mean, 0.5 * Math.sqrt(Math.abs(2 * rise)), 1e-12);
    strengthMid[p] = jump;
    insideMid[p] = Math.max(mean + Math.abs(jump) / 2, 1e-12);
  }
  const strength = new Float64Array(nodes).fill(farInside - farOutside);
  const next = Float64Array.from(r);
  strength[0] = strengthMid[0];
  const level = exitStream ?? streamAt(field, z[0], r[0]);
  for (let i = 1; i <= developed; i++) {
    const right = i < developed ? i : i - 1;
    strength[i] = i < developed ? (strengthMid[i - 1] + strengthMid[right]) / 2 : farInside - farOutside;
    const inside = (insideMid[i - 1] + insideMid[right]) / 2;
    const step = (level - streamAt(field, z[i], r[i])) / (r[i] * inside);
    next[i] = r[i] + Math.max(-LARGEST_MOVE * r[i], Math.min(LARGEST_MOVE * r[i], step));
  }
  next.fill(next[developed], developed + 1);
  return { r: next, strength };
}

/** Stream function [m3/s] of everything at (z, r): volume flow through the circle of radius r is 2 pi psi. */
export function streamAt({ bodies, speed, sheets, freeStream }: Field, z: number, r: number): number {
  const ends = new Float64Array(2);
  let sum = 0.5 * freeStream * r * r;
  for (const p of bodies.panels) {
    panelStream(z, r, bodies.z[p], bodies.r[p], bodies.z[p + 1], bodies.r[p + 1], ends);
    sum += ends[0] * speed[p] + ends[1] * speed[p + 1];
  }
  for (const sheet of sheets) sum += sheetStream(sheet, z, r, ends);
  return sum;
}

/** Velocity [m/s] at (z, r) into `out` as axial, radial; the mean of both faces on a sheet. */
export function velocityAt(
  { bodies, speed, sheets, freeStream }: Field,
  z: number,
  r: number,
  out: Float64Array,
): void {
  const four = new Float64Array(4);
  const pair = new Float64Array(2);
  let axial = freeStream;
  let radial = 0;
  for (const p of bodies.panels) {
    panelVelocity(z, r, bodies.z[p], bodies.r[p], bodies.z[p + 1], bodies.r[p + 1], four, pair);
    axial += four[0] * speed[p] + four[2] * speed[p + 1];
    radial += four[1] * speed[p] + four[3] * speed[p + 1];
  }
  out[0] = axial;
  out[1] = radial;
  for (const sheet of sheets) addSheetVelocity(sheet, z, r, out, four, pair);
}
