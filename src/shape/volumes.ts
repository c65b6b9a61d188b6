import type { Fan, Motor } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import { fanLayout, type FanLayout } from './layout.ts';
import { ductPieceVolumes } from './duct-volumes.ts';
import { PLAIN_JOINT_GAP } from './joints.ts';
import { revolvedVolume, tailConeProfile } from './profiles.ts';
import { usualFits } from './rotor-fits.ts';
import { rotorVolumes } from './rotor-volumes.ts';

/** Volumes of the printed parts of one fan [m3]. */
export interface PrintedVolumes {
  /** All that turns, in one piece or several. */
  readonly rotor: number;
  /** The blades' share of the rotor, outside the hub. */
  readonly blades: number;
  readonly hub: number;
  /** Wall, seat, vanes and lugs, all pieces of it together; 0 for an open rotor, which gets no duct part. */
  readonly duct: number;
  readonly tailCone: number;
}

/**
 * Closed integrals of the printed parts, without a solid:
 * - rotor: the sum of its pieces, see `rotorVolumes`, at the usual fits;
 * - tail cone: Pappus on the profile;
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
  const widening = metresFromMillimetres(holeShrink_mm) / 2;
  const rotor = rotorVolumes(fan, layout, usualFits(fan, layout, holeShrink_mm));
  return {
    rotor: rotor.whole,
    blades: rotor.blades,
    hub: rotor.hub,
    duct: ductPieceVolumes(fan, motor, layout, widening, jointGap).reduce(
      (sum, piece) => sum + piece.volume,
      0,
    ),
    tailCone:
      layout.ducted && layout.tailZ > layout.seatBottomZ ? revolvedVolume(tailConeProfile(layout)) : 0,
  };
}
