import { sweepBlock, type SweepBlock, type SweepPlan } from '../sweep.ts';

/** Work that can be sent to another thread: plain data. */
export interface SweepTask {
  readonly kind: 'sweep';
  readonly plan: SweepPlan;
  readonly from: number;
  readonly to: number;
}

export type StudyTask = SweepTask;

export type TaskAnswer<T extends StudyTask> = T extends SweepTask ? SweepBlock : never;

/** Does one task: all that a thread of a pool has to know. */
export function runTask<T extends StudyTask>(task: T): TaskAnswer<T> {
  return sweepBlock(task.plan, task.from, task.to) as TaskAnswer<T>;
}

/** The tasks of a sweep from design number `from`, in order. */
export function* sweepTasks(plan: SweepPlan, from: number, count: number, size = 64): Generator<SweepTask> {
  for (let at = from; at < count; at += size)
    yield { kind: 'sweep', plan, from: at, to: Math.min(count, at + size) };
}
