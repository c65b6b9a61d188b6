import { expose } from 'comlink';
import { ductFlowOf } from '../../assess/lip-flow.ts';
import { compareRun } from '../../bench/compare.ts';
import { diagnose } from '../../bench/diagnose/diagnose.ts';
import { comparedAir, expectedAir } from '../../bench/expected-air.ts';
import { expectedCurves } from '../../bench/expected.ts';
import { buildRecords } from '../../bench/history.ts';
import { reduceRun } from '../../bench/reduce.ts';
import type { BenchWorker } from './ask.ts';

/** Throttles the card for threads and anemometer is written for. */
const CARD_THROTTLES = [0.3, 0.5, 0.75, 1];

/** A diagnosis takes some tenths of a second; here it does not hold up the page. */
const worker: BenchWorker = {
  evaluate: ({ project, run }) => {
    const reduced = reduceRun(project, run);
    return Promise.resolve({
      reduced,
      comparison: compareRun(project, run, reduced),
      expected: expectedCurves(project, run, reduced),
      air: comparedAir(project, run, reduced),
      airCard: expectedAir(project, run, CARD_THROTTLES),
    });
  },
  diagnose: ({ project, run }) => Promise.resolve(diagnose(project, run)),
  records: (project) => Promise.resolve(buildRecords(project)),
  lip: (project) => {
    const flow = ductFlowOf(project);
    return Promise.resolve(flow.ok ? [flow.answer.lip.words, flow.answer.lip.advice] : [flow.why]);
  },
};

expose(worker);
