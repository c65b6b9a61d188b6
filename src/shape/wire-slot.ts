import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { FanLayout } from './layout.ts';
import { passageRadius } from './profiles.ts';
import { vaneSize } from './vane.ts';

/** The slot begins this far behind the vane, and leaves this much wall to the exit [m]. Common practice, no source. */
const BEHIND_VANE = 0.0002;
export const SLOT_RIM = 0.001;

/**
 * The slot in the wall through which the motor leads come out [m], [rad]. It lies just behind the first vane, so that the
 * leads run along the vane's back edge, out of the wake of nothing else. Half as high as wide, with a roof of two 45
 * degree faces upstream, so that it prints without support on a duct that stands on its exit.
 */
export interface WireSlot {
  readonly angle: number;
  readonly width: number;
  /** The ridge of the roof. */
  readonly topZ: number;
  readonly eavesZ: number;
  readonly bottomZ: number;
}

/** Null where the duct has no slot. */
export function wireSlot(layout: FanLayout, fan: Fan): WireSlot | null {
  const width = metresFromMillimetres(fan.duct.wireSlot_mm);
  if (!layout.ducted || width <= 0) return null;
  const { chord, angle } = vaneSize(fan);
  const topZ = layout.vaneBottomZ + BEHIND_VANE;
  // A curved vane's back edge does not lie on the radius of its middle.
  const aside = ((chord / 2) * Math.cos(angle)) / passageRadius(layout, layout.vaneBottomZ);
  return { angle: aside, width, topZ, eavesZ: topZ + width / 2, bottomZ: topZ + width };
}

/** Half the slot's width at `z` [m]. */
export function slotHalfWidth({ width, topZ, bottomZ }: WireSlot, z: number): number {
  return z <= topZ || z >= bottomZ ? 0 : Math.min(width / 2, z - topZ);
}
