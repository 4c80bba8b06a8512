import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hangState } from '../../../src/core/cold/hanging.ts';
import { summariseCoolerLog, type CoolerReading } from '../../../src/core/cold/cooler-log.ts';

describe('hangState', () => {
  const shop = Object.freeze({ readyDays: 4, limitDays: 7 });
  it.each([
    [0, 'fresh'], [3, 'fresh'], [4, 'ready'], [5, 'ready'], [6, 'due'], [7, 'due'], [8, 'over'], [90, 'over'],
  ])('day %i is %s', (days, state) => expect(hangState(days, shop)).toBe(state)); // prettier-ignore

  it('gives the limit precedence over readiness', () => {
    expect(hangState(1, { readyDays: 2, limitDays: 2 })).toBe('due');
    expect(hangState(1, { readyDays: 0, limitDays: 0 })).toBe('over');
  });

  it('never goes back as days pass', () => {
    const order = ['fresh', 'ready', 'due', 'over'];
    fc.assert(
      fc.property(fc.nat(60), fc.nat(30), fc.nat(30), (days, readyDays, more) => {
        const limits = { readyDays, limitDays: readyDays + more };
        const [today, tomorrow] = [hangState(days, limits), hangState(days + 1, limits)];
        expect(order.indexOf(tomorrow)).toBeGreaterThanOrEqual(order.indexOf(today));
      }),
      { numRuns: 1000 },
    );
  });

  it('throws a typed error for wrong input', () => {
    for (const days of [-1, 0.5, Number.NaN])
      expect(() => hangState(days, shop)).toThrow(expect.objectContaining({ code: 'hanging.days' }));
    for (const limits of [{ readyDays: 8, limitDays: 7 }, { readyDays: 1, limitDays: Number.NaN }, { readyDays: -1, limitDays: 7 }])
      expect(() => hangState(1, limits)).toThrow(expect.objectContaining({ code: 'hanging.limits' })); // prettier-ignore
  });
});

const START = Date.parse('2026-11-20T06:00:00Z');
const at = (minute: number): string => new Date(START + minute * 60_000).toISOString();
const log = (...points: [minute: number, tempC: number][]): readonly CoolerReading[] =>
  Object.freeze(points.map(([minute, tempC]) => Object.freeze({ at: at(minute), tempC })));

describe('summariseCoolerLog', () => {
  it('finds the crossing of a straight line with the limit', () => {
    expect(summariseCoolerLog(log([0, 3.4], [120, 5.4]), 4.4)).toEqual({
      above: true,
      minutesAbove: expect.closeTo(60, 9),
      longestMinutesAbove: expect.closeTo(60, 9),
      longestGapMinutes: 120,
    });
  });

  it('joins one warm interval over several readings and separates two', () => {
    // Up over 30 min, two hours warm, down over 30; later a short spell of 20 + 20 min.
    const judged = summariseCoolerLog(
      log([0, 3], [60, 5], [180, 5], [240, 3], [300, 3], [340, 5], [380, 3]),
      4,
    );
    expect(judged).toEqual({
      above: false,
      minutesAbove: 30 + 120 + 30 + 20 + 20,
      longestMinutesAbove: 180,
      longestGapMinutes: 120,
    });
  });

  it('does not count the limit itself as above it, nor report an interval of an empty log', () => {
    expect(summariseCoolerLog(log([0, 4.4], [60, 4.4]), 4.4).minutesAbove).toBe(0);
    expect(summariseCoolerLog([], 4.4)).toEqual({
      above: false,
      minutesAbove: 0,
      longestMinutesAbove: 0,
      longestGapMinutes: 0,
    });
    expect(summariseCoolerLog(log([0, 9]), 4.4)).toMatchObject({ above: true, minutesAbove: 0 });
  });

  it('accepts readings in any order, and the later of two at one moment', () => {
    expect(summariseCoolerLog(log([120, 5.4], [0, 9], [0, 3.4]), 4.4).minutesAbove).toBeCloseTo(60, 9);
  });

  it('agrees with a slow count minute by minute', () => {
    const whole = fc.array(fc.integer({ min: 0, max: 8 }), { minLength: 2, maxLength: 12 });
    fc.assert(
      fc.property(whole, (temps) => {
        const judged = summariseCoolerLog(log(...temps.map((t, i): [number, number] => [i * 64, t])), 4.5);
        let [total, run, longest] = [0, 0, 0];
        // Crossings of whole degrees with 4.5 fall on fractions of a minute: count in small steps.
        const steps = 32;
        for (let i = 0; i < (temps.length - 1) * 64 * steps; i++) {
          const x = (i + 0.5) / (64 * steps);
          const k = Math.floor(x);
          const temp = (temps[k] as number) + (x - k) * ((temps[k + 1] as number) - (temps[k] as number));
          run = temp > 4.5 ? run + 1 / steps : 0;
          if (temp > 4.5) total += 1 / steps;
          longest = Math.max(longest, run);
        }
        expect(Math.abs(judged.minutesAbove - total)).toBeLessThan(1);
        expect(Math.abs(judged.longestMinutesAbove - longest)).toBeLessThan(0.1);
      }),
      { numRuns: 1000 },
    );
  }, 240_000);

  it('throws a typed error for wrong input', () => {
    expect(() => summariseCoolerLog([{ at: 'noon', tempC: 3 }], 4)).toThrow(
      expect.objectContaining({ code: 'cooler.moment', field: 'readings[0].at' }),
    );
    expect(() => summariseCoolerLog([{ at: at(0), tempC: Number.NaN }], 4)).toThrow(
      expect.objectContaining({ code: 'cooler.temperature' }),
    );
    expect(() => summariseCoolerLog([], Number.NaN)).toThrow(
      expect.objectContaining({ code: 'cooler.limit' }),
    );
  });
});
