import type { Fan } from '../project/schema.ts';
import { ductJoints, PLAIN_JOINT_GAP, type DuctJoint } from './joints.ts';
import type { FanLayout } from './layout.ts';
import { oriented, type Profile } from './profile.ts';
import { passageRadius, wallOuterRadius, wallSides } from './profiles.ts';

export type DuctPieceKind = 'lip' | 'duct' | 'ductUpper' | 'ductLower';

/** One piece of the duct's wall between its joints; null where it ends as the whole duct does. */
export interface DuctPiece {
  readonly kind: DuctPieceKind;
  readonly above: DuctJoint | null;
  readonly below: DuctJoint | null;
}

/** Points nearer than this along the axis [m] are one. */
const NEAREST = 1e-7;

/** Which pieces the wall of a duct is printed in, from top to bottom. The last carries vanes, motor and lugs. */
export function ductPieceKinds({ kind, duct }: Pick<Fan, 'kind' | 'duct'>): DuctPieceKind[] {
  if (kind !== 'ducted') return [];
  return [
    ...(duct.lipApart ? (['lip'] as const) : []),
    ...(duct.rings > 1 ? (['ductUpper', 'ductLower'] as const) : (['duct'] as const)),
  ];
}

/** The pieces with the joints between them; `gap` is the radial clearance of a joint [m]. */
export function ductPieces(layout: FanLayout, fan: Fan, gap = PLAIN_JOINT_GAP): DuctPiece[] {
  const joints = ductJoints(layout, fan, gap);
  return ductPieceKinds(fan).map((kind, i) => ({
    kind,
    above: joints[i - 1] ?? null,
    below: joints[i] ?? null,
  }));
}

/**
 * Half-section of one piece: the wall between its joints, at the lower end a cylinder that slides into the next piece's
 * collar, at the upper end the collar and the ledge on which the piece above stands.
 */
export function pieceProfile(layout: FanLayout, { above, below }: DuctPiece, steps: number): Profile {
  const { inside, outside } = wallSides(layout, steps);
  const points: [number, number][] = [];
  if (above) points.push([above.z, passageRadius(layout, above.z)]);
  for (const point of inside)
    if ((!above || point[0] > above.z + NEAREST) && (!below || point[0] < below.z - NEAREST))
      points.push([...point]);
  if (below) {
    points.push([below.z, passageRadius(layout, below.z)], [below.z, below.spigotRadius]);
    points.push([below.mouthZ, below.spigotRadius]);
    const wall = wallOuterRadius(layout, below.mouthZ);
    if (wall < below.spigotRadius - NEAREST) points.push([below.mouthZ, wall]);
  }
  const footRadius = above ? above.collarRadius - (above.footZ - above.collarBottomZ) : 0;
  for (const point of outside)
    if ((!above || point[0] > above.footZ + NEAREST) && (!below || point[0] < below.mouthZ - NEAREST))
      points.push([...point]);
  if (above)
    points.push(
      [above.footZ, footRadius],
      [above.collarBottomZ, above.collarRadius],
      [above.mouthZ, above.collarRadius],
      [above.mouthZ, above.socketRadius],
      [above.z, above.socketRadius],
    );
  return oriented(points);
}
