import { craftFrameFaults } from '../craft/frame.ts';
import { laidShareOf } from '../craft/mass.ts';
import type { Design } from '../project/schema.ts';
import { gramsFromKilograms } from '../quantities/units.ts';
import { geometryFaults, type GeometryFault } from '../shape/faults.ts';
import { chosenDown } from '../shape/lies.ts';
import type { Quality } from './fineness.ts';
import type { Kernel } from './kernel.ts';
import type { Kind, PartKind, Placement, Rotation } from './kind.ts';
import { kinds } from './kinds.ts';
import { rotationTo } from './layers/lie.ts';
import { measure, type Box, type Mesh } from './mesh.ts';
import { combined, laidDown, turn } from './placement.ts';

export type { PartKind } from './kind.ts';

/** One printable part as it lies on the bed [mm], z up from the bed. Plain data; the arrays may be transferred. */
export interface PartSolid extends Mesh {
  readonly kind: PartKind;
  readonly volume_m3: number;
  /** The same volume from the integrals that the mass build-up uses. */
  readonly closedVolume_m3: number;
  readonly area_m2: number;
  readonly boundingBox_mm: Box;
  /** As laid down, by the printer's walls and infill: the same shares as in the mass list of the craft. */
  readonly mass_g: number;
  /**
   * From the bed into the fan: 4 by 4, column after column, for lengths in mm. The fan's z points downstream with 0
   * where the lip meets the bore; a right-hand rotor turns from +y toward +x, so that its thrust points to -z.
   */
  readonly placement: Placement;
  /** The same for each piece of one fan (of the craft, where the part is the craft's); the first is `placement`. */
  readonly placements: readonly Placement[];
}

export interface PartOptions {
  readonly quality?: Quality;
}

/** What `make` and `makePart` reject with where a fan cannot be built: the message holds all sentences. */
export interface GeometryFaultError extends Error {
  readonly faults: readonly GeometryFault[];
}

export function isGeometryFaultError(error: unknown): error is GeometryFaultError {
  return error instanceof Error && error.name === 'GeometryFaultError';
}

/** Throws a GeometryFaultError where the fan cannot be built. */
export function refuseFaults(design: Design): void {
  const faults = [...geometryFaults(design.fan, design.motor), ...craftFrameFaults(design)];
  if (faults.length === 0) return;
  const message = faults.map(({ path, text }) => `${path}: ${text}`).join('\n');
  throw Object.assign(new Error(message), { name: 'GeometryFaultError', faults });
}

/** The kinds of part a design is printed in, in the order of the list of parts. */
export function partKinds(design: Design): PartKind[] {
  return presentKinds(design).map(({ kind }) => kind);
}

export function presentKinds(design: Design): Kind[] {
  return kinds.filter((kind) => kind.present(design));
}

/** Builds one part (the right-hand one where hands differ), as it lies on the bed. */
export function makePart(
  kernel: Kernel,
  design: Design,
  kind: PartKind,
  options: PartOptions = {},
): PartSolid {
  refuseFaults(design);
  const entry = presentKinds(design).find((present) => present.kind === kind);
  if (!entry) throw new Error(`This design has no ${kind}.`);
  const drawn = entry.mesh(kernel, design, options.quality ?? 'fine');
  const { mesh, placement } = laidDown(drawn, liesOnBed(entry, design));
  const placements = stands(entry, design).map((at) => combined(at, placement));
  const { volume, area, box } = measure(mesh);
  return {
    kind,
    ...mesh,
    volume_m3: volume * 1e-9,
    closedVolume_m3: entry.closedVolume(design),
    area_m2: area * 1e-6,
    boundingBox_mm: box,
    mass_g: laidShareOf(kind, design) * gramsFromKilograms(volume * 1e-9 * design.material.density_kgpm3),
    placement: placements[0],
    placements,
  };
}

/** As the project lays it, else as usual. */
export function liesOnBed(entry: Kind, design: Design): Rotation {
  const down = chosenDown(design.fan, entry.kind);
  return down ? rotationTo(down) : entry.lies(design);
}

function stands(entry: Kind, design: Design): readonly Placement[] {
  if (entry.stands) return entry.stands(design);
  const count = entry.quantity(design);
  return Array.from({ length: count }, (_, i) => turn((2 * Math.PI * i) / count));
}
