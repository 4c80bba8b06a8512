import { describe, expect, it } from 'vitest';
import { addDays, daysBetween } from '../../../src/core/values/dates.ts';
import { dayFigures, orderOf, type DayOrder } from '../../../src/ui/texts/days.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { hasWrongYear, readDay } from '../../../src/ui/texts/read-days.ts';

const TODAY = '2026-11-24';
/** 2:15 PM in Denver. */
const MOMENT = '2026-11-24T21:15:00Z';
const shop = { unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' } as const;
/** Some versions of the locale data use a narrow no-break space before AM and PM. */
const plain = (text: string): string => text.replace(/\s/g, ' ');

describe('dates and times', () => {
  it.each([
    ['en-US', 'Nov 24, 2026', 'Tue, Nov 24', 'Nov 24, 2:15 PM', 'month first'],
    ['en-GB', '24 Nov 2026', 'Tue, 24 Nov', '24 Nov, 14:15', 'day first'],
    ['en-CA', 'Nov 24, 2026', 'Tue, Nov 24', 'Nov 24, 2:15 p.m.', 'year first'],
  ])('are written as in %s', (locale, long, day, moment, order) => {
    const format = makeFormat({ ...shop, locale });
    expect(format.longDay(TODAY)).toBe(long);
    expect(format.day(TODAY).replace('Tue 24', 'Tue, 24')).toBe(day);
    expect(plain(format.moment(MOMENT, 'America/Denver'))).toBe(moment);
    expect(format.dayOrder).toBe(order);
  });

  it.each([
    ['month first', '12', 'Nov 24, 2026', 'Tue, Nov 24', 'Nov 24', 'Nov 24, 2:15 PM'],
    ['day first', '24', '24 Nov 2026', 'Tue, 24 Nov', '24 Nov', '24 Nov, 14:15'],
    ['year first', '24', '2026 Nov 24', 'Tue, Nov 24', 'Nov 24', 'Nov 24, 14:15'],
  ] as const)(
    'are formatted %s with a clock of %s hours if the shop says so',
    (dayOrder, clock, ...written) => {
      const format = makeFormat({ ...shop, unit: 'kg', dayOrder, clock });
      const { longDay, day, monthDay, moment } = format;
      expect([longDay(TODAY), day(TODAY), monthDay(TODAY), plain(moment(MOMENT, 'America/Denver'))]).toEqual(
        written,
      );
      expect(format.mass(1000)).toBe('1.00 kg');
    },
  );

  it.each([undefined, 'day first'] as const)(
    'keep the hours and minutes of French together (%s)',
    (dayOrder) =>
      expect(makeFormat({ ...shop, locale: 'fr-CA', dayOrder }).moment(MOMENT, 'America/Denver')).toMatch(
        /, 14\u00A0h\u00A015$/,
      ),
  );

  it('writes midnight as 0, not as 24', () =>
    expect(makeFormat({ ...shop, clock: '24' }).moment('2026-11-24T07:05:00Z', 'America/Denver')).toMatch(
      /\b0?0:05$/,
    ));
});

describe('readDay', () => {
  it.each<[string, DayOrder, string | null]>([
    ['11/4/2026', 'month first', '2026-11-04'],
    ['4/11/2026', 'day first', '2026-11-04'],
    ['4.11.26', 'day first', '2026-11-04'],
    ['4.11.', 'day first', '2026-11-04'],
    ['11-4', 'month first', '2026-11-04'],
    ['26-11-04', 'year first', '2026-11-04'],
    ['11/4', 'year first', '2026-11-04'],
    ['2026-11-04', 'day first', '2026-11-04'],
    ['2026/11/4', 'month first', '2026-11-04'],
    [' 11 4 2026 ', 'month first', '2026-11-04'],
    ['11/20/26', 'month first', '2026-11-20'],
    ['11/20/98', 'month first', '1998-11-20'],
    ['11/20/0026', 'month first', null],
    ['11/20/1926', 'month first', null],
    ['0026-11-20', 'year first', null],
    ['11/20/2126', 'month first', null],
    ['24/11/2026', 'month first', null],
    ['11/24/2026', 'day first', null],
    ['2/29/2026', 'month first', null],
    ['11/4/2', 'month first', null],
    ['11/4/202', 'month first', null],
    ['2026-11', 'year first', null],
    ['114', 'month first', null],
    ['soon', 'month first', null],
    ['', 'month first', null],
  ])('reads %s, %s, as %s', (typed, order, date) =>
    expect(readDay(typed, { order, today: TODAY })).toBe(date),
  );

  it.each<[string, DayOrder, 'back' | 'ahead' | undefined, string | null]>([
    ['today', 'month first', undefined, '2026-11-24'],
    ['Tod', 'month first', 'back', '2026-11-24'],
    ['yesterday', 'month first', 'back', '2026-11-23'],
    ['tomorrow', 'month first', 'ahead', '2026-11-25'],
    ['to', 'month first', 'back', null],
    ['24', 'month first', 'back', '2026-11-24'],
    ['24', 'day first', 'ahead', '2026-11-24'],
    ['27', 'month first', 'back', '2026-10-27'],
    ['27', 'month first', 'ahead', '2026-11-27'],
    ['27', 'month first', undefined, '2026-10-27'],
    ['3', 'month first', 'ahead', '2026-12-03'],
    ['31', 'month first', 'back', '2026-10-31'],
    ['31', 'month first', 'ahead', '2026-12-31'],
    ['0', 'month first', 'back', null],
    ['32', 'month first', 'back', null],
    ['12/28', 'month first', 'back', '2025-12-28'],
    ['12/28', 'month first', 'ahead', '2026-12-28'],
    ['12/28', 'month first', undefined, '2026-12-28'],
    ['1/9', 'month first', 'ahead', '2027-01-09'],
    ['1/9', 'month first', 'back', '2026-01-09'],
    ['2/29', 'month first', 'back', '2024-02-29'],
    ['2/29', 'month first', 'ahead', '2028-02-29'],
    ['Nov 20', 'month first', 'back', '2026-11-20'],
    ['20 nov', 'year first', 'back', '2026-11-20'],
    ['Nov. 20, 2025', 'month first', 'back', '2025-11-20'],
    ['november 20 25', 'month first', 'back', '2025-11-20'],
    ['20. November 2025', 'day first', 'back', '2025-11-20'],
    ['Sept 5', 'month first', 'ahead', '2027-09-05'],
    ['Ma 5', 'month first', 'back', null],
    ['Nov 31', 'month first', 'back', null],
    ['Nov', 'month first', 'back', null],
    ['Noon 20', 'month first', 'back', null],
  ])('reads %s, %s, looking %s, as %s', (typed, order, look, date) =>
    expect(readDay(typed, { order, today: TODAY, look })).toBe(date),
  );

  it('finds a day of the month in its direction from every day of eight years', () => {
    for (let today = '2026-01-01'; today < '2034-01-01'; today = addDays(today, 1))
      for (const day of ['1', '15', '28', '29', '30', '31']) {
        const at = (look: 'back' | 'ahead') => readDay(day, { order: 'month first', today, look }) ?? '';
        const [back, ahead] = [at('back'), at('ahead')];
        expect([back.slice(8), ahead.slice(8)]).toEqual([day.padStart(2, '0'), day.padStart(2, '0')]);
        expect(back <= today && today <= ahead).toBe(true);
        expect(daysBetween(back, ahead)).toBeLessThanOrEqual(62);
      }
  });

  it('round-trips formatted dates, in every order', () => {
    for (const order of ['month first', 'day first', 'year first'] as const)
      for (const date of ['2026-11-04', '2028-02-29', '2027-01-31'])
        expect(readDay(dayFigures(date, order), { order, today: TODAY })).toBe(date);
  });

  it.each([
    ['11/20/0026', true],
    ['11/20/1926', true],
    ['0026-11-20', true],
    ['11/20/26', false],
    ['11/20/202', false],
    ['11/20/2026', false],
    ['soon', false],
    ['', false],
  ])('reports for %s whether a complete date has an implausible year: %s', (typed, wrong) =>
    expect(hasWrongYear(typed, { order: 'month first', today: TODAY })).toBe(wrong),
  );

  it('leaves invalid text unchanged', () => expect(dayFigures('soon', 'day first')).toBe('soon'));

  it('knows the order of a locale', () =>
    expect(['en-US', 'en-GB', 'de-DE', 'sv-SE'].map(orderOf)).toEqual([
      'month first',
      'day first',
      'day first',
      'year first',
    ]));
});
