import type { Project } from '../../project/schema.ts';
import { scoresOf } from '../best-scores.ts';
import type { Scored } from '../front.ts';
import { sweepBlock, type SweepBlock, type SweepPlan } from '../sweep.ts';

/** Work that can be sent to another thread: plain data. */
export interface SweepTask {
  readonly kind: 'sweep';
  readonly plan: SweepPlan;
  readonly from: number;
  readonly to: number;
}

/** Designs of the search for a better one, as numbers of its space. */
export interface BestTask {
  readonly kind: 'best';
  readonly project: Project;
  readonly designs: readonly (readonly number[])[];
}

export type StudyTask = SweepTask | BestTask;

export type TaskAnswer<T extends StudyTask> = T extends SweepTask
  ? SweepBlock
  : T extends BestTask
    ? Scored[]
    : never;

/** Does one task: all that a thread of a pool has to know. */
export function runTask<T extends StudyTask>(task: T): TaskAnswer<T> {
  const answer: SweepBlock | Scored[] =
    task.kind === 'sweep' ? sweepBlock(task.plan, task.from, task.to) : scoresOf(task.project, task.designs);
  return answer as TaskAnswer<T>;
}

/** The tasks of a sweep from design number `from`, in order. */
export function* sweepTasks(plan: SweepPlan, from: number, count: number, size = 64): Generator<SweepTask> {
  for (let at = from; at < count; at += size)
    yield { kind: 'sweep', plan, from: at, to: Math.min(count, at + size) };
}
