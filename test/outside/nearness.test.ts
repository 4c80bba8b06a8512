import { expect, it } from 'vitest';
import { digitsAgreeing, inWords, isNear } from './nearness.ts';

it('counts the digits of the worst place', () => {
  expect(digitsAgreeing(100, 100)).toBe(15);
  expect(digitsAgreeing(100, 101)).toBeCloseTo(2, 9);
  expect(digitsAgreeing([100, 1], [100, 1.001])).toBeCloseTo(3, 9);
  expect(digitsAgreeing(0, 0.001)).toBeCloseTo(3, 9);
  for (const wrong of [NaN, Infinity, -100, 1e9]) expect(digitsAgreeing(100, wrong)).toBe(0);
  expect(digitsAgreeing([1, 2], [1])).toBe(0);
});

it('is near only where every place is, within one reach for all or one for each', () => {
  expect(isNear([1, 2], [1.1, 2.1], { within: 0.11 })).toBe(true);
  expect(isNear([1, 2], [1.1, 2.2], { within: 0.11 })).toBe(false);
  expect(isNear([1, 2], [1.1, 2.2], { within: [0.11, 0.21] })).toBe(true);
  expect(isNear([1, 2], [1.2, 2.1], { within: [0.11, 0.21] })).toBe(false);
  expect(isNear(1, NaN, { within: 10 })).toBe(false);
  expect(isNear([1, 2], 1, { within: 10 })).toBe(false);
  expect(isNear([1, 2, 3], [1, 2, 3], { within: [1, 1] })).toBe(false);
  expect(isNear(1, 1.001, { digits: 3 })).toBe(true);
  expect(isNear(1, 1.0011, { digits: 3 })).toBe(false);
});

it('says what was asked', () => {
  expect([{ within: 0 }, { within: [0.1, 2] }, { digits: 9 }].map(inWords)).toEqual([
    'exact',
    'within 0.1 to 2, by place',
    '9 digits',
  ]);
});
