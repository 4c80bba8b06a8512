import { describe, expect, it } from 'vitest';
import { summariseCoolerLog, warmIntervals } from '../../../src/core/cold/cooler-log.ts';
import {
  degreesOf,
  guessLoggerColumns,
  readLoggerDegrees,
  readLoggerClock,
  readLoggerValue,
} from '../../../src/core/sheet/logger-cells.ts';
import { readDay } from '../../../src/core/sheet/values.ts';

describe('warmIntervals', () => {
  it('is the interval of a line above the limit', () => {
    const readings = [
      { at: '2026-11-20T06:00Z', tempC: 3.4 },
      { at: '2026-11-20T08:00Z', tempC: 5.4 },
      { at: '2026-11-20T10:00Z', tempC: 3.4 },
    ];
    const spans = warmIntervals(Object.freeze(readings)).map(({ from, to }) =>
      [from, to].map((ms) => new Date(Math.round(ms)).toISOString().slice(11, 16)),
    );
    expect(spans).toEqual([
      ['07:00', '08:00'],
      ['08:00', '09:00'],
    ]);
  });

  it('sums to the minutes of summariseCoolerLog', () => {
    const readings = [3, 6, 5, 4.4, 2, 9, 9, 1].map((tempC, hour) => ({
      at: `2026-11-20T0${hour}:00Z`,
      tempC,
    }));
    const minutes = warmIntervals(readings).reduce((sum, { from, to }) => sum + (to - from) / 60_000, 0);
    expect(minutes).toBeCloseTo(summariseCoolerLog(readings).minutesAbove, 6);
  });
});

describe('a logger’s cells', () => {
  it.each([
    ['Temperature (°F)', 'F'], ['Temp_C', 'C'], ['Celsius(℃)', 'C'], ['Ch1 deg F', 'F'], ['36.5F', 'F'], ['Humidity %', null],
  ])('%s names %s', (text, scale) => expect(degreesOf(text)).toBe(scale)); // prettier-ignore

  it('finds date, time and temperature, in one column or separate, below titles', () => {
    const apart = [['Serial', 'A-17'], ['No', 'Date', 'Time', 'RH %', 'Temp °C'], ['1', '2026-11-20', '06:00', '80', '2.5']]; // prettier-ignore
    expect(guessLoggerColumns(apart)).toEqual({ above: 2, date: 1, time: 2, temperature: 4, degrees: 'C' });
    const together = [['2026-11-20T06:00:00Z', '36.1']];
    expect(guessLoggerColumns(together)).toEqual({
      above: 0,
      date: 0,
      time: 0,
      temperature: 1,
      degrees: null,
    });
    expect(() => guessLoggerColumns([['Roses', 'are red']])).toThrow('logger.columns');
  });

  it.each([
    ['11/20/2026', '12:05 AM', 5 * 60, null],
    ['11/20/2026', '12:05 pm', (12 * 60 + 5) * 60, null],
    ['2026-11-20T06:00:30Z', '2026-11-20T06:00:30Z', 6 * 3600 + 30, 0],
    ['2026-11-20 06:00+01:00', '2026-11-20 06:00+01:00', 6 * 3600, 60],
  ])('reads %s, %s', (date, time, seconds, zoneMinutes) => {
    expect(readDay(date, 'month first', 2026)).toBe('2026-11-20');
    expect(readLoggerClock(time)).toEqual({ seconds, zoneMinutes });
  });

  it.each(['24:00', '13:00 PM', '6', '06:60'])('refuses the time %s', (time) =>
    expect(() => readLoggerClock(time)).toThrow('logger.clock'),
  );

  it('reads a temperature in the unit of its cell before that of its column, and refuses nonsense', () => {
    expect(readLoggerDegrees('41', 'F')).toBeCloseTo(5, 9);
    expect(readLoggerDegrees('2,5', 'C')).toBe(2.5);
    expect(readLoggerDegrees('5 °C', 'F')).toBe(5);
    expect(() => readLoggerDegrees('cold', 'C')).toThrow('temperature.unreadable');
    expect(() => readLoggerDegrees('400', 'C')).toThrow('temperature.range');
  });

  it('of a product are taken as they stand, broken sensors and all', () => {
    expect(readLoggerValue('158.2', 'F')).toEqual({ value: 158.2, degrees: 'F' });
    expect(readLoggerValue('70,5 °C', 'F')).toEqual({ value: 70.5, degrees: 'C' });
    expect(readLoggerValue('−40', 'C')).toEqual({ value: -40, degrees: 'C' });
    expect(readLoggerValue('32767', 'F')).toEqual({ value: 32_767, degrees: 'F' });
    for (const cell of ['ERR', '---', '', 'NaN'])
      expect(readLoggerValue(cell, 'F')).toEqual({ value: null, degrees: 'F' });
  });
});
