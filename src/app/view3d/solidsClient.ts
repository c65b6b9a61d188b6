import { wrap } from 'comlink';
import type { SolidsWorker } from './solids.ts';

let worker: Worker | null = null;
let remote: SolidsWorker | null = null;
let giveUp: ((error: Error) => void)[] = [];

/** The worker that builds solids, started when first needed and again after a crash. */
function solids(): SolidsWorker {
  if (remote) return remote;
  worker = new Worker(new URL('./solids.worker.ts', import.meta.url), { type: 'module' });
  worker.onerror = (event) => {
    event.preventDefault();
    worker?.terminate();
    worker = null;
    remote = null;
    for (const fail of giveUp) fail(new Error('the solids worker stopped'));
    giveUp = [];
  };
  // Every method answers with a promise already, so the far side has the same type as the near one.
  remote = wrap(worker) as unknown as SolidsWorker;
  return remote;
}

/** Asks the worker; rejects, instead of waiting for ever, when the worker dies meanwhile. */
export async function askSolids<T>(question: (at: SolidsWorker) => Promise<T>): Promise<T> {
  let fail: (error: Error) => void = () => {};
  const died = new Promise<never>((_, reject) => (fail = reject));
  giveUp.push(fail);
  try {
    return await Promise.race([question(solids()), died]);
  } finally {
    giveUp = giveUp.filter((f) => f !== fail);
  }
}
