import { expose } from 'comlink';
import { ductFlowOf } from '../../assess/lip-flow.ts';
import type { Assessment } from '../../assess/types.ts';
import { designForProject } from '../../study/design.ts';
import { propose } from '../../study/propose.ts';
import { shortfallOf } from '../../study/shortfall.ts';
import { craftAnswer, driveAnswer } from './craft.ts';
import type { StudyWorker } from './study.ts';

/** Searches and flow solutions take up to a second; here they do not hold up the page. */
const worker: StudyWorker = {
  propose: (answers) => Promise.resolve(propose(answers)),
  ductFlow: (project) => Promise.resolve(ductFlowOf(project)),
  drive: (project) => Promise.resolve(driveAnswer(project)),
  craft: (project) => Promise.resolve(craftAnswer(project)),
  shortfall: (project) => Promise.resolve(shortfallOf(project).sentences),
  design: (project, wish) => {
    const answer = designForProject(project, wish);
    if (!answer.ok) return Promise.resolve({ ok: false, reasons: answer.reasons });
    const { design, project: drawn, thrust_N, rpm, throttle, before, after } = answer;
    const texts = [...design.bounds, ...design.limits].map(({ text }) => text);
    const stops = ({ remarks }: Assessment) => remarks.filter(({ weight }) => weight === 'stop');
    const known = new Set(stops(before).map(({ path }) => path));
    const added = stops(after).filter(({ path }) => !known.has(path));
    const notes = [...new Set([...added.map(({ text }) => text), ...texts, ...answer.notes])];
    return Promise.resolve({ ok: true, fan: drawn.fan, thrust_N, rpm, throttle, before, after, notes });
  },
};

expose(worker);
