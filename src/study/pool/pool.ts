import { runTask, type StudyTask, type TaskAnswer } from './task.ts';

/**
 * Where a study's work is done: threads of a page or of a command line behind one face. A pool answers what `runTask` would;
 * how many work in it never changes an answer.
 */
export interface StudyPool {
  /** Tasks that may be worked on at once. */
  readonly size: number;
  readonly run: <T extends StudyTask>(task: T) => Promise<TaskAnswer<T>>;
  readonly dispose: () => void;
}

/** A pool of one that works where it stands. */
export const pooledHere = (): StudyPool => ({
  size: 1,
  run: (task) => Promise.resolve(runTask(task)),
  dispose: () => undefined,
});

/**
 * Answers of tasks in their order, however they come back. Only `2 x size` are ever out, so memory stays flat for any number
 * of tasks; asking for no more stops it.
 */
export async function* inOrder<T extends StudyTask>(
  pool: StudyPool,
  tasks: Iterable<T>,
): AsyncGenerator<TaskAnswer<T>> {
  const waiting: Promise<TaskAnswer<T>>[] = [];
  for (const task of tasks) {
    const answer = pool.run(task);
    // Its failure is told where it is awaited, maybe after another's.
    answer.catch(() => undefined);
    waiting.push(answer);
    if (waiting.length >= 2 * pool.size) yield await waiting.shift()!;
  }
  while (waiting.length > 0) yield await waiting.shift()!;
}
