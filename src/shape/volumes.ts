import { integrate } from '../numerics/quadrature.ts';
import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres, radiansFromDegrees } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import { fanLayout, type FanLayout } from './layout.ts';
import { ductProfile, hubProfile, passageRadius, revolvedVolume, tailConeProfile } from './profiles.ts';
import { rootBlendRadius } from './root.ts';
import { sectionIntegrals, sectionOutline, sectionSpecAt, type SectionSpec } from './section.ts';

/** Volumes of the printed parts of one fan [m3]. */
export interface PrintedVolumes {
  readonly rotor: number;
  /** The blades' share of the rotor, outside the hub. */
  readonly blades: number;
  readonly hub: number;
  /** Wall, seat and vanes; 0 for an open rotor, which gets no duct part. */
  readonly duct: number;
  readonly tailCone: number;
}

/** Points a side of the outlines behind the integrals: 0.2 % of the area from the limit, as a test shows. */
const POINTS = 20;

/** Straight pieces for a quarter circle of the duct. */
const ARC_STEPS = 12;

/** Section of a vane with its chord along it: a plate, bent to an arc where the vanes are curved. */
export function vaneSpec(fan: Fan): SectionSpec {
  const { chord, thickness, camber } = vaneSize(fan);
  return {
    family: fan.stator.curved ? 'arc-plate' : 'flat-plate',
    thickness: thickness / chord,
    camber,
    camberPosition: 0.5,
    trailingEdge: (0.5 * thickness) / chord,
  };
}

/**
 * A vane's chord [m], thickness [m], angle of the chord to the plane of rotation [rad] and camber over chord. Behind a
 * right-hand rotor the air turns with the blades; a curved vane meets it at `turn_deg` to the axis and lets it go along
 * the axis, so its chord leans past a right angle and its mean line bends the other way than a blade's. Its depth along
 * the axis is `chord_mm`.
 */
export function vaneSize(fan: Fan) {
  const depth = metresFromMillimetres(fan.stator.chord_mm);
  const half = fan.stator.curved ? radiansFromDegrees(fan.stator.turn_deg) / 2 : 0;
  return {
    chord: depth / Math.cos(half),
    thickness: metresFromMillimetres(fan.stator.thickness_mm),
    angle: Math.PI / 2 + half,
    camber: -Math.tan(half / 2) / 2,
  };
}

/**
 * Closed integrals of the printed parts, without a solid:
 * - blades: B times the integral of the section area over the radius from hub to tip, the sections lying on cylinders
 *   about the axis (so this is the volume exactly), plus the root blend P b^2 (1 - pi/4) + pi b^3 (5/3 - pi/2) with the
 *   root's perimeter P and blend radius b;
 * - hub, duct wall, seat, tail cone: Pappus on the profiles;
 * - vanes: section area times the clear length from seat to wall, and what stands on the seat.
 * `holeShrink_mm` widens the drawn holes as the solids do; `layout` where it is known already.
 */
export function printedVolumes(
  fan: Fan,
  motor: Motor,
  holeShrink_mm = 0,
  layout: FanLayout = fanLayout(fan, motor),
): PrintedVolumes {
  const curves = bladeCurves(fan);
  const integralsAt = (radius: number) => {
    const at = bladeAt(curves, radius);
    return { chord: at.chord, of: sectionIntegrals(sectionOutline(sectionSpecAt(fan.section, at), POINTS)) };
  };
  const span =
    layout.tipRadius <= layout.hubRadius
      ? 0
      : integrate(
          (radius) => {
            const { chord, of } = integralsAt(radius);
            return of.area * chord * chord;
          },
          layout.hubRadius,
          layout.tipRadius,
          2,
        );
  const blend = rootBlendRadius(fan, layout, curves);
  const root = integralsAt(layout.hubRadius);
  const blendVolume =
    root.of.perimeter * root.chord * blend ** 2 * (1 - Math.PI / 4) +
    Math.PI * blend ** 3 * (5 / 3 - Math.PI / 2);
  const blades = fan.bladeCount * (span + blendVolume);
  const widening = metresFromMillimetres(holeShrink_mm) / 2;
  const hub = revolvedVolume(hubProfile(layout, layout.shaftRadius + widening));
  return {
    rotor: hub + blades,
    blades,
    hub,
    duct: layout.ducted ? ductVolume(fan, motor, layout, widening) : 0,
    tailCone:
      layout.ducted && layout.tailZ > layout.seatBottomZ ? revolvedVolume(tailConeProfile(layout)) : 0,
  };
}

function ductVolume(fan: Fan, motor: Motor, layout: FanLayout, widening: number): number {
  const wall = revolvedVolume(ductProfile(layout, ARC_STEPS));
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
  return wall + seat + fan.stator.vaneCount * area * length;
}
