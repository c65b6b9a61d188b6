import { expose } from 'comlink';
import { designForProject } from '../../study/design.ts';
import { propose } from '../../study/propose.ts';
import type { StudyWorker } from './study.ts';

/** Searches and flow solutions take up to a second; here they do not hold up the page. */
const worker: StudyWorker = {
  propose: (answers) => Promise.resolve(propose(answers)),
  design: (project, wish) => {
    const answer = designForProject(project, wish);
    if (!answer.ok) return Promise.resolve({ ok: false, reasons: answer.reasons });
    const { design, project: drawn, thrust_N, rpm, throttle, before, after } = answer;
    const texts = [...design.bounds, ...design.limits].map(({ text }) => text);
    const notes = [...texts, ...answer.notes];
    return Promise.resolve({ ok: true, fan: drawn.fan, thrust_N, rpm, throttle, before, after, notes });
  },
};

expose(worker);
