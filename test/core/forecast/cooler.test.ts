/** What will hang: conserved, ordered, against a simulation, and what it rests on worked out by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forecastArrivals } from '../../../src/core/forecast/arrivals.ts';
import { coolerForecast, hangingRanges, type Flow } from '../../../src/core/forecast/cooler.ts';
import { cuttingPace } from '../../../src/core/forecast/pace.ts';
import { addDays } from '../../../src/core/values/dates.ts';
import { daysFrom, dispersionOf, yearsLater } from '../../../src/core/forecast/day-counts.ts';
import { seededRandom, type RandomGenerator } from '../../../src/core/stats/random.ts';
import { weekdayPattern } from '../../../src/core/forecast/weekday-pattern.ts';

const LEVEL = 0.8;
const steady = (perDay: number, days: number, more: Partial<Flow> = {}): Flow =>
  Object.freeze({ perDay: new Array<number>(days).fill(perDay), dispersion: 1.5, levelSd: 0.15, ...more });
const flows = fc.record({
  perDay: fc.array(fc.double({ min: 0, max: 12, noNaN: true }), { minLength: 6, maxLength: 6 }),
  dispersion: fc.double({ min: 1, max: 4, noNaN: true }),
  levelSd: fc.double({ min: 0, max: 0.5, noNaN: true }),
});
const sum = (values: readonly number[]) => values.reduce((total, one) => total + one, 0);

describe('the forecast of hanging animals', () => {
  it('is the present number plus arrivals minus departures, while the rail does not run empty', () => {
    fc.assert(
      fc.property(fc.integer({ min: 400, max: 600 }), flows, flows, (hanging, come, cut) => {
        hangingRanges(hanging, come, cut, LEVEL).forEach(({ mean }, k) => {
          const expected = hanging + sum(come.perDay.slice(0, k + 1)) - sum(cut.perDay.slice(0, k + 1));
          expect(mean).toBeCloseTo(expected, 4);
        });
      }),
      { numRuns: 25 },
    );
  });

  it('is never negative, never more than all animals, and its range contains its mean', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), flows, flows, (hanging, come, cut) => {
        hangingRanges(hanging, come, cut, LEVEL).forEach(({ low, mean, high }, k) => {
          expect(low).toBeGreaterThanOrEqual(0);
          expect(low).toBeLessThanOrEqual(mean);
          expect(mean).toBeLessThanOrEqual(high);
          expect(mean).toBeLessThanOrEqual(hanging + sum(come.perDay.slice(0, k + 1)) + 1e-6);
          expect(mean).toBeGreaterThanOrEqual(
            hanging + sum(come.perDay.slice(0, k + 1)) - sum(cut.perDay.slice(0, k + 1)) - 1e-6,
          );
        });
      }),
      { numRuns: 40 },
    );
  });

  it('grows with hanging and arriving animals, and falls with cutting', () => {
    const more = (flow: Flow, by: number): Flow => ({ ...flow, perDay: flow.perDay.map((one) => one + by) });
    const notLess = (a: ReturnType<typeof hangingRanges>, b: ReturnType<typeof hangingRanges>) =>
      a.forEach((day, k) => {
        const other = b[k] as typeof day;
        for (const end of ['low', 'mean', 'high'] as const)
          expect(day[end]).toBeGreaterThanOrEqual(other[end] - 1e-6);
      });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), flows, flows, (hanging, come, cut) => {
        const now = hangingRanges(hanging, come, cut, LEVEL);
        notLess(hangingRanges(hanging + 3, come, cut, LEVEL), now);
        notLess(hangingRanges(hanging, more(come, 0.7), cut, LEVEL), now);
        notLess(now, hangingRanges(hanging, come, more(cut, 0.7), LEVEL));
      }),
      { numRuns: 30 },
    );
  });

  it('widens with the horizon, and with the dispersion of the days', () => {
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    const calm = hangingRanges(100, steady(6, 14), steady(6, 14), LEVEL);
    const wild = hangingRanges(100, steady(6, 14, { dispersion: 5 }), steady(6, 14, { levelSd: 0.4 }), LEVEL);
    expect(width(calm[13] as never)).toBeGreaterThan(width(calm[0] as never));
    expect(width(wild[13] as never)).toBeGreaterThan(width(calm[13] as never));
  });

  it.each([
    [30, 5, 6, 0.15, 0.15],
    [4, 3, 5, 0.3, 0.1],
    [80, 12, 9, 0.25, 0.25],
  ])('agrees with a simulation from %i hanging, %i coming and %i cut a day', (hanging, a, c, da, dc) => {
    const [come, cut] = [steady(a, 14, { levelSd: da }), steady(c, 14, { levelSd: dc, dispersion: 2 })];
    const told = hangingRanges(hanging, come, cut, LEVEL);
    const runs = simulate(hanging, come, cut, 20_000);
    for (const k of [0, 6, 13]) {
      const { low, mean, high } = told[k] as (typeof told)[number];
      const ends = runs.map((run) => run[k] as number);
      expect(Math.abs(sum(ends) / ends.length - mean)).toBeLessThan(0.03 * mean + 0.15);
      const inside = ends.filter((end) => end >= low && end <= high).length / ends.length;
      // Whole counts hold at least what was asked for; where they lie thick, little more.
      expect(inside).toBeGreaterThan(LEVEL - 0.025);
      expect(inside).toBeLessThan(LEVEL + (high - low > 15 ? 0.05 : 0.2));
    }
  });

  it('is constant without arrivals and cutting', () => {
    const still = steady(0, 3);
    for (const day of hangingRanges(7, still, still, LEVEL))
      for (const end of [day.low, day.mean, day.high]) expect(end).toBeCloseTo(7, 9);
  });

  it('refuses an invalid count, share and level', () => {
    const flow = steady(1, 1);
    expect(() => hangingRanges(-1, flow, flow, LEVEL)).toThrow('amount.negative');
    expect(() => hangingRanges(1.5, flow, flow, LEVEL)).toThrow('amount.negative');
    expect(() => hangingRanges(1, flow, flow, 1)).toThrow('share.out-of-range');
    expect(() => hangingRanges(1, { ...flow, levelSd: -1 }, flow, LEVEL)).toThrow('amount.negative');
    expect(() => hangingRanges(1, flow, { ...flow, dispersion: 0.5 }, LEVEL)).toThrow('spread.below-one');
  });
});

/** The same story told by drawing: one level for each flow and run, then counts day by day. */
function simulate(hanging: number, come: Flow, cut: Flow, runs: number): number[][] {
  const chance = seededRandom(11);
  const level = (levelSd: number) => Math.exp(levelSd * chance.normal() - levelSd ** 2 / 2);
  return Array.from({ length: runs }, () => {
    const [more, faster] = [level(come.levelSd), level(cut.levelSd)];
    let rail = hanging;
    return come.perDay.map((mean, k) => {
      const gone = drawn(chance, (cut.perDay[k] ?? 0) * faster, cut.dispersion);
      return (rail = Math.max(0, rail - gone) + drawn(chance, mean * more, come.dispersion));
    });
  });
}

/** A negative binomial as Poisson with a mean of its own that is gamma; Poisson by Knuth's product of uniforms. */
function drawn(chance: RandomGenerator, mean: number, dispersion: number): number {
  const own = mean === 0 ? 0 : chance.gamma(mean / (dispersion - 1)) * (dispersion - 1);
  let count = -1;
  for (let product = 1; product > Math.exp(-own); count++) product *= chance.uniform();
  return Math.max(0, count);
}

describe('the basis of the forecast', () => {
  const each = (from: string, days: number, animals: number) =>
    daysFrom(from, addDays(from, days - 1)).map((on) => Object.freeze({ on, animals }));

  it("scales the earlier seasons on the same days by this season's ratio", () => {
    const told = forecastArrivals(
      {
        today: '2026-10-10',
        season: 2026,
        taken: each('2026-10-01', 10, 4),
        earlier: [
          { season: 2025, taken: each('2025-10-01', 40, 1) },
          { season: 2024, taken: each('2024-10-01', 40, 3) },
        ],
      },
      5,
    );
    // 2 a day then; 40 came for 20 that had come by then: (40 + 10) / (20 + 10). The days are nearly whole weeks.
    expect(told.earlierSeasons).toBe(2);
    expect(sum(told.perDay) / 5).toBeCloseTo((2 * 50) / 30, 0);
    expect(sum(told.perDay) / 5 / ((2 * 50) / 30)).toBeGreaterThan(0.93);
  });

  it('for a season recorded from its middle counts only covered days', () => {
    const told = forecastArrivals(
      {
        today: '2026-10-20',
        season: 2026,
        taken: each('2026-09-01', 50, 5),
        earlier: [{ season: 2025, taken: each('2025-10-10', 40, 5) }],
      },
      3,
    );
    told.perDay.forEach((one) => expect(one).toBeGreaterThan(4));
    told.perDay.forEach((one) => expect(one).toBeLessThan(6));
  });

  it('without earlier seasons is the pace of the last two weeks', () => {
    const taken = [...each('2026-09-01', 20, 9), ...each('2026-09-21', 14, 2)];
    const told = forecastArrivals({ today: '2026-10-04', season: 2026, taken, earlier: [] }, 7);
    expect(told.earlierSeasons).toBe(0);
    expect(sum(told.perDay)).toBeCloseTo(14, 0);
  });

  it('is zero without any history', () => {
    const told = forecastArrivals({ today: '2026-10-04', season: 2026, taken: [], earlier: [] }, 2);
    expect(told.perDay).toEqual([0, 0]);
    expect(Number.isFinite(told.levelSd)).toBe(true);
  });

  it('is the pace of open days: a shop that cuts from Monday to Friday is closed on the weekend', () => {
    const left = daysFrom('2026-10-01', '2026-10-28')
      .filter((on) => ![0, 6].includes(new Date(on).getUTCDay()))
      .map((on) => ({ on, animals: 6 }));
    const pace = cuttingPace(left, '2026-10-28', '2026-09-01');
    // Fifteen days that all hit the mean, and ten as usual: (20 + 0) / 25 is below pure chance.
    expect(pace).toMatchObject({ perDay: 6, days: 15, dispersion: 1 });
    expect(pace.open('2026-10-30')).toBe(true);
    expect(pace.open('2026-10-31')).toBe(false);
    expect(pace.open('2026-11-01')).toBe(false);
  });

  it('does not count today, which is incomplete', () => {
    const left = [...each('2026-10-01', 10, 4), { on: '2026-10-11', animals: 1 }];
    expect(cuttingPace(left, '2026-10-11', '2026-10-01').perDay).toBe(4);
    expect(cuttingPace([], '2026-10-11', '2026-10-11')).toMatchObject({ perDay: 0, days: 0 });
  });

  it('learns the busier weekdays', () => {
    const sundays = daysFrom('2026-09-01', '2026-11-30').map((on) => ({
      on,
      animals: new Date(on).getUTCDay() === 0 ? 14 : 1,
    }));
    const pattern = weekdayPattern(sundays);
    expect(sum(pattern)).toBeCloseTo(7, 9);
    expect(pattern[0]).toBeGreaterThan(4);
    expect(pattern[3]).toBeLessThan(0.5);
  });

  it('assumes Poisson dispersion only when the days show it', () => {
    expect(dispersionOf([])).toBe(2);
    // Ten days as usual, and ten that hit their mean: (20 + 0) / 20.
    expect(dispersionOf(new Array(10).fill({ count: 5, expected: 5 }))).toBe(1);
    expect(dispersionOf(new Array(10).fill({ count: 11, expected: 5 }))).toBeCloseTo((20 + 72) / 20, 9);
  });

  it('maps a leap day to other years', () => {
    expect(yearsLater('2024-02-29', 2)).toBe('2026-03-01');
    expect(yearsLater('2024-02-29', 4)).toBe('2028-02-29');
    expect(yearsLater('2025-11-14', 1)).toBe('2026-11-14');
  });

  it('makes a complete forecast: numbers rise on Sundays, and do not fall on closed days', () => {
    const taken = daysFrom('2026-09-01', '2026-10-17').map((on) => ({ on, animals: 3 }));
    const left = taken.filter(({ on }) => new Date(on).getUTCDay() !== 0);
    const told = coolerForecast(
      { today: '2026-10-17', season: 2026, hanging: 20, taken, left, earlier: [] },
      8,
      LEVEL,
    );
    expect(told.days.map(({ on }) => on)).toEqual(daysFrom('2026-10-18', '2026-10-25'));
    expect(told.cutPerDay).toBe(3);
    expect(told.paceDays).toBe(18);
    // 2026-10-18 is a Sunday: nothing is cut, about three come.
    expect(told.days[0]?.mean).toBeGreaterThan(22.5);
    expect(told.days[0]?.mean).toBeLessThan(23.5);
    expect(told.days[1]?.mean).toBeCloseTo(told.days[0]?.mean ?? NaN, 0);
  });
});
