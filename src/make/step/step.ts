import type { Project } from '../../project/schema.ts';
import type { Kernel } from '../kernel.ts';
import type { Made, MadePart } from '../make.ts';
import { withKept, type Keep, type StepKernel } from './kernel.ts';
import { exactPart, StepFault } from './part.ts';
import { craftPlaces } from '../places.ts';
import { moved } from './solid.ts';
import { stepFile, type StepItem } from './write.ts';

export { loadStepKernel, type StepKernel } from './kernel.ts';
export { StepFault } from './part.ts';

/** What the writers of STEP files need: both kernels, the project, and its parts as `make` gave them. */
export interface StepJob {
  readonly step: StepKernel;
  readonly kernel: Kernel;
  readonly project: Project;
  readonly made: Made;
}

/** Mirror in the plane y = 0. */
const MIRROR = [1, 0, 0, 0, 0, -1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];

/**
 * One part as a STEP file: a solid bounded by curves and surfaces, as it lies on the bed [mm]. A left-hand part is the
 * exact mirror image. Equal projects give equal bytes. Throws a StepFault, one clear sentence, where a part cannot be had.
 */
export function stepOfPart(job: StepJob, part: MadePart): Uint8Array {
  return withKept((keep) =>
    stepFile(job.step, keep, part.name, [{ name: part.name, shape: shapeOf(job, keep, part) }]),
  );
}

/** Every part and the whole. */
export interface StepSet {
  readonly parts: readonly { readonly id: string; readonly bytes: Uint8Array }[];
  /** Null where no part has an exact solid. */
  readonly assembly: Uint8Array | null;
  /** One sentence for each part that is left out. */
  readonly missing: readonly string[];
}

/**
 * Every part as a file of its own, and all of them as they stand in the craft as one assembly [mm]: x forward, y to the
 * right, z down, 0 where lip and bore meet, each part stored once. What has no exact solid is left out and named. `onPart`
 * hears the share done, 0 to 1. Each solid is built once.
 */
export function stepOfAll(job: StepJob, onPart: (done_ratio: number) => void = () => undefined): StepSet {
  const { step, made, project } = job;
  return withKept((keep) => {
    const missing = new Set<string>();
    const items: StepItem[] = [];
    const parts: { id: string; bytes: Uint8Array }[] = [];
    const right = new Map<MadePart['kind'], ReturnType<typeof exactPart>['shape']>();
    made.parts.forEach((part, i) => {
      try {
        const held = right.get(part.kind) ?? exactPart(step, keep, job.kernel, project, part.kind).shape;
        right.set(part.kind, held);
        const shape = part.hand === 'left' ? moved(step, keep, held, MIRROR) : held;
        parts.push({ id: part.id, bytes: stepFile(step, keep, part.name, [{ name: part.name, shape }]) });
        items.push({ name: part.name, shape, places: craftPlaces(project, part) });
      } catch (error) {
        if (!(error instanceof StepFault)) throw error;
        missing.add(error.message);
      }
      onPart((i + 1) / made.parts.length);
    });
    const assembly = items.length > 0 ? stepFile(step, keep, made.name || 'craft', items) : null;
    return { parts, assembly, missing: [...missing] };
  });
}

/**
 * The assembly alone, as `stepOfAll` makes it, and what could not be put into it. Throws a StepFault where no part is left.
 */
export function stepOfAssembly(job: StepJob, onPart?: (done_ratio: number) => void) {
  const { assembly, missing } = stepOfAll(job, onPart);
  if (!assembly) throw new StepFault(missing.join('\n'));
  return { bytes: assembly, missing };
}

function shapeOf({ step, kernel, project }: StepJob, keep: Keep, part: MadePart) {
  const { shape } = exactPart(step, keep, kernel, project, part.kind);
  return part.hand === 'left' ? moved(step, keep, shape, MIRROR) : shape;
}
