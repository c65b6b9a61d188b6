import { expose } from 'comlink';
import { ductFlowOf } from '../../assess/lip-flow.ts';
import type { Assessment } from '../../assess/types.ts';
import { designForProject } from '../../study/design.ts';
import { propose } from '../../study/propose.ts';
import { synthesize } from '../../sound/synthesis.ts';
import { countStudy } from '../../study/blade-vane-count.ts';
import { printerLimits } from '../../study/printer-limits.ts';
import { shortfallOf } from '../../study/shortfall.ts';
import { compareSound } from '../../study/sound-compare.ts';
import { craftAnswer, driveAnswer } from './craft.ts';
import { recordedTones } from './recorded.ts';
import type { StudyWorker } from './study.ts';

/** Searches and flow solutions take up to a second; here they do not hold up the page. */
const worker: StudyWorker = {
  propose: (answers) => Promise.resolve(propose(answers)),
  ductFlow: (project) => Promise.resolve(ductFlowOf(project)),
  drive: (project) => Promise.resolve(driveAnswer(project)),
  craft: (project) => Promise.resolve(craftAnswer(project)),
  shortfall: (project) => Promise.resolve(shortfallOf(project).sentences),
  counts: (project) => Promise.resolve(countStudy(project)),
  printerLimits: (project) => Promise.resolve(printerLimits(project)),
  compareSound: (first, second, names) => Promise.resolve(compareSound(first, second, undefined, names)),
  render: (at, fans, seconds) => Promise.resolve(synthesize(at, fans, seconds)),
  hearTones: (samples, sampleRate, blades, full_rpm) =>
    Promise.resolve(recordedTones(samples, sampleRate, blades, full_rpm)),
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
