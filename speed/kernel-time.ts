import type { Kernel } from '../src/make/kernel.ts';

type Method = (this: unknown, ...args: unknown[]) => unknown;
type Owner = Record<string, Method>;

/**
 * Counts the time spent inside the solid kernel while it works for somebody: each of its functions is wrapped by a clock,
 * inner calls counted once. Solids are worked out when they are asked for, so only the sum means something.
 */
export function kernelClock(kernel: Kernel) {
  let spent = 0;
  let depth = 0;
  const undo: (() => void)[] = [];
  const wrap = (owner: Owner, key: string) => {
    const original = owner[key];
    owner[key] = function (this: unknown, ...args: unknown[]) {
      if (depth > 0) return original.apply(this, args);
      depth++;
      const began = performance.now();
      try {
        return original.apply(this, args);
      } finally {
        spent += performance.now() - began;
        depth--;
      }
    };
    undo.push(() => (owner[key] = original));
  };
  // What makes solids hands out another prototype than its own.
  const made = [kernel.Manifold.cube(), kernel.CrossSection.square()];
  const owners = [kernel.Manifold, kernel.CrossSection, ...made.map((one) => Object.getPrototypeOf(one))];
  for (const one of made) one.delete();
  for (const owner of owners as unknown as Owner[])
    for (const key of Object.getOwnPropertyNames(owner)) {
      const held = Object.getOwnPropertyDescriptor(owner, key);
      if (typeof held?.value === 'function' && held.writable && !['constructor', 'prototype'].includes(key))
        wrap(owner, key);
    }
  return {
    /** Milliseconds since the last call. */
    take(): number {
      const taken = spent;
      spent = 0;
      return taken;
    },
    stop: () => undo.reverse().forEach((back) => back()),
  };
}
