/**
 * A number in [0, 1) that looks random and is fixed by its whole numbers: a generator without a state to keep, so that work
 * may be stopped, taken up again and shared among cores and still draw the same. Each number is folded in and mixed by the
 * 32-bit finish of Appleby's MurmurHash3 (public domain, 2011).
 */
export function hashedUniform(...keys: readonly number[]): number {
  return hashedBits(...keys) / 2 ** 32;
}

/** The same as 32 bits, 0 to 2^32 - 1. */
export function hashedBits(...keys: readonly number[]): number {
  let h = 0x9e3779b9;
  for (const key of keys) {
    h = Math.imul(h ^ (key | 0), 0x85ebca6b) + 0x9e3779b9;
    h = mixed(h);
  }
  return mixed(h) >>> 0;
}

function mixed(bits: number): number {
  let h = bits;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
