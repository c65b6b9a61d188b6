import type { Project } from '../../project/schema.ts';
import type { SizeOptions, SizeStudy } from '../../study/size-types.ts';

export interface SizeQuestion {
  readonly project: Project;
  readonly options: SizeOptions;
}

export type SizeAnswer =
  | { readonly kind: 'progress'; readonly done: number; readonly total: number }
  | { readonly kind: 'study'; readonly study: SizeStudy }
  | { readonly kind: 'failed' };

/** A sizing under way. */
export interface SizeRun {
  /** Ends it after the cell in hand; what is done comes back as the study. */
  readonly stop: () => void;
}

/** Starts a sizing in a worker of its own, which ends with its answer. */
export function startSizing(question: SizeQuestion, hear: (answer: SizeAnswer) => void): SizeRun {
  const worker = new Worker(new URL('./size.worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<SizeAnswer>) => {
    if (data.kind !== 'progress') worker.terminate();
    hear(data);
  };
  worker.onerror = (event) => {
    event.preventDefault();
    worker.terminate();
    hear({ kind: 'failed' });
  };
  worker.postMessage(question);
  return { stop: () => worker.postMessage('stop') };
}
