import type { BenchComparison } from '../../bench/compare-types.ts';
import type { Diagnosis } from '../../bench/diagnose/types.ts';
import type { ComparedAir, ExpectedAir } from '../../bench/expected-air.ts';
import type { Expected } from '../../bench/expected.ts';
import type { BuildRecord } from '../../bench/history.ts';
import type { Reduced } from '../../bench/types.ts';
import type { BenchRun } from '../../project/bench.ts';
import type { Project } from '../../project/schema.ts';
import { askedWorker } from '../worker/asked.ts';

/** A run held against the build it was read on. `project` has the design of that build, and no builds. */
export interface BenchQuestion {
  readonly project: Project;
  readonly run: BenchRun;
}

/** Everything the stage shows of a run but its causes. */
export interface Evaluated {
  readonly reduced: Reduced;
  readonly comparison: BenchComparison;
  readonly expected: Expected;
  readonly air: readonly ComparedAir[];
  readonly airCard: readonly ExpectedAir[];
}

export interface BenchWorker {
  evaluate(question: BenchQuestion): Promise<Evaluated>;
  diagnose(question: BenchQuestion): Promise<Diagnosis | null>;
  records(project: Project): Promise<readonly BuildRecord[]>;
  /** What the flow about the duct says of the lip, in a sentence or two. */
  lip(project: Project): Promise<readonly string[]>;
}

/** Asks the worker of the bench. */
export const askBench = askedWorker<BenchWorker>(
  () => new Worker(new URL('./bench.worker.ts', import.meta.url), { type: 'module' }),
);
