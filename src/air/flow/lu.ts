/** A factored square matrix: both triangles in one row-by-row array, and the order of its rows. */
export interface Factored {
  readonly size: number;
  readonly cells: Float64Array;
  readonly order: Int32Array;
}

/**
 * Factors `cells` (row by row, size x size) in place by elimination with partial pivoting.
 * Throws where a pivot vanishes against the largest entry: the matrix is singular to rounding.
 * Source: Golub and Van Loan, Matrix Computations, 3.4.
 */
export function factor(cells: Float64Array, size: number): Factored {
  const order = new Int32Array(size);
  let largest = 0;
  for (let i = 0; i < cells.length; i++) largest = Math.max(largest, Math.abs(cells[i]));
  for (let i = 0; i < size; i++) order[i] = i;
  for (let k = 0; k < size; k++) {
    let pivot = k;
    for (let i = k + 1; i < size; i++)
      if (Math.abs(cells[i * size + k]) > Math.abs(cells[pivot * size + k])) pivot = i;
    if (!(Math.abs(cells[pivot * size + k]) > largest * size * Number.EPSILON * 1e-3))
      throw new Error('factor needs a matrix that can be inverted; two of its rows say the same');
    if (pivot !== k) {
      for (let j = 0; j < size; j++) {
        const held = cells[k * size + j];
        cells[k * size + j] = cells[pivot * size + j];
        cells[pivot * size + j] = held;
      }
      const held = order[k];
      order[k] = order[pivot];
      order[pivot] = held;
    }
    const top = k * size;
    const inverse = 1 / cells[top + k];
    for (let i = k + 1; i < size; i++) {
      const row = i * size;
      const ratio = cells[row + k] * inverse;
      if (ratio === 0) continue;
      cells[row + k] = ratio;
      for (let j = k + 1; j < size; j++) cells[row + j] -= ratio * cells[top + j];
    }
  }
  return { size, cells, order };
}

/** Solution of the factored system for `right`; a new array. */
export function backSolve({ size, cells, order }: Factored, right: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = right[order[i]];
    for (let j = 0; j < i; j++) sum -= cells[i * size + j] * x[j];
    x[i] = sum;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i];
    for (let j = i + 1; j < size; j++) sum -= cells[i * size + j] * x[j];
    x[i] = sum / cells[i * size + i];
  }
  return x;
}
