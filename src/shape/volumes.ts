import { integrate } from '../numerics/quadrature.ts';
import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { bladeAt, bladeCurves } from './blade.ts';
import { ductPieceVolumes } from './duct-volumes.ts';
import { PLAIN_JOINT_GAP } from './joints.ts';
import { fanLayout, type FanLayout } from './layout.ts';
import { hubProfile, revolvedVolume, tailConeProfile } from './profiles.ts';
import { rootBlendRadius } from './root.ts';
import { sectionIntegrals, sectionOutline, sectionSpecAt } from './section.ts';

/** Volumes of the printed parts of one fan [m3]. */
export interface PrintedVolumes {
  readonly rotor: number;
  /** The blades' share of the rotor, outside the hub. */
  readonly blades: number;
  readonly hub: number;
  /** Wall, seat, vanes and lugs, all pieces of it together; 0 for an open rotor, which gets no duct part. */
  readonly duct: number;
  readonly tailCone: number;
}

/** Points a side of the outlines behind the integrals: 0.2 % of the area from the limit, as a test shows. */
const POINTS = 20;

/**
 * Closed integrals of the printed parts, without a solid:
 * - blades: B times the integral of the section area over the radius from hub to tip, the sections lying on cylinders
 *   about the axis (so this is the volume exactly), plus the root blend P b^2 (1 - pi/4) + pi b^3 (5/3 - pi/2) with the
 *   root's perimeter P and blend radius b;
 * - hub, tail cone: Pappus on the profiles;
 * - duct: the sum of its pieces, see `ductPieceVolumes`.
 * `holeShrink_mm` widens the drawn holes as the solids do; `layout` where it is known already; `jointGap` is the radial
 * clearance of the duct's joints [m].
 */
export function printedVolumes(
  fan: Fan,
  motor: Motor,
  holeShrink_mm = 0,
  layout: FanLayout = fanLayout(fan, motor),
  jointGap = PLAIN_JOINT_GAP,
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
    duct: ductPieceVolumes(fan, motor, layout, widening, jointGap).reduce(
      (sum, piece) => sum + piece.volume,
      0,
    ),
    tailCone:
      layout.ducted && layout.tailZ > layout.seatBottomZ ? revolvedVolume(tailConeProfile(layout)) : 0,
  };
}
