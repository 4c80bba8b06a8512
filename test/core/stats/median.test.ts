import { describe, expect, it } from 'vitest';
import { median } from '../../../src/core/stats/median.ts';

describe('median', () => {
  it.each([
    [[3, 1, 10], 3],
    [[4, 1, 3, 10], 3.5],
    [[7], 7],
    [[], null],
  ])('of %j is %s', (values, middle) => expect(median(Object.freeze(values))).toBe(middle));

  it('has equally many values on either side', () => {
    const values = [12, 5, 5, 9, 40, 2, 8, 8, 1];
    const middle = median(values) ?? NaN;
    expect(values.filter((one) => one < middle).length).toBeLessThanOrEqual(values.length / 2);
    expect(values.filter((one) => one > middle).length).toBeLessThanOrEqual(values.length / 2);
  });
});
