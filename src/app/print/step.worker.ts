import { loadKernel } from '../../make/kernel.ts';
import { make } from '../../make/make.ts';
import { isGeometryFaultError } from '../../make/part.ts';
import { loadStepKernel, StepFault, stepOfAssembly, stepOfPart } from '../../make/step/step.ts';
import type { Project } from '../../project/schema.ts';

/** What the worker says while it works, and last. */
export type StepAnswer =
  | { readonly kind: 'done'; readonly done_ratio: number }
  | { readonly kind: 'file'; readonly bytes: Uint8Array<ArrayBuffer>; readonly missing: readonly string[] }
  | { readonly kind: 'refused'; readonly why: readonly string[] };

const say = (answer: StepAnswer) => postMessage(answer);

/** What is asked for: the craft put together, or one part by its id. */
export interface StepAsked {
  readonly project: Project;
  readonly partId: string | null;
}

async function write({ project, partId }: StepAsked): Promise<void> {
  try {
    const [kernel, step] = await Promise.all([loadKernel(), loadStepKernel()]);
    const made = await make(project, { kernel });
    say({ kind: 'done', done_ratio: 0 });
    const part = partId === null ? null : made.parts.find(({ id }) => id === partId);
    if (part) {
      const bytes = new Uint8Array(stepOfPart({ step, kernel, project, made }, part));
      return say({ kind: 'file', bytes, missing: [] });
    }
    if (partId !== null) return say({ kind: 'refused', why: ['This part is no longer in the design.'] });
    const { bytes, missing } = stepOfAssembly({ step, kernel, project, made }, (done_ratio) =>
      say({ kind: 'done', done_ratio }),
    );
    say({ kind: 'file', bytes: new Uint8Array(bytes), missing });
  } catch (error) {
    if (isGeometryFaultError(error)) say({ kind: 'refused', why: error.faults.map((f) => f.text) });
    else if (error instanceof StepFault) say({ kind: 'refused', why: error.message.split('\n') });
    else {
      console.error(error);
      say({ kind: 'refused', why: ['The kernel of exact solids stopped; the design is unchanged.'] });
    }
  }
}

addEventListener('message', (event: MessageEvent<StepAsked>) => void write(event.data));
