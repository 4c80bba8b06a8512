/** The printed record of a cooler shows what was read: days without a reading are one row, and none is lost. */
import { expect, it } from 'vitest';
import { joinEmptyDays } from '../../../src/ui/cooler/record-days.ts';

const day = (date: number, readings: number, minutesAbove = 0) => ({
  day: `2026-11-${String(date).padStart(2, '0')}`,
  readings, minutesAbove,
  lowestC: readings ? 1 : null,
  highestC: readings ? 3 : null,
}); // prettier-ignore
const spans = (days: Parameters<typeof joinEmptyDays>[0]) =>
  joinEmptyDays(days).map(({ day: from, to, readings }) => [from.slice(8), to.slice(8), readings]);

it('joins days without a reading that follow each other, and leaves the others alone', () => {
  expect(spans([day(1, 0), day(2, 0), day(3, 2), day(4, 1), day(5, 0), day(6, 3)])).toEqual([
    ['01', '02', 0],
    ['03', '03', 2],
    ['04', '04', 1],
    ['05', '05', 0],
    ['06', '06', 3],
  ]);
  expect(spans([])).toEqual([]);
});

it('shows a day above the limit between two readings by itself', () => {
  expect(spans([day(1, 0), day(2, 0, 90), day(3, 0)])).toEqual([
    ['01', '01', 0],
    ['02', '02', 0],
    ['03', '03', 0],
  ]);
});
