import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Design } from '../../project/schema.ts';
import type { Kernel } from '../kernel.ts';
import { measure, type Box } from '../mesh.ts';
import { liesOnBed, presentKinds, type PartKind } from '../part.ts';
import { combined, laidDown } from '../placement.ts';
import type { Keep, StepKernel } from './kernel.ts';
import { recorder } from './record.ts';
import { facetedIn } from './recipe.ts';
import { exactSolid, moved } from './solid.ts';

/** Exact and meshed volume may differ by this share, and their boxes by this length [mm]. */
const VOLUME_SHARE = 0.01;
const BOX_APART = 0.25;

/** What the writers reject with where a part has no exact solid: one clear sentence. */
export class StepFault extends Error {
  override readonly name = 'StepFault';
}

/** An exact solid as its part lies on the bed (right-hand), with what was measured on it. */
export interface ExactPart {
  readonly shape: TopoDS_Shape;
  readonly volume_mm3: number;
  readonly box_mm: Box;
}

/**
 * The exact solid of a kind of part: the functions that mesh the part are run with a kernel that takes notes, and the notes
 * are built again with exact curves and surfaces. Throws a StepFault where that fails, or where the result and the mesh
 * differ by more than 1 % in volume or a quarter of a millimetre in any direction.
 */
export function exactPart(
  oc: StepKernel,
  keep: Keep,
  kernel: Kernel,
  design: Design,
  kind: PartKind,
): ExactPart {
  const entry = presentKinds(design).find((present) => present.kind === kind);
  if (!entry) throw new StepFault(`This design has no ${kind}.`);
  const sentence = (why: string) =>
    new StepFault(`No STEP solid of the ${entry.name}: ${why} Its STL and 3MF are not touched by this.`);
  const notes = recorder(kernel);
  const drawn = entry.mesh(notes.kernel, design, 'coarse');
  const recipe = notes.last();
  const faceted = recipe ? facetedIn(recipe) : ['an unknown place'];
  if (!recipe || faceted.length > 0) throw sentence(`it is built with ${faceted[0]}, known by facets only.`);
  const { mesh, placement } = laidDown(drawn, liesOnBed(entry, design));
  let shape: TopoDS_Shape;
  try {
    shape = moved(oc, keep, exactSolid(oc, keep, recipe), inverse(placement));
  } catch (error) {
    throw sentence(error instanceof Error ? error.message : 'the kernel of exact solids could not build it.');
  }
  const exact = { shape, ...measured(oc, keep, shape) };
  const meshed = measure(mesh);
  const off = (volume: number) => Math.abs(exact.volume_mm3 / volume - 1);
  // Coarse facets alone take more than that from a thin turned wall; the fine ones that are printed then decide.
  const share =
    off(meshed.volume) <= VOLUME_SHARE
      ? off(meshed.volume)
      : off(measure(entry.mesh(kernel, design, 'fine')).volume);
  if (!(share <= VOLUME_SHARE))
    throw sentence(
      `its volume came out ${(100 * share).toFixed(1)} % off the mesh; more than ${100 * VOLUME_SHARE} % is not let through.`,
    );
  const apart = Math.max(
    ...exact.box_mm.min.map((value, i) => Math.abs(value - meshed.box.min[i])),
    ...exact.box_mm.max.map((value, i) => Math.abs(value - meshed.box.max[i])),
  );
  if (!(apart <= BOX_APART)) throw sentence(`its size came out ${apart.toFixed(2)} mm off the mesh.`);
  return exact;
}

/** Volume [mm3] and box [mm] of an exact solid. */
export function measured(oc: StepKernel, keep: Keep, shape: TopoDS_Shape) {
  const properties = keep(new oc.GProp_GProps());
  oc.BRepGProp.VolumeProperties(shape, properties, true, false, false);
  const box = keep(new oc.Bnd_Box());
  oc.BRepBndLib.AddOptimal(shape, box, false, false);
  const [low, high] = [keep(box.CornerMin()), keep(box.CornerMax())];
  return {
    volume_mm3: properties.Mass(),
    box_mm: {
      min: [low.X(), low.Y(), low.Z()],
      max: [high.X(), high.Y(), high.Z()],
    } satisfies Box,
  };
}

/** The way back of a turn and a move. */
function inverse(m: readonly number[]): number[] {
  const back = [m[0], m[4], m[8], 0, m[1], m[5], m[9], 0, m[2], m[6], m[10], 0, 0, 0, 0, 1];
  return combined(back, [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, -m[12], -m[13], -m[14], 1]);
}
