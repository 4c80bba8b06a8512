/**
 * The inverse of a positive definite matrix. The yield model inverts some forty rows many times over; one plain array takes a
 * fraction of the time of a matrix class.
 */

/** A square matrix, row after row. */
export interface Square {
  readonly size: number;
  readonly values: Float64Array;
}

/** A square matrix of zeros. */
export function zeros(size: number): Square {
  return { size, values: new Float64Array(size * size) };
}

/**
 * The inverse by Cholesky's decomposition LL' and two substitutions.
 * @param matrix symmetric and positive definite; only its lower triangle is read
 * @example inverseOf({ size: 1, values: Float64Array.of(4) }).values // [0.25]
 */
export function inverseOf(matrix: Square): Square {
  return invert(matrix).inverse;
}

/**
 * The inverse, and the natural logarithm of the determinant of the matrix itself.
 * @param matrix as `inverseOf`
 * @example invert({ size: 1, values: Float64Array.of(4) }).logDeterminant // 1.386
 */
export function invert(matrix: Square): { inverse: Square; logDeterminant: number } {
  const { size } = matrix;
  const lower = choleskyOf(matrix);
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(lower[i * size + i] as number);
  const inverse = new Float64Array(size * size);
  // LY = I: row k of Y ends at its diagonal.
  for (let k = 0; k < size; k++) {
    const row = k * size;
    inverse[row + k] = 1;
    for (let i = 0; i < k; i++) subtract(inverse, row, i * size, lower[row + i] as number, i + 1);
    divide(inverse, row, lower[row + k] as number, k + 1);
  }
  // L'X = Y.
  for (let k = size - 1; k >= 0; k--) {
    const row = k * size;
    for (let i = k + 1; i < size; i++) subtract(inverse, row, i * size, lower[i * size + k] as number, size);
    divide(inverse, row, lower[row + k] as number, size);
  }
  return { inverse: { size, values: inverse }, logDeterminant };
}

function choleskyOf({ size, values }: Square): Float64Array {
  const lower = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const row = j * size;
    let explained = 0;
    for (let k = 0; k < j; k++) {
      const other = k * size;
      let product = 0;
      for (let i = 0; i < k; i++) product += (lower[other + i] as number) * (lower[row + i] as number);
      const value = ((values[row + k] as number) - product) / (lower[other + k] as number);
      lower[row + k] = value;
      explained += value * value;
    }
    lower[row + j] = Math.sqrt((values[row + j] as number) - explained);
  }
  return lower;
}

/** Takes `times` the first `length` entries of the row that begins at `other` from those of the row at `row`. */
function subtract(values: Float64Array, row: number, other: number, times: number, length: number): void {
  for (let j = 0; j < length; j++)
    values[row + j] = (values[row + j] as number) - (values[other + j] as number) * times;
}

function divide(values: Float64Array, row: number, by: number, length: number): void {
  for (let j = 0; j < length; j++) values[row + j] = (values[row + j] as number) / by;
}
