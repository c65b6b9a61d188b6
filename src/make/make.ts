import { fanPlaces } from '../craft/stand.ts';
import type { Design } from '../project/schema.ts';
import type { Kernel } from './kernel.ts';
import { mirrored } from './mesh.ts';
import { makePart, presentKinds, refuseFaults, type PartOptions, type PartSolid } from './part.ts';
import { mirroredPlacement } from './placement.ts';

export interface MadePart extends PartSolid {
  /** Unique among the parts; fit for a file name. */
  readonly id: string;
  readonly name: string;
  readonly quantity: number;
  /** Sense of rotation it belongs to; null where it fits both. */
  readonly hand: 'right' | 'left' | null;
}

/** Every part of a craft. Plain data. */
export interface Made {
  readonly name: string;
  readonly fanCount: number;
  readonly parts: readonly MadePart[];
  /** Size of the bed the parts are meant for [mm]. */
  readonly bed_mm: readonly [number, number];
}

export interface MakeOptions extends PartOptions {
  readonly kernel: Kernel;
}

/**
 * The printable parts of a project, with quantities. Neighbours turn opposite ways, as `fanPlaces` stands them: rotors, and
 * ducts with curved vanes, then come as two mirrored parts, as many of each as there are fans of its hand. Rejects with
 * a GeometryFaultError where the fan cannot be built.
 */
export async function make(project: Design & { readonly name: string }, options: MakeOptions): Promise<Made> {
  refuseFaults(project);
  const { fanCount } = project.craft;
  const right = fanPlaces(project.craft, 1).filter(({ turns }) => turns === -1).length;
  const handed = { right, left: fanCount - right };
  const parts: MadePart[] = [];
  for (const entry of presentKinds(project)) {
    const { id, name, per } = entry;
    const solid = makePart(options.kernel, project, entry.kind, options);
    const quantity = entry.quantity(project) * (per === 'fan' ? fanCount : 1);
    if (!entry.handed(project)) {
      parts.push({ ...solid, id, name, quantity, hand: null });
      continue;
    }
    for (const hand of ['right', 'left'] as const) {
      const fans = handed[hand];
      if (fans === 0) continue;
      parts.push({
        ...(hand === 'left' ? mirroredPart(solid) : solid),
        id: `${id}-${hand}`,
        name: `${name}, ${hand}-hand`,
        quantity: entry.quantity(project) * fans,
        hand,
      });
    }
  }
  return {
    name: project.name,
    fanCount,
    parts,
    bed_mm: [project.printer.bedX_mm, project.printer.bedY_mm],
  };
}

function mirroredPart(solid: PartSolid): PartSolid {
  const { min, max } = solid.boundingBox_mm;
  return {
    ...solid,
    ...mirrored(solid),
    boundingBox_mm: { min: [min[0], -max[1], min[2]], max: [max[0], -min[1], max[2]] },
    placement: mirroredPlacement(solid.placement),
    placements: solid.placements.map(mirroredPlacement),
  };
}
