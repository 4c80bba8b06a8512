import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  compareDates,
  daysBetween,
  isDate,
  isTradeDay,
  nearestYear,
  seasonOf,
} from '../../../src/core/values/dates.ts';

const day = fc
  .date({ min: new Date('0001-01-01T00:00:00Z'), max: new Date('9999-12-31T00:00:00Z'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const CASES = { numRuns: 1000 };

describe('isDate', () => {
  it.each(['2026-11-25', '2028-02-29', '2000-02-29', '0001-01-01', '0050-06-01', '9999-12-31'])(
    'takes %s',
    (text) => expect(isDate(text)).toBe(true),
  );
  it.each([
    '2026-02-29', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '2026-1-1', '26-01-01', '0000-01-01',
    ' 2026-01-01', '2026-01-01T00:00', '2026/01/01', '',
  ])('refuses "%s"', (text) => expect(isDate(text)).toBe(false)); // prettier-ignore
});

describe('days', () => {
  it('counts seven days for a week across the end of summer time', () => {
    expect(daysBetween('2026-10-30', '2026-11-06')).toBe(7);
  });

  it('counts known spans', () => {
    // 2000 was a leap year, 1900 was not: Gregorian rule.
    expect(daysBetween('2000-01-01', '2001-01-01')).toBe(366);
    expect(daysBetween('1900-01-01', '1901-01-01')).toBe(365);
    expect(addDays('2026-12-30', 3)).toBe('2027-01-02');
    expect(addDays('2028-03-01', -1)).toBe('2028-02-29');
    expect(addDays('0101-01-01', -1)).toBe('0100-12-31');
  });

  it('adds and subtracts consistently', () => {
    fc.assert(
      fc.property(day, day, (from, to) => {
        const span = daysBetween(from, to);
        expect(addDays(from, span)).toBe(to);
        expect(daysBetween(to, from) + span).toBe(0);
        expect(Math.sign(compareDates(from, to))).toBe(from < to ? -1 : from > to ? 1 : 0);
      }),
      CASES,
    );
  });

  it('throws a typed error for wrong input', () => {
    expect(() => daysBetween('2026-02-30', '2026-03-01')).toThrow(
      expect.objectContaining({ code: 'date.unreadable', field: 'from' }),
    );
    expect(() => compareDates('2026-03-01', 'x')).toThrow(
      expect.objectContaining({ code: 'date.unreadable' }),
    );
    expect(() => addDays('2026-03-01', 0.5)).toThrow(
      expect.objectContaining({ code: 'date.days-not-whole' }),
    );
    expect(() => addDays('2026-03-01', Number.NaN)).toThrow(
      expect.objectContaining({ code: 'date.days-not-whole' }),
    );
    expect(() => addDays('9999-12-31', 1)).toThrow(expect.objectContaining({ code: 'date.out-of-range' }));
    expect(() => addDays('2026-03-01', 1e15)).toThrow(expect.objectContaining({ code: 'date.out-of-range' }));
  });
});

describe('seasonOf', () => {
  it('spans New Year', () => {
    expect(seasonOf('2027-01-09', 7)).toBe(2026);
    expect(seasonOf('2026-07-01', 7)).toBe(2026);
    expect(seasonOf('2026-06-30', 7)).toBe(2025);
    expect(seasonOf('2026-01-01', 1)).toBe(2026);
  });

  it.each([0, 13, 1.5, Number.NaN])('refuses month %s', (month) => {
    expect(() => seasonOf('2026-01-01', month)).toThrow(expect.objectContaining({ code: 'date.month' }));
  });

  it('refuses an invalid date', () => {
    expect(() => seasonOf('2026-02-30', 7)).toThrow(expect.objectContaining({ code: 'date.unreadable' }));
  });
});

describe('isTradeDay', () => {
  it.each([
    ['1949-12-31', false],
    ['1950-01-01', true],
    ['2026-11-20', true],
    ['2099-12-31', true],
    ['2100-01-01', false],
    ['0026-11-20', false],
    ['2026-02-29', false],
    ['', false],
  ])('%s: %s', (day, is) => expect(isTradeDay(day)).toBe(is));
});

describe('nearestYear', () => {
  it.each([
    [26, 2026, 2026],
    [27, 2026, 2027],
    [75, 2026, 2075],
    [76, 2026, 1976],
    [98, 2026, 1998],
    [0, 2026, 2000],
    [1, 2098, 2101],
  ])('%i, typed in %i of them, is %i', (typed, thisYear, year) =>
    expect(nearestYear(typed, thisYear)).toBe(year),
  );
});
