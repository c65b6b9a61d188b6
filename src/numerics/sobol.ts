import { hashedBits } from './hash.ts';

/** Degree, coefficients and first direction numbers of dimensions 2 and up; the source is named at `sobolPoints`. */
// prettier-ignore
const DIRECTIONS: readonly (readonly [degree: number, coefficients: number, first: readonly number[]])[] = [
  [1, 0, [1]], [2, 1, [1, 3]], [3, 1, [1, 3, 1]], [3, 2, [1, 1, 1]], [4, 1, [1, 1, 3, 3]],
  [4, 4, [1, 3, 5, 13]], [5, 2, [1, 1, 5, 5, 17]], [5, 4, [1, 1, 5, 5, 5]], [5, 7, [1, 1, 7, 11, 19]],
  [5, 11, [1, 1, 5, 1, 1]], [5, 13, [1, 1, 1, 3, 11]], [5, 14, [1, 3, 5, 5, 31]],
  [6, 1, [1, 3, 3, 9, 7, 49]], [6, 13, [1, 1, 1, 15, 21, 21]], [6, 16, [1, 3, 1, 13, 27, 49]],
  [6, 19, [1, 1, 1, 15, 7, 5]], [6, 22, [1, 3, 1, 15, 13, 25]], [6, 25, [1, 1, 5, 5, 19, 61]],
  [7, 1, [1, 3, 7, 11, 23, 15, 103]], [7, 4, [1, 3, 7, 13, 13, 15, 69]], [7, 7, [1, 1, 3, 13, 7, 35, 63]],
  [7, 8, [1, 3, 5, 9, 1, 25, 53]], [7, 14, [1, 3, 1, 13, 9, 35, 107]], [7, 19, [1, 3, 1, 5, 27, 61, 31]],
  [7, 21, [1, 1, 5, 11, 19, 41, 61]], [7, 28, [1, 3, 5, 3, 3, 13, 69]], [7, 31, [1, 1, 7, 13, 1, 19, 1]],
  [7, 32, [1, 3, 7, 5, 13, 19, 59]], [7, 37, [1, 1, 3, 9, 25, 29, 41]], [7, 41, [1, 3, 5, 13, 23, 1, 55]],
  [7, 42, [1, 3, 7, 3, 13, 59, 17]],
];

/** Dimensions there are direction numbers for. */
export const MOST_SOBOL_DIMENSIONS = DIRECTIONS.length + 1;

const BITS = 32;

/**
 * Points that fill the unit cube of `dimensions` (1 to 32) evenly: the first `count` (1 to 2^31) of Sobol's sequence, row
 * after row. `seed` null: the plain sequence, whose first point is the corner. Else each dimension is shifted bit by bit by
 * the seed, which keeps the evenness and makes means over the points right on average; a number is then never 0 or 1.
 *
 * Source: Sobol', USSR Comput. Math. Math. Phys. 7 (4), 1967, 86-112; in Gray-code order, Antonov and Saleev 1979; direction
 * numbers: Joe and Kuo, SIAM J. Sci. Comput. 30, 2008, 2635-2654 (their set D(6)). Shift: L'Ecuyer and Lemieux 2002.
 */
export function sobolPoints(dimensions: number, count: number, seed: number | null = null): Float64Array {
  if (!(Number.isInteger(dimensions) && dimensions >= 1 && dimensions <= MOST_SOBOL_DIMENSIONS))
    throw new Error(`sobolPoints knows 1 to ${MOST_SOBOL_DIMENSIONS} dimensions, not ${dimensions}`);
  const points = new Float64Array(dimensions * count);
  for (let d = 0; d < dimensions; d++) {
    const direction = directionsOf(d);
    const shift = seed === null ? 0 : hashedBits(seed, d);
    const middle = seed === null ? 0 : 0.5;
    let bits = 0;
    for (let i = 0; i < count; i++) {
      points[i * dimensions + d] = (((bits ^ shift) >>> 0) + middle) / 2 ** BITS;
      bits ^= direction[31 - Math.clz32(~i & (i + 1))];
    }
  }
  return points;
}

/** Direction numbers of a dimension from 0, as 32-bit fractions. */
function directionsOf(dimension: number): Int32Array {
  const v = new Int32Array(BITS);
  if (dimension === 0) {
    for (let k = 0; k < BITS; k++) v[k] = 1 << (31 - k);
    return v;
  }
  const [degree, coefficients, first] = DIRECTIONS[dimension - 1];
  for (let k = 0; k < BITS; k++) {
    if (k < degree) {
      v[k] = first[k] << (31 - k);
      continue;
    }
    v[k] = v[k - degree] ^ (v[k - degree] >>> degree);
    for (let j = 1; j < degree; j++) if ((coefficients >> (degree - 1 - j)) & 1) v[k] ^= v[k - j];
  }
  return v;
}
