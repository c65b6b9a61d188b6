import { Worker } from 'node:worker_threads';
import { pooledHere, type StudyPool } from '../study/pool/pool.ts';
import type { StudyTask, TaskAnswer } from '../study/pool/task.ts';

interface Reply {
  readonly id: number;
  readonly answer?: unknown;
  readonly fault?: string;
}

interface Waiting {
  readonly id: number;
  readonly task: StudyTask;
  readonly done: (answer: unknown) => void;
  readonly failed: (error: Error) => void;
}

/**
 * A thread that runs pool-worker: the built file beside this one, or in a clone the source, whose loader a thread of Node 20
 * does not take over from its parent and has to be given.
 */
function startWorker(): Worker {
  if (!import.meta.url.endsWith('.ts')) return new Worker(new URL('./pool-worker.js', import.meta.url));
  const loader = JSON.stringify(import.meta.resolve('tsx/esm/api'));
  const source = JSON.stringify(new URL('./pool-worker.ts', import.meta.url).href);
  return new Worker(`import(${loader}).then(({ register }) => (register(), import(${source})))`, {
    eval: true,
    execArgv: [],
  });
}

/** A pool of `size` threads of this process; one: no thread at all. */
export function threadPool(size: number): StudyPool {
  if (size <= 1) return pooledHere();
  const queue: Waiting[] = [];
  const working = new Map<Worker, Waiting>();
  const idle: Worker[] = [];
  let next = 0;
  const send = () => {
    while (idle.length > 0 && queue.length > 0) {
      const worker = idle.pop()!;
      const waiting = queue.shift()!;
      working.set(worker, waiting);
      worker.postMessage({ id: waiting.id, task: waiting.task });
    }
  };
  const failAll = (error: Error) => {
    for (const waiting of [...working.values(), ...queue.splice(0)]) waiting.failed(error);
    working.clear();
  };
  const workers = Array.from({ length: size }, () => {
    const worker = startWorker();
    worker.on('message', ({ answer, fault }: Reply) => {
      const waiting = working.get(worker);
      working.delete(worker);
      idle.push(worker);
      if (fault === undefined) waiting?.done(answer);
      else waiting?.failed(new Error(fault));
      send();
    });
    worker.on('error', (error) => failAll(error instanceof Error ? error : new Error(String(error))));
    idle.push(worker);
    return worker;
  });
  return {
    size,
    run: <T extends StudyTask>(task: T) =>
      new Promise<TaskAnswer<T>>((resolve, reject) => {
        queue.push({
          id: next++,
          task,
          done: (answer) => resolve(answer as TaskAnswer<T>),
          failed: reject,
        });
        send();
      }),
    dispose: () => {
      for (const worker of workers) void worker.terminate();
    },
  };
}
