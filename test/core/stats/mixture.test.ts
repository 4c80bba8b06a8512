import { expect, it } from 'vitest';
import { mixtureWeights, weightedMean } from '../../../src/core/stats/mixture.ts';

it('weighs components by prior weight times likelihood', () => {
  const [first, second] = mixtureWeights([Math.log(1), Math.log(3)]);
  expect(first).toBeCloseTo(0.25, 12);
  expect(second).toBeCloseTo(0.75, 12);
});

it('neither overflows nor underflows', () => {
  expect(mixtureWeights([-100_000, -100_000])).toEqual([0.5, 0.5]);
  expect(mixtureWeights([9000, -9000])).toEqual([1, 0]);
});

it('computes the weighted mean', () => {
  expect(weightedMean([4, 8], [0.25, 0.75])).toBe(7);
});
