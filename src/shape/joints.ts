import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import type { FanLayout } from './layout.ts';
import { wallOuterRadius } from './profiles.ts';

/** Shortest overlap of a joint, and how many wall thicknesses it measures where that is more [m]. Common practice, no source. */
const LEAST_OVERLAP = 0.002;
const OVERLAP_WALLS = 2;

/** Least thickness of the collar round a joint [m]: two lines of the usual nozzle. Common practice, no source. */
const LEAST_COLLAR = 0.0008;

/** Clearance up to this leaves the collar's outer face where it is, so that lugs and arms stay put from printer to printer [m]. */
const ROOM_FOR_FIT = 0.0004;

/** The joint lies this far above the vanes, so that they stand on one ring alone [m]. */
const ABOVE_VANES = 0.0003;

/** Radial clearance of a joint as drawn where no printer is named [m]: a slide fit. Common practice, no source. */
export const PLAIN_JOINT_GAP = 0.0003;

/**
 * Where two pieces of the duct wall meet [m]. The upper piece ends at `z` and keeps its full wall; a collar outside the
 * lower piece reaches up round it. The two butt at `z`, flush on the air side, so the flow meets no step, and either
 * prints standing on its lower end: the collar's underside leans 45 degrees.
 */
export interface DuctJoint {
  readonly kind: 'lip' | 'ring';
  readonly z: number;
  /** Where the collar's mouth lies. */
  readonly mouthZ: number;
  /** Radius of the upper piece's end, a cylinder from mouth to joint. */
  readonly spigotRadius: number;
  /** Inner radius of the collar: wider than the spigot by the gap. */
  readonly socketRadius: number;
  readonly collarRadius: number;
  /** Down to here the collar keeps its radius. */
  readonly collarBottomZ: number;
  /** Where its underside has reached the wall. */
  readonly footZ: number;
}

/** The joints of a duct from top to bottom, with `gap` between spigot and collar [m]; none where it is one piece or the rotor is open. */
export function ductJoints(layout: FanLayout, fan: Fan, gap = PLAIN_JOINT_GAP): DuctJoint[] {
  if (!layout.ducted) return [];
  const joints: DuctJoint[] = [];
  if (fan.duct.lipApart) joints.push(jointAt(layout, 'lip', jointOverlap(layout), gap));
  if (fan.duct.rings > 1) joints.push(jointAt(layout, 'ring', ringJointZ(layout, fan), gap));
  return joints;
}

/** Length over which two pieces overlap [m]. */
export const jointOverlap = ({ wall }: FanLayout): number => Math.max(LEAST_OVERLAP, OVERLAP_WALLS * wall);

/** Thickness of the collar outside the gap [m]. */
export const collarThickness = ({ wall }: FanLayout): number => Math.max(LEAST_COLLAR, wall);

/** Where rings meet, whether this duct is divided or not [m]: below the rotor and just above the vanes. */
export function ringJointZ(layout: FanLayout, { stator }: Fan): number {
  // The round nose of a curved vane lies aslant and reaches a little past the end of its chord.
  const nose = metresFromMillimetres(stator.thickness_mm) / 2;
  const past = stator.curved ? nose * (1 - Math.cos(radiansFromDegrees(stator.turn_deg))) : 0;
  return layout.vaneTopZ - past - ABOVE_VANES;
}

function jointAt(layout: FanLayout, kind: DuctJoint['kind'], z: number, gap: number): DuctJoint {
  const mouthZ = z - jointOverlap(layout);
  const spigotRadius = widestWall(layout, mouthZ, z);
  const thickness = collarThickness(layout);
  const collarRadius = spigotRadius + Math.max(ROOM_FOR_FIT, gap) + thickness;
  const collarBottomZ = z + thickness / 2;
  return {
    kind,
    z,
    mouthZ,
    spigotRadius,
    socketRadius: spigotRadius + gap,
    collarRadius,
    collarBottomZ,
    footZ: slopeEnd(layout, collarBottomZ, collarRadius),
  };
}

/** Largest radius of the wall's outer face between two places along the axis [m]. */
export function widestWall(layout: FanLayout, fromZ: number, toZ: number): number {
  let widest = 0;
  for (let k = 0; k <= 12; k++)
    widest = Math.max(widest, wallOuterRadius(layout, fromZ + ((toZ - fromZ) * k) / 12));
  return widest;
}

/** Where a face that leans 45 degrees inward from (`z`, `radius`) meets the wall's outer face, or the exit [m]. */
export function slopeEnd(layout: FanLayout, z: number, radius: number): number {
  return endOfSlope(z, radius, layout.exitZ, (at) => wallOuterRadius(layout, at));
}

/** The same for any surface given as its radius over z [m]. */
export function endOfSlope(z: number, radius: number, exitZ: number, surface: (z: number) => number): number {
  const above = (at: number) => radius - (at - z) - surface(at);
  const lastZ = Math.max(exitZ, z);
  if (above(lastZ) > 0) return lastZ;
  let [low, high] = [z, lastZ];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (above(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}
