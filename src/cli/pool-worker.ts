import { parentPort } from 'node:worker_threads';
import { runTask, type StudyTask } from '../study/pool/task.ts';

/** One thread of `threadPool`: does the tasks it is sent, one by one. */
parentPort?.on('message', ({ id, task }: { readonly id: number; readonly task: StudyTask }) => {
  try {
    parentPort?.postMessage({ id, answer: runTask(task) });
  } catch (error) {
    parentPort?.postMessage({ id, fault: error instanceof Error ? error.message : String(error) });
  }
});
