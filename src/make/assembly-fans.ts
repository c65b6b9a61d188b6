import { fanPlaces } from '../craft/stand.ts';
import type { Design } from '../project/schema.ts';
import { metresFromMillimetres } from '../quantities/units.ts';
import type { FramePlan } from '../shape/frame.ts';
import { fanLayout } from '../shape/layout.ts';
import type { Placement } from './kind.ts';
import { combined, shift, turn } from './placement.ts';

/** One fan as it stands in the craft. */
export interface FanPlacement {
  /** Right-hand rotors turn from y toward x about z, seen from above against the clock. */
  readonly hand: 'right' | 'left';
  /** From the fan's own frame into the craft's [mm]. */
  readonly placement: Placement;
}

/**
 * Every fan where the craft room puts it, at its lean, turned about its axis as the frame wants it. A lean turns the fan
 * about the middle of its rotor.
 */
export function fanPlacements(design: Design, plan: FramePlan | null): FanPlacement[] {
  const layout = fanLayout(design.fan, design.motor);
  const rim = 2 * (layout.ducted ? layout.outerRadius : layout.tipRadius);
  const pitch = rim + metresFromMillimetres(design.craft.ductSpacing_mm);
  return fanPlaces(design.craft, pitch).map(({ x, y, thrust, turns }, i) => {
    const leaned = combined(shift(1e3 * x, 1e3 * y, 1e3 * layout.rotorZ), leanTo(thrust));
    const upright = combined(leaned, shift(0, 0, -1e3 * layout.rotorZ));
    return {
      hand: turns === -1 ? 'right' : 'left',
      placement: combined(upright, turn(plan?.spins[i] ?? 0)),
    };
  });
}

/** The smallest turn that brings -z onto the unit vector `thrust`. Source: Rodrigues' formula, any text of mechanics. */
function leanTo(thrust: readonly [x: number, y: number, z: number]): Placement {
  const [nx, ny, nz] = thrust.map((part) => -part);
  // Axis z cross n = (-ny, nx, 0), cosine nz.
  const k = 1 / (1 + nz);
  return [
    ...[1 - k * nx * nx, -k * nx * ny, -nx, 0],
    ...[-k * nx * ny, 1 - k * ny * ny, -ny, 0],
    ...[nx, ny, nz, 0],
    ...[0, 0, 0, 1],
  ];
}
