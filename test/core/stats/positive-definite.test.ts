import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { inverseOf } from '../../../src/core/stats/positive-definite.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';

describe('inverseOf', () => {
  it('is worked by hand for two rows', () => {
    // The determinant of [[4, 2], [2, 3]] is 8.
    const { values } = inverseOf({ size: 2, values: Float64Array.of(4, 2, 2, 3) });
    for (const [i, entry] of [3 / 8, -2 / 8, -2 / 8, 4 / 8].entries())
      expect(values[i]).toBeCloseTo(entry, 15);
  });

  it.each([1, 2, 7, 40])('agrees with an elimination that knows nothing of symmetry: %i rows', (size) => {
    const chance = seededRandom(size);
    const factor = new Matrix(size, size).apply(function (this: Matrix, i: number, j: number) {
      this.set(i, j, chance.normal());
    });
    const matrix = factor.mmul(factor.transpose()).add(Matrix.eye(size));
    const { values } = inverseOf({ size, values: Float64Array.from(matrix.to1DArray()) });
    const other = inverse(matrix).to1DArray();
    for (const [i, entry] of other.entries()) expect(values[i]).toBeCloseTo(entry, 10);
  });
});
