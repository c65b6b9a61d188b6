import { wrap } from 'comlink';
import type { Proposal, SixAnswers } from '../../study/propose.ts';
import type { StudyWorker } from './study.worker.ts';

/** A fan for these answers, or why there is none. The worker lives as long as the question. */
export async function proposeFan(answers: SixAnswers): Promise<Proposal> {
  const worker = new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module' });
  const died = new Promise<never>((_, fail) => {
    worker.onerror = (event) => {
      event.preventDefault();
      fail(new Error('the search stopped'));
    };
  });
  try {
    return await Promise.race([wrap<StudyWorker>(worker).propose(answers), died]);
  } finally {
    worker.terminate();
  }
}
