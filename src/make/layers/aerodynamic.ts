import type { FanLayout } from '../../shape/layout.ts';
import type { PartKind } from '../part.ts';

/** Whether a face of a part at a place in the fan [mm], with its outward normal there, is one the air works on. */
export type AirFace = (x: number, y: number, z: number, nx: number, ny: number, nz: number) => boolean;

const NONE: AirFace = () => false;

/** How far from the hub, and from the tip, a facet must lie to count as the blade's own face [mm]. */
const CLEAR = 0.05;

/**
 * The faces that the air works on, by the kind of part: blades outside the hub without their tips, the inside of the duct
 * with its lip and vanes, the outside of cone and spinner.
 */
export function airFaceOf(kind: PartKind, layout: FanLayout): AirFace {
  const hub = 1e3 * layout.hubRadius + CLEAR;
  const tip = 1e3 * layout.tipRadius - CLEAR;
  const seat = 1e3 * layout.seatRadius + CLEAR;
  const outside = 1e3 * (layout.boreRadius + layout.lipRadius);
  switch (kind) {
    case 'rotor':
    case 'blade':
      return (x, y, _z, nx, ny) => {
        const r = Math.hypot(x, y);
        // The tip faces straight outward.
        return r > hub && (r < tip || (nx * x + ny * y) / r < 0.99);
      };
    case 'duct':
    case 'ductUpper':
    case 'ductLower':
    case 'lip':
    case 'body':
      return (x, y, z, nx, ny, nz) => {
        const r = Math.hypot(x, y);
        if (r <= seat || r > outside) return false;
        const outward = (nx * x + ny * y) / r;
        return outward < -0.05 || (z < 0 && nz < -0.05) || r < 1e3 * layout.boreRadius - CLEAR;
      };
    case 'tailCone':
    case 'spinner':
      return (x, y, _z, nx, ny) => nx * x + ny * y > 0;
    default:
      return NONE;
  }
}

/** The same question asked on the bed, through the part's placement (4 by 4, column after column, from bed to fan). */
export function onBed(face: AirFace, m: readonly number[]): AirFace {
  return (x, y, z, nx, ny, nz) =>
    face(
      m[0] * x + m[4] * y + m[8] * z + m[12],
      m[1] * x + m[5] * y + m[9] * z + m[13],
      m[2] * x + m[6] * y + m[10] * z + m[14],
      m[0] * nx + m[4] * ny + m[8] * nz,
      m[1] * nx + m[5] * ny + m[9] * nz,
      m[2] * nx + m[6] * ny + m[10] * nz,
    );
}
