/** Convolutions by transform against the sum over all pairs. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cyclicConvolution, spectrumOf, transformSize } from '../../../src/core/stats/fourier.ts';

const values = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 1, maxLength: 40 });

describe('a cyclic convolution', () => {
  it.each([false, true])('is the sum over all pairs, reversed: %s', (reversed) => {
    fc.assert(
      fc.property(values, values, (a, b) => {
        const size = transformSize(Math.max(a.length, b.length));
        const sums = new Array<number>(size).fill(0);
        a.forEach((one, i) =>
          b.forEach((other, k) => (sums[(reversed ? i - k + size : i + k) % size]! += one * other)),
        );
        const found = cyclicConvolution(spectrumOf(a, size), spectrumOf(b, size), reversed);
        sums.forEach((sum, k) => expect(found[k]).toBeCloseTo(sum, 9));
      }),
    );
  });

  it('leaves out the values before the first that counts', () => {
    const size = transformSize(4);
    const found = cyclicConvolution(spectrumOf([9, 9, 1, 2], size, 2), spectrumOf([1, 1], size));
    [1, 3, 2, 0].forEach((sum, k) => expect(found[k]).toBeCloseTo(sum, 12));
  });
});

it('takes powers of two', () => {
  expect([1, 4, 5, 8192, 8193].map(transformSize)).toEqual([4, 4, 8, 8192, 16384]);
});
