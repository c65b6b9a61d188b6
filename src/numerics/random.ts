/** Numbers from a seed: the same seed gives the same numbers everywhere. */
export interface Random {
  /** Even over 0 (with) to 1 (without). */
  readonly even: () => number;
  /** Normal, mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

/**
 * A 32-bit counter stepped by an odd constant and mixed by xor-shifts and multiplications (a Weyl sequence with a
 * splitmix-like finish), good to some 2^32 draws; normals by Box and Muller 1958, two at a time.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  let spare: number | null = null;
  const even = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const normal = () => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const size = Math.sqrt(-2 * Math.log(1 - even()));
    const angle = 2 * Math.PI * even();
    spare = size * Math.sin(angle);
    return size * Math.cos(angle);
  };
  return { even, normal };
}
