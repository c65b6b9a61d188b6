import type { Fan } from '../project/schema.ts';
import { bladeAt, bladeCurves, type BladeCurves, type BladeSection } from './blade.ts';
import type { FanLayout } from './fan-layout.ts';

/** Cap and floor of a hub that holds blades apart: share of its height, and least [m]. Common practice, no source. */
const FLANGE_SHARE = 0.15;
const LEAST_FLANGE = 0.0012;

/** Least thickness of a cap with the groove of a spinner in it [m]. Common practice, no source. */
const GROOVED_FLANGE = 0.0018;

/** The piece of rim that each blade carries, and the key behind it: share of the hub's radius, and least [m]. Common practice, no source. */
const PLATFORM_SHARE = 0.08;
const LEAST_PLATFORM = 0.0012;
const KEY_SHARE = 0.22;
const LEAST_KEY = 0.002;

/** Width of the key at its foot: share of the room a blade has there, and of the key's depth, so that its flanks stay steep. */
const FOOT_SHARE = 0.5;
const FOOT_OVER_DEPTH = 2;

/** Width of the key's neck over that of its foot: neck of the blade and post of the hub carry the same pull. */
const NECK_SHARE = 0.5;

/**
 * How blades apart sit in the hub. Each carries a piece of the hub's rim (the platform) and behind it a dovetail key, both
 * of one outline all along the axis. They slide into pockets of the hub body from upstream, past which the pull of
 * rotation cannot draw them, stand on its floor, and a cap shuts them in. Lengths [m]; the key's middle lies on the
 * blade's radial line.
 */
export interface RootKey {
  /** Thickness of cap and floor. */
  readonly flange: number;
  readonly platformTopZ: number;
  readonly platformBottomZ: number;
  readonly platformInnerRadius: number;
  readonly footRadius: number;
  readonly footWidth: number;
  readonly neckWidth: number;
}

const leastFlange = (fan: Fan): number => (fan.hub.spinner ? GROOVED_FLANGE : LEAST_FLANGE);

/** Height of a hub that leaves `room` [m] between its cap and its floor. */
export const hubHeightFor = (fan: Fan, room: number): number =>
  Math.max(room + 2 * leastFlange(fan), room / (1 - 2 * FLANGE_SHARE));

export function rootKey(fan: Fan, layout: FanLayout): RootKey {
  const { hubTopZ, hubBottomZ, hubRadius } = layout;
  const flange = Math.max(leastFlange(fan), FLANGE_SHARE * (hubBottomZ - hubTopZ));
  const platformInnerRadius = hubRadius - Math.max(LEAST_PLATFORM, PLATFORM_SHARE * hubRadius);
  const depth = Math.max(LEAST_KEY, KEY_SHARE * hubRadius);
  const footRadius = platformInnerRadius - depth;
  const room = (2 * Math.PI * Math.max(0, footRadius)) / fan.bladeCount;
  const footWidth = Math.min(FOOT_SHARE * room, FOOT_OVER_DEPTH * depth);
  return {
    flange,
    platformTopZ: hubTopZ + flange,
    platformBottomZ: hubBottomZ - flange,
    platformInnerRadius,
    footRadius,
    footWidth,
    neckWidth: NECK_SHARE * footWidth,
  };
}

/** Half the angle that a section takes about the axis at its own radius [rad]. */
export function halfAngle(at: BladeSection): number {
  const across = (at.thickness / 2 + Math.abs(at.camber)) * at.chord;
  return ((at.chord / 2) * Math.abs(Math.cos(at.angle)) + across * Math.abs(Math.sin(at.angle))) / at.radius;
}

/**
 * Corners of the dovetail in the plane across the axis, x along the blade's radial line [m]: from the foot to `outer`,
 * every face moved outward by `gap` (the pocket). Anticlockwise.
 */
export function keyOutline(key: RootKey, outer: number, gap = 0): [number, number][] {
  const depth = key.platformInnerRadius - key.footRadius;
  const slope = (key.footWidth - key.neckWidth) / 2 / depth;
  const inner = key.footRadius - gap;
  const half = (x: number) => key.footWidth / 2 - slope * (x - key.footRadius) + gap * Math.hypot(1, slope);
  return [
    [inner, -half(inner)],
    [outer, -half(outer)],
    [outer, half(outer)],
    [inner, half(inner)],
  ];
}

/** Area of the dovetail inside the circle of `radius` [m2]: the trapezoid to there, and the cap of the circle beyond. */
export function keyArea(key: RootKey, radius: number, gap = 0): number {
  // The neck meets the circle where x = sqrt(r^2 - half^2); two rounds settle it to a thousandth of the arc's height.
  let x = radius;
  for (let i = 0; i < 3; i++)
    x = Math.sqrt(radius ** 2 - Math.min(radius, keyOutline(key, x, gap)[2][1]) ** 2);
  const corners = keyOutline(key, x, gap);
  const trapezoid = (corners[2][1] + corners[3][1]) * (x - corners[0][0]);
  const angle = 2 * Math.asin(Math.min(1, corners[2][1] / radius));
  return Math.max(0, trapezoid) + (radius ** 2 / 2) * (angle - Math.sin(angle));
}

/** Half the angle of a platform [rad], `gap` [m] left free on either side at the hub's surface. */
export const platformHalfAngle = (fan: Fan, layout: FanLayout, gap: number): number =>
  Math.PI / fan.bladeCount - gap / 2 / layout.hubRadius;

/** The angle left on either side of the blade's root on its platform [rad]; negative: the root is wider. */
export function platformRoom(fan: Fan, layout: FanLayout, curves: BladeCurves = bladeCurves(fan)): number {
  return Math.PI / fan.bladeCount - halfAngle(bladeAt(curves, layout.hubRadius));
}
