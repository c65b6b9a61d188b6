import { loadKernel } from '../../make/kernel.ts';
import { make } from '../../make/make.ts';
import { isGeometryFaultError } from '../../make/part.ts';
import { loadStepKernel, StepFault, stepOfAssembly } from '../../make/step/step.ts';
import type { Project } from '../../project/schema.ts';

/** What the worker says while it works, and last. */
export type StepAnswer =
  | { readonly kind: 'done'; readonly done_ratio: number }
  | { readonly kind: 'file'; readonly bytes: Uint8Array<ArrayBuffer>; readonly missing: readonly string[] }
  | { readonly kind: 'refused'; readonly why: readonly string[] };

const say = (answer: StepAnswer) => postMessage(answer);

async function write(project: Project): Promise<void> {
  try {
    const [kernel, step] = await Promise.all([loadKernel(), loadStepKernel()]);
    const made = await make(project, { kernel });
    say({ kind: 'done', done_ratio: 0 });
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

addEventListener('message', (event: MessageEvent<Project>) => void write(event.data));
