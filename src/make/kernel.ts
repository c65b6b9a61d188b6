import Module, { type ManifoldToplevel } from 'manifold-3d';

/** The solid geometry kernel: a resource that whoever loaded it passes on. */
export type Kernel = ManifoldToplevel;

/** A solid of the kernel; memory outside JavaScript's reach until `delete()`. */
export type Solid = InstanceType<ManifoldToplevel['Manifold']>;

/**
 * Loads the kernel. In Node nothing is needed; a page says where its bundler put the kernel's .wasm file. Some 30 ms
 * once; keep the result.
 */
export async function loadKernel(wasmUrl?: string): Promise<Kernel> {
  const kernel = await Module(wasmUrl === undefined ? undefined : { locateFile: () => wasmUrl });
  kernel.setup();
  return kernel;
}

/** Runs `work`, then frees every kernel object it registered through `keep`, however it ended. */
export function withSolids<T>(work: (keep: <S extends { delete(): void }>(object: S) => S) => T): T {
  const kept: { delete(): void }[] = [];
  try {
    return work((object) => {
      kept.push(object);
      return object;
    });
  } finally {
    for (const object of kept.reverse()) object.delete();
  }
}

/** Passes a solid on if the kernel calls it sound and it is not turned inside out. */
export function sound(solid: Solid, what: string): Solid {
  const status = solid.status();
  if (status !== 'NoError') throw new Error(`The ${what} came out of the kernel as ${status}.`);
  if (!(solid.volume() > 0)) throw new Error(`The ${what} came out empty or inside out.`);
  return solid;
}
