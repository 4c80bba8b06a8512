import { describe, expect, it } from 'vitest';
import {
  emptyAdjustment,
  readAdjustment,
  type TypedAdjustment,
} from '../../../src/ui/charges/read-adjustment.ts';
import { readTime } from '../../../src/ui/charges/read-time.ts';
import { timeText } from '../../../src/ui/charges/time-text.ts';

describe('parsing a duration', () => {
  it.each([
    ['1:30', 90], ['0:05', 5], ['1.5', 90], ['1,5 h', 90], ['2 hours', 120], ['90 min', 90], ['45m', 45], ['1.25', 75],
  ])('reads %s as %d minutes', (typed, minutes) => expect(readTime(typed)).toBe(minutes)); // prettier-ignore

  it.each(['', '0', '1:60', 'soon', '-1', '101', '0.001', '1:30:10'])('rejects %j', (typed) =>
    expect(readTime(typed)).toBeNull(),
  );

  it('formats hours and minutes', () => {
    expect([90, 60, 5].map(timeText)).toEqual(['1 h 30 min', '1 h', '5 min']);
  });
});

describe('parsing an adjustment', () => {
  const read = (more: Partial<TypedAdjustment>) =>
    readAdjustment({ ...emptyAdjustment(), reason: 'waited', ...more }, 'USD');

  it('depends on its kind', () => {
    expect(read({ amount: '15' }).value).toEqual({ kind: 'amount off', amountMinor: 1500, reason: 'waited' });
    expect(read({ kind: 'percent off', rate: '12.5' }).value).toEqual({ kind: 'percent off', rate: 0.125, reason: 'waited' }); // prettier-ignore
    expect(read({ kind: 'free line', label: ' Box ', amount: '5.50', tax: '6' }).value).toEqual({ kind: 'free line', label: 'Box', amountMinor: 550, taxRate: 0.06, reason: 'waited' }); // prettier-ignore
    expect(read({ kind: 'other price', lineCode: 'cut', amount: '0' }).value).toEqual({ kind: 'other price', lineCode: 'cut', amountMinor: 0, reason: 'waited' }); // prettier-ignore
  });

  it.each<[Partial<TypedAdjustment>, string[]]>([
    [{ amount: '15', reason: ' ' }, ['reason']],
    [{ amount: '0' }, ['amount']],
    [{ amount: '-5' }, ['amount']],
    [{ kind: 'percent off', rate: '101' }, ['rate']],
    [{ kind: 'percent off', rate: '0' }, ['rate']],
    [{ kind: 'free line', amount: '5', tax: '60' }, ['label', 'tax']],
    [{ kind: 'other price', amount: 'much' }, ['amount', 'lineCode']],
  ])('reports %j at its fields', (typed, fields) => {
    const { value, wrong } = read(typed);
    expect(value).toBeNull();
    expect(Object.keys(wrong).sort()).toEqual(fields);
  });
});
