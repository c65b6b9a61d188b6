import type { Fan } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { collarThickness, ductJoints, ringJointZ, slopeEnd, widestWall } from './joints.ts';
import type { FanLayout } from './layout.ts';
import { wallOuterRadius } from './profiles.ts';

/** Hole over thread. Common practice, no source. */
const SCREW_CLEARANCE = 1.1;

/** Least thickness of a lug where the screw clamps it, and least wall round its pocket [m]. Common practice, no source. */
const LEAST_LUG = 0.002;
const LEAST_POCKET_WALL = 0.001;

/**
 * The pocket takes the screw's head or a nut, which over its corners is 2.2 threads wide at M2 and 2 at M3 (ISO 4032,
 * from memory), and this much more across [m].
 */
const POCKET_THREADS = 2.2;
const POCKET_ROOM = 0.0006;

/** Room between a pocket and the widest wall below it [m]. Common practice, no source. */
const PAST_RIM = 0.0003;

/**
 * One lug on the outside of the duct, in the frame of the layout [m], [rad]. Its flat face looks upstream: an arm lies on
 * it, and the screw goes along the axis. The underside leans 45 degrees back to the wall, so it prints without support on
 * a duct that stands on its exit; a pocket in it holds the head or nut, and a driver reaches it from the exit side.
 */
export interface LugPlace {
  /** From x toward y, looking along z; a left-hand duct mirrors y, which leaves the set of lugs as it is. */
  readonly angle: number;
  /** Of the hole's middle from the axis. */
  readonly radius: number;
  /** The flat face on which an arm lies; the arm is upstream of it, at smaller z. */
  readonly topZ: number;
  /** The lower face of what the screw clamps: `topZ + thickness`. */
  readonly bottomZ: number;
  /** Where the underside has come back to the wall, or the exit. */
  readonly footZ: number;
  readonly thickness: number;
  /** Clearance hole; solids widen it by what the printer closes. */
  readonly holeRadius: number;
  /** Half the width across, and the radius of the rounded end about the hole. */
  readonly halfWidth: number;
  readonly pocketRadius: number;
  /** Wall or collar where the lug grows out of it; an arm on the lug must stay outside. */
  readonly wallRadius: number;
  /** An arm may reach up from `topZ` to here before it could meet the lip's outside. */
  readonly freeTopZ: number;
}

/**
 * The lugs of one fan, evenly round the duct, none of them at angle 0 where the motor leads come out. They stand on the
 * piece that carries the motor, just below where rings would meet, so dividing the duct hardly moves them.
 */
export function lugPlaces(layout: FanLayout, fan: Fan): LugPlace[] {
  const count = layout.ducted ? fan.duct.lugCount : 0;
  if (count === 0) return [];
  const thread = metresFromMillimetres(fan.duct.lugHole_mm);
  const thickness = Math.max(LEAST_LUG, thread);
  const pocketRadius = (POCKET_THREADS * thread + POCKET_ROOM) / 2;
  const halfWidth = pocketRadius + Math.max(LEAST_POCKET_WALL, layout.wall);
  const ring = ductJoints(layout, fan).find(({ kind }) => kind === 'ring');
  // A little above where the collar ends, so that the two grow into each other.
  const topZ = ringJointZ(layout, fan) + collarThickness(layout) / 4;
  const widest = widestWall(layout, topZ, Math.max(topZ, layout.exitZ));
  const wallRadius = ring ? ring.collarRadius : wallOuterRadius(layout, topZ);
  // The head passes the exit's rim on its way up to the pocket.
  const radius = Math.max(wallRadius + halfWidth, widest + pocketRadius + PAST_RIM);
  const bottomZ = topZ + thickness;
  const footZ = slopeEnd(layout, bottomZ, radius + halfWidth);
  return Array.from({ length: count }, (_, i) => ({
    angle: (2 * Math.PI * (i + 0.5)) / count,
    radius,
    topZ,
    bottomZ,
    footZ,
    thickness,
    holeRadius: (thread / 2) * SCREW_CLEARANCE,
    halfWidth,
    pocketRadius,
    wallRadius,
    freeTopZ: 0,
  }));
}
