import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeCooling, type CoolingCheck } from '../../../src/core/heat/cooling.ts';
import { degreeHours } from '../../../src/core/heat/degree-hours.ts';
import type { ProductReading } from '../../../src/core/heat/log.ts';
import { DEGREE_HOURS, lines, log, MINUTE, OPTION_1, OPTION_2, START } from './data.ts';

const check = (readings: readonly ProductReading[], change: Partial<CoolingCheck> = {}): CoolingCheck => ({
  logs: [log(readings)],
  accuracyF: 0,
  ...change,
});
const short = (
  readings: readonly ProductReading[],
  change: Partial<CoolingCheck> = {},
  option = OPTION_1,
) => {
  const { answer, notMet, missing } = judgeCooling(check(readings, change), option);
  return [answer, [...notMet, ...missing].map(({ code }) => code)];
};
const sparse = (...points: [minute: number, f: number][]): ProductReading[] =>
  points.map(([minute, value]) => ({ at: START + minute * MINUTE, value }));

describe('two-stage cooling, option 1', () => {
  it.each([
    ['80 at 1:29 and 40 at 6:28', lines([0, 130], [89, 80], [388, 40]), ['meets-figures', []]],
    ['80 at 1:30 and 40 at 6:30', lines([0, 130], [90, 80], [390, 40]), ['meets-figures', []]],
    ['80 at 1:31', lines([0, 130], [91, 80], [300, 40]), ['not-met', ['cooling.long']]],
    ['80 at 0:50, 40 at 5:51: 5 h 01 though within 6.5 h', lines([0, 130], [50, 80], [351, 40]), ['not-met', ['cooling.long']]],
    ['to 41 only', lines([0, 130], [80, 80], [300, 41]), ['not-proven', ['cooling.incomplete']]],
    ['to 41 only, and too late', lines([0, 130], [80, 80], [390, 41]), ['not-met', ['cooling.long']]],
    ['overnight at room temperature', lines([0, 150], [100, 110], [700, 70]), ['not-met', ['cooling.long']]],
    ['begun at 120', lines([0, 120], [60, 80], [300, 40]), ['not-proven', ['cooling.start']]],
  ] as const)('%s', (_, readings, expected) => expect(short(readings)).toEqual(expected)); // prettier-ignore

  it('reads no time off a line between two readings', () => {
    // 135 at 0, 97 at 60, 81 at 85, 78 at 95 min: 95 min at most, 25 at least; a straight line would say 80.
    const readings = sparse(
      [0, 135],
      [60, 97],
      [85, 81],
      [95, 78],
      [140, 68],
      [190, 56],
      [240, 47],
      [290, 40],
    );
    const { answer, missing, probes } = judgeCooling(check(readings, { longestGapMinutes: 60 }), OPTION_1);
    expect(answer).toBe('not-proven');
    expect(missing).toMatchObject([{ code: 'cooling.not-shown', with: { minutes: 95, least: 25, limit: 90 } }]); // prettier-ignore
    expect(probes[0]?.stages[0]).toMatchObject({ mostMinutes: 95, leastMinutes: 25 });
    // By the half hour that is credited at most, five of the seven stretches are gaps.
    const gaps = Array.from({ length: 5 }, () => 'log.gap');
    expect(short(readings)).toEqual(['not-proven', ['cooling.not-shown', ...gaps]]);
  });

  it('takes what the thermometer may be off by on the safe side', () => {
    // 88 min by the reading; with 1 °F either way it may have been 80 only later.
    expect(short(lines([0, 132], [85, 80], [86, 79], [300, 38]), { accuracyF: 1 })).toEqual(['meets-figures', []]); // prettier-ignore
    expect(short(lines([0, 130], [89, 80], [388, 40]), { accuracyF: 1 })[0]).toBe('not-proven');
  });

  it('names a product that got warm again', () => {
    const readings = lines([0, 135], [80, 75], [120, 60], [150, 90], [250, 38]);
    expect(short(readings)).toEqual(['not-proven', ['cooling.rose']]);
  });

  it('looks at what comes after the hottest reading', () => {
    expect(short(lines([0, 38], [200, 158], [220, 130], [300, 80], [590, 40]))).toEqual(['meets-figures', []]); // prettier-ignore
  });

  it('is met by a dense straight fall exactly where both stages are in time', () => {
    const minutes = fc.integer({ min: 20, max: 600 });
    fc.assert(
      fc.property(minutes, minutes, (first, second) => {
        const [answer] = short(lines([0, 131], [1, 130], [1 + first, 80], [1 + first + second, 40]));
        expect(answer).toBe(first <= 90 && second <= 300 ? 'meets-figures' : 'not-met');
      }),
      { numRuns: 300 },
    );
  });

  it('holds the true times between its bounds, however sparse the readings', () => {
    const every = fc.integer({ min: 2, max: 25 });
    fc.assert(
      fc.property(every, fc.integer({ min: 40, max: 140 }), fc.integer({ min: 200, max: 400 }), (step, first, second) => {
        const whole = lines([0, 140], [5, 130], [5 + first, 80], [5 + first + second, 40], [900, 36]);
        const some = whole.filter((_, i) => i % step === 0);
        const { probes, answer } = judgeCooling(check(some), OPTION_1);
        const [one, two] = probes[0]?.stages ?? [];
        for (const [stage, true_] of [[one, first], [two, second]] as const) {
          expect(stage?.leastMinutes).toBeLessThanOrEqual(true_ + 1e-9);
          expect(stage?.mostMinutes).toBeGreaterThanOrEqual(true_ - 1e-9);
        }
        if (answer === 'meets-figures') expect(first <= 90 && second <= 300).toBe(true);
        if (answer === 'not-met') expect(first > 90 || second > 300).toBe(true);
      }),
      { numRuns: 300 },
    );
  }); // prettier-ignore
});

describe('an option that was not confirmed in the edition in force', () => {
  const readings = lines([0, 130], [20, 120], [80, 80], [380, 55], [500, 40]);
  it('proves nothing by itself, and still shows what was not met', () => {
    expect(short(readings, { endOfCook: START }, OPTION_2)).toEqual(['not-proven', ['cooling.unconfirmed']]);
    expect(short(lines([0, 130], [20, 120], [90, 80], [380, 55], [500, 40]), { endOfCook: START }, OPTION_2)).toEqual(['not-met', ['cooling.long']]); // prettier-ignore
  });

  it('asks when cooking ended, and begins within 90 minutes of it', () => {
    const confirmed = { ...OPTION_2, confirmed: true };
    expect(short(readings, { endOfCook: START }, confirmed)).toEqual(['meets-figures', []]);
    expect(short(readings, {}, confirmed)).toEqual(['not-proven', ['cook.times']]);
    expect(short(readings, { endOfCook: START - 80 * MINUTE }, confirmed)).toEqual(['not-met', ['cooling.late']]);
  }); // prettier-ignore
});

describe('degree-hours', () => {
  it.each([
    [80, 55, 1100, 1200, true],
    [90, 40, 1200, 1000, false],
    [95, 28, 980, 1000, true],
    [101, 22, 902, 900, false],
  ])('%i °F for %i h', (f, hours, sum, most, meets) =>
    expect(degreeHours([{ f, hours }], DEGREE_HOURS)).toEqual({ degreeHours: sum, most, meets })); // prettier-ignore

  it('take the limit from the highest temperature and add the rest up', () => {
    // 20 × 10 + 40 × 10 = 600 at 100 °F.
    expect(degreeHours([{ f: 80, hours: 10 }, { f: 100, hours: 10 }, { f: 50, hours: 9 }], DEGREE_HOURS)).toEqual({ degreeHours: 600, most: 1000, meets: true }); // prettier-ignore
    expect(() => degreeHours([], DEGREE_HOURS)).toThrow(expect.objectContaining({ code: 'steps.empty' }));
    expect(() => degreeHours([{ f: 80, hours: -1 }], DEGREE_HOURS)).toThrow(expect.objectContaining({ code: 'hours.negative' })); // prettier-ignore
  });
});
