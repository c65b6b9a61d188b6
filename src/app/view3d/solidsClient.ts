import { askedWorker } from '../worker/asked.ts';
import type { SolidsWorker } from './solids.ts';

/** Asks the worker that builds solids. */
export const askSolids = askedWorker<SolidsWorker>(
  () => new Worker(new URL('./solids.worker.ts', import.meta.url), { type: 'module' }),
);
