import init, { type OpenCascadeInstance } from 'replicad-opencascadejs';

/** The kernel of exact solids: a resource that whoever loaded it passes on. */
export type StepKernel = OpenCascadeInstance;

/**
 * Loads the kernel of exact solids, 23 MB of WebAssembly: only where a STEP file is asked for. A page says where its
 * bundler put the .wasm file. Half a second or so once; keep the result.
 */
export async function loadStepKernel(wasmUrl?: string): Promise<StepKernel> {
  const silent = () => undefined;
  return init({
    print: silent,
    printErr: silent,
    ...(wasmUrl === undefined ? {} : { locateFile: () => wasmUrl }),
  });
}

type Keep = <T extends { delete(): void }>(object: T) => T;

/** Runs `work`, then frees every kernel object it registered through `keep`, however it ended. */
export function withKept<T>(work: (keep: Keep) => T): T {
  const kept = new Set<{ delete(): void }>();
  try {
    return work((object) => {
      kept.add(object);
      return object;
    });
  } finally {
    for (const object of [...kept].reverse()) object.delete();
  }
}

export type { Keep };
