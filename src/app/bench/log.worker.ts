import { expose } from 'comlink';
import { importSteps } from '../../bench/import.ts';
import { textFromBytes } from '../../project/table.ts';
import type { LogWorker } from './log.ts';

let text = '';
let name = '';
let newest = 0;

/** Holds the log that was given last, so that another mapping does not send it again. */
const worker: LogWorker = {
  give: (bytes, called) => {
    const read = textFromBytes(bytes);
    text = read.ok ? read.text : '';
    name = called;
    return Promise.resolve(read.ok ? null : read.message);
  },
  take: async (map, thin, moved) => {
    const mine = ++newest;
    const steps = importSteps(text, { name, map, thin: thin ?? undefined });
    for (;;) {
      const step = steps.next();
      if (step.done) return step.value;
      moved(step.value.done);
      // A newer request, or one to stop, is heard between two steps.
      await new Promise((resume) => setTimeout(resume));
      if (mine !== newest) return { ok: false, message: 'Stopped; nothing was taken.' };
    }
  },
  stop: () => {
    newest++;
    return Promise.resolve();
  },
};

expose(worker);
