import type { Design } from '../project/schema.ts';
import { gramsFromKilograms } from '../quantities/units.ts';
import { geometryFaults, type GeometryFault } from '../shape/faults.ts';
import { fanLayout } from '../shape/layout.ts';
import { printedVolumes } from '../shape/volumes.ts';
import { ductMesh, tailConeMesh } from './duct.ts';
import type { Quality } from './fineness.ts';
import type { Kernel } from './kernel.ts';
import { measure, moved, type Box, type Mesh } from './mesh.ts';
import { rotorMesh } from './rotor.ts';

export type PartKind = 'rotor' | 'duct' | 'tailCone';

/** One printable part as it lies on the bed [mm], z up from the bed. Plain data; the arrays may be transferred. */
export interface PartSolid extends Mesh {
  readonly kind: PartKind;
  readonly volume_m3: number;
  /** The same volume from the integrals that the mass build-up uses. */
  readonly closedVolume_m3: number;
  readonly area_m2: number;
  readonly boundingBox_mm: Box;
  /** Printed solid. */
  readonly mass_g: number;
  /**
   * From the bed into the fan: 4 by 4, column after column, for lengths in mm. The fan's z points downstream with 0
   * where the lip meets the bore; a right-hand rotor turns from +y toward +x, so that its thrust points to -z.
   */
  readonly placement: readonly number[];
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
  const faults = geometryFaults(design.fan, design.motor);
  if (faults.length === 0) return;
  const message = faults.map(({ path, text }) => `${path}: ${text}`).join('\n');
  throw Object.assign(new Error(message), { name: 'GeometryFaultError', faults });
}

/** The parts one fan is printed in. */
export function partKinds(design: Design): PartKind[] {
  if (design.fan.kind === 'open') return ['rotor'];
  return design.fan.duct.tailCone ? ['rotor', 'duct', 'tailCone'] : ['rotor', 'duct'];
}

/**
 * Builds one part (the right-hand one where hands differ). The rotor lies with its closed face down, the duct stands on
 * its exit, the tail cone on its rim.
 */
export function makePart(
  kernel: Kernel,
  design: Design,
  kind: PartKind,
  options: PartOptions = {},
): PartSolid {
  refuseFaults(design);
  if (!partKinds(design).includes(kind)) throw new Error(`This fan has no ${kind}.`);
  const quality = options.quality ?? 'fine';
  const layout = fanLayout(design.fan, design.motor);
  const volumes = printedVolumes(design.fan, design.motor, design.printer.holeShrink_mm);
  let mesh: Mesh;
  let placement: number[];
  if (kind === 'duct') {
    const bottom = 1e3 * layout.exitZ;
    mesh = moved(ductMesh(kernel, design, quality), (x, y, z) => [x, -y, bottom - z]);
    placement = [1, 0, 0, 0, 0, -1, 0, 0, 0, 0, -1, 0, 0, 0, bottom, 1];
  } else {
    const inFan =
      kind === 'rotor' ? rotorMesh(kernel, design, quality) : tailConeMesh(kernel, design, quality);
    const bottom = measure(inFan).box.min[2];
    mesh = moved(inFan, (x, y, z) => [x, y, z - bottom]);
    placement = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, bottom, 1];
  }
  const { volume, area, box } = measure(mesh);
  return {
    kind,
    ...mesh,
    volume_m3: volume * 1e-9,
    closedVolume_m3: volumes[kind],
    area_m2: area * 1e-6,
    boundingBox_mm: box,
    mass_g: gramsFromKilograms(volume * 1e-9 * design.material.density_kgpm3),
    placement,
  };
}
