import type { MapWish } from '../../bench/import-take.ts';
import type { Imported } from '../../bench/import.ts';
import { askedWorker } from '../worker/asked.ts';

export interface LogWorker {
  /** The sentence that says why not, or null. */
  give(bytes: Uint8Array, name: string): Promise<string | null>;
  /** `thin` null: as is usual for the length. `moved`: share of the log read. */
  take(map: readonly MapWish[], thin: boolean | null, moved: (done: number) => void): Promise<Imported>;
  stop(): Promise<void>;
}

/** Asks the worker that reads logs. */
export const askLog = askedWorker<LogWorker>(
  () => new Worker(new URL('./log.worker.ts', import.meta.url), { type: 'module' }),
);
