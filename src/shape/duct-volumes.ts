import { integrate } from '../numerics/quadrature.ts';
import type { Fan, Motor } from '../project/schema.ts';
import { ductPieces, pieceProfile, type DuctPieceKind } from './duct-pieces.ts';
import { ductJoints, type DuctJoint } from './joints.ts';
import type { FanLayout } from './layout.ts';
import { lugPlaces, type LugPlace } from './lugs.ts';
import { passageRadius, revolvedVolume, wallOuterRadius } from './profiles.ts';
import { sectionIntegrals, sectionOutline } from './section.ts';
import { vaneSize, vaneSpec } from './vane.ts';
import { slotHalfWidth, wireSlot } from './wire-slot.ts';

/** Straight pieces for a quarter circle of the duct. */
const ARC_STEPS = 12;

/** Points a side of a vane's outline. */
const POINTS = 20;

/**
 * Volume of each piece of the duct [m3], from top to bottom, by Pappus on its profile; the last also carries
 * - the seat: plate less holes, the holes wider by `widening` on each side [m];
 * - vanes: section area times the clear length from seat to wall, and what stands on the seat;
 * - lugs: what stands out of wall and collar, integrated over height and radius, less hole and pocket;
 * - less the slot for the leads: integral of the wall across it.
 */
export function ductPieceVolumes(
  fan: Fan,
  motor: Motor,
  layout: FanLayout,
  widening: number,
  jointGap: number,
): { readonly kind: DuctPieceKind; readonly volume: number }[] {
  const pieces = ductPieces(layout, fan, jointGap);
  return pieces.map((piece, i) => {
    const wall = revolvedVolume(pieceProfile(layout, piece, ARC_STEPS));
    if (i < pieces.length - 1) return { kind: piece.kind, volume: wall };
    const more = seatAndVanes(fan, motor, layout, widening) + lugVolume(fan, layout, widening, jointGap);
    return { kind: piece.kind, volume: Math.max(0, wall + more - slotVolume(fan, layout)) };
  });
}

function seatAndVanes(fan: Fan, motor: Motor, layout: FanLayout, widening: number): number {
  const hole = layout.seatHoleRadius > 0 ? layout.seatHoleRadius + widening : 0;
  const screws = motor.mountHoles * (layout.screwHoleRadius + widening) ** 2;
  const plate = Math.PI * (layout.seatBottomZ - layout.seatTopZ);
  const seat = Math.max(0, plate * (layout.seatRadius ** 2 - hole ** 2 - screws));
  const { chord } = vaneSize(fan);
  const area = sectionIntegrals(sectionOutline(vaneSpec(fan), POINTS)).area * chord * chord;
  const middle = (layout.vaneTopZ + layout.vaneBottomZ) / 2;
  const beside = 1 - (layout.seatBottomZ - layout.seatTopZ) / (layout.vaneBottomZ - layout.vaneTopZ);
  const length =
    Math.max(0, passageRadius(layout, middle) - layout.seatRadius) +
    Math.max(0, beside) * (layout.seatRadius - layout.vaneInnerRadius);
  return seat + fan.stator.vaneCount * area * length;
}

/** Half the angle over which a lug covers the circle of `radius` [rad]: a strip, rounded about its hole. */
function lugHalfAngle({ radius: hole, halfWidth: w }: LugPlace, radius: number): number {
  if (radius <= Math.hypot(hole, w)) return Math.asin(Math.min(1, w / radius));
  const cosine = (radius ** 2 + hole ** 2 - w ** 2) / (2 * radius * hole);
  return Math.acos(Math.min(1, Math.max(-1, cosine)));
}

function lugVolume(fan: Fan, layout: FanLayout, widening: number, jointGap: number): number {
  const lugs = lugPlaces(layout, fan);
  if (lugs.length === 0) return 0;
  const [lug] = lugs;
  const joint = ductJoints(layout, fan, jointGap).find(({ kind }) => kind === 'ring') ?? null;
  const tip = lug.radius + lug.halfWidth;
  const area = (z: number) => {
    const from = Math.max(wallOuterRadius(layout, z), collarRadiusAt(joint, z));
    const to = Math.min(tip, tip - (z - lug.bottomZ));
    return to <= from ? 0 : integrate((r) => 2 * r * lugHalfAngle(lug, r), from, to, 2);
  };
  const bottomZ = Math.min(lug.bottomZ, layout.exitZ);
  const endZ = Math.max(bottomZ, lug.footZ);
  const whole = integrate(area, lug.topZ, bottomZ, 2) + integrate(area, bottomZ, endZ, 3);
  const hole = Math.PI * (lug.holeRadius + widening) ** 2 * lug.thickness;
  // Under the middle of the pocket the lug is half a width deep, and the slope is even about it.
  const p = lug.pocketRadius;
  const room = Math.max(0, layout.exitZ - lug.bottomZ);
  const pocket = integrate(
    (x) => 2 * Math.sqrt(Math.max(0, p * p - x * x)) * Math.min(room, lug.halfWidth - x),
    -p,
    p,
    3,
  );
  return lugs.length * Math.max(0, whole - hole - pocket);
}

function collarRadiusAt(joint: DuctJoint | null, z: number): number {
  if (!joint || z < joint.mouthZ || z > joint.footZ) return 0;
  return joint.collarRadius - Math.max(0, z - joint.collarBottomZ);
}

function slotVolume(fan: Fan, layout: FanLayout): number {
  const slot = wireSlot(layout, fan);
  if (!slot) return 0;
  // Area between a chord of the circle and its middle line: integral of sqrt(R^2 - y^2) over |y| < half.
  const under = (radius: number, half: number) => {
    const h = Math.min(half, radius);
    return h * Math.sqrt(radius * radius - h * h) + radius * radius * Math.asin(h / radius);
  };
  const area = (z: number) => {
    const half = slotHalfWidth(slot, z);
    return under(wallOuterRadius(layout, z), half) - under(passageRadius(layout, z), half);
  };
  return Math.max(
    0,
    integrate(area, slot.topZ, slot.eavesZ, 2) + integrate(area, slot.eavesZ, slot.bottomZ, 2),
  );
}
