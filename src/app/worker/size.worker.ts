import { sizeSteps } from '../../study/size.ts';
import type { SizeAnswer, SizeQuestion } from './size.ts';

/** Between two breaths, in which a word to stop is heard [ms]. */
const BREATH_MS = 60;

let stop = false;
const say = (answer: SizeAnswer) => postMessage(answer);

async function run({ project, options }: SizeQuestion): Promise<void> {
  const steps = sizeSteps(project, options);
  let last = performance.now();
  let next = steps.next();
  while (!next.done) {
    if (performance.now() - last > BREATH_MS) {
      say({ kind: 'progress', ...next.value });
      await new Promise((resume) => setTimeout(resume));
      last = performance.now();
    }
    next = steps.next(stop);
  }
  say({ kind: 'study', study: next.value });
}

addEventListener('message', ({ data }: MessageEvent<SizeQuestion | 'stop'>) => {
  if (data === 'stop') stop = true;
  else
    run(data).catch((error: unknown) => {
      console.error(error);
      say({ kind: 'failed' });
    });
});
