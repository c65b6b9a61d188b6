import type { TachRequest, TachResult } from '../../bench/tach/tach.ts';
import type { Tones } from '../../bench/tach/tones.ts';
import { askedWorker } from '../worker/asked.ts';

export interface Heard {
  readonly result: TachResult;
  /** The tones of the steady part; null where nothing was found. */
  readonly tones: Tones | null;
}

export interface TachWorker {
  hear(request: TachRequest): Promise<Heard>;
}

/** Asks the worker that listens. */
export const askTach = askedWorker<TachWorker>(
  () => new Worker(new URL('./tach.worker.ts', import.meta.url), { type: 'module' }),
);
