import { wrap } from 'comlink';

/**
 * A worker started when first asked and again after a crash. The answer to a question rejects, instead of being waited
 * for without end, when the worker dies meanwhile. `At` is the worker's interface, every method of which gives a promise.
 */
export function askedWorker<At>(
  start: () => Worker,
): <Answer>(question: (at: At) => Promise<Answer>) => Promise<Answer> {
  let remote: At | null = null;
  let giveUp: ((error: Error) => void)[] = [];
  const ready = (): At => {
    if (remote) return remote;
    const worker = start();
    worker.onerror = (event) => {
      event.preventDefault();
      worker.terminate();
      remote = null;
      for (const fail of giveUp) fail(new Error('the worker stopped'));
      giveUp = [];
    };
    // Every method answers with a promise already, so the far side has the same type as the near one.
    remote = wrap(worker) as unknown as At;
    return remote;
  };
  return async (question) => {
    let fail: (error: Error) => void = () => {};
    const died = new Promise<never>((_, reject) => (fail = reject));
    giveUp.push(fail);
    try {
      return await Promise.race([question(ready()), died]);
    } finally {
      giveUp = giveUp.filter((f) => f !== fail);
    }
  };
}
