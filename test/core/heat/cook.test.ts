import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criticalLimitF, judgeCook, type CookCheck } from '../../../src/core/heat/cook.ts';
import type { HumidityRecord } from '../../../src/core/heat/humidity.ts';
import type { ProductReading } from '../../../src/core/heat/log.ts';
import { atSeconds, cookOf, HOSTS, lines, log, MINUTE, START, TABLE } from './data.ts';

const judge = (check: CookCheck) => judgeCook(check, TABLE, HOSTS);
const short = (check: CookCheck): [string, string[]] => {
  const { answer, notMet, missing } = judge(check);
  return [answer, [...notMet, ...missing].map(({ code }) => code)];
};

/** From the cooler at 38 °F to 128 by the minute, at once to this temperature, so long at it, and at once cold again. */
const held = (f: number, seconds: number): ProductReading[] => [
  ...lines([0, 38], [200, 128]),
  ...atSeconds([TOP, f], ...everyMinute(seconds).map((second): [number, number] => [TOP + second, f]), [TOP + seconds + 1, 100]),
]; // prettier-ignore
const TOP = 200 * 60 + 1;
/** Each minute after 0, and the last second. */
const everyMinute = (seconds: number): number[] =>
  Array.from({ length: Math.ceil(seconds / 60) }, (_, i) => Math.min(seconds, (i + 1) * 60));
/** These readings, by seconds, after the same way up and before the same end. */
const after = (...points: [second: number, f: number][]): ProductReading[] => [
  ...lines([0, 38], [200, 128]),
  ...atSeconds(...points.map(([second, f]): [number, number] => [TOP + second, f]), [TOP + (points.at(-1)?.[0] ?? 0) + 10, 100]),
]; // prettier-ignore

describe('time at temperature, 6.5-log', () => {
  it.each([
    [145, 4 * 60, 'meets-figures'],
    [145, 4 * 60 - 1, 'not-proven'],
    [145, 4 * 60 - 3, 'not-met'],
    [150, 67, 'meets-figures'],
    [150, 66, 'not-proven'],
    [150, 64, 'not-met'],
    [158, 0, 'meets-figures'],
    [157.9, 14, 'meets-figures'],
    [157.9, 11, 'not-met'],
    [130, 112 * 60, 'meets-figures'],
    [130, 111 * 60, 'not-met'],
  ])('%s °F for %i s: %s', (f, seconds, answer) => expect(judge(cookOf(held(f, seconds))).answer).toBe(answer)); // prettier-ignore

  it('does not credit an end temperature without time at it', () => {
    // 152 °F needs 43 s, 141 °F nine minutes; the log ends with the first reading there.
    expect(short(cookOf([...lines([0, 38], [200, 128]), ...atSeconds([TOP + 300, 152])]))).toEqual(['not-proven', ['dwell.not-shown', 'log.ends-hot']]);
    expect(short(cookOf(held(152, 0)))).toEqual(['not-met', ['dwell.short']]);
    expect(short(cookOf(held(141, 8 * 60)))).toEqual(['not-met', ['dwell.short']]);
    // Reached slowly, the rows below are met on the way: 141 °F for 9 minutes.
    expect(short(cookOf(lines([0, 38], [200, 152])))[0]).toBe('meets-figures');
  }); // prettier-ignore

  it('counts the product as cold as the colder of two readings', () => {
    // Ten minutes from 145 to 144: none of it is at 145, all of it at 144, which needs five.
    expect(judge(cookOf(after([0, 145], [600, 144]))).probes[0]?.dwell).toMatchObject({ row: { f: 144 }, seconds: 600 });
  }); // prettier-ignore

  it('breaks the time where the product falls below', () => {
    // Twice 200 s at 145 °F, which needs 240 of one.
    const broken = after([0, 145], [200, 145], [210, 129], [220, 145], [420, 145]);
    expect(judge(cookOf(broken)).probes[0]?.dwell).toMatchObject({ metAt: null, seconds: 200 });
    expect(judge(cookOf(after([0, 145], [200, 145], [210, 145], [220, 145], [420, 145]))).answer).toBe('meets-figures');
  }); // prettier-ignore

  it('takes what the thermometer may be off by from each reading', () => {
    expect(judge(cookOf(held(145, 300), { accuracyF: 1 })).probes[0]?.dwell?.row.f).toBe(144);
    expect(judge(cookOf(held(158.5, 0), { accuracyF: 1 })).answer).not.toBe('meets-figures');
    expect(criticalLimitF(165, 1)).toBe(166);
  });

  it('credits nothing over a gap', () => {
    const gap = (minutes: number) => after([0, 150], [minutes * 60, 150]);
    expect(short(cookOf(gap(10)))).toEqual(['meets-figures', []]);
    expect(short(cookOf(gap(11)))).toEqual(['not-proven', ['dwell.not-shown', 'log.gap']]);
    expect(short(cookOf(gap(11), { longestGapMinutes: 11 }))).toEqual(['meets-figures', []]);
  });

  it('leaves a gap after the time was complete alone', () => {
    expect(judge(cookOf([...held(158, 0), ...atSeconds([400 * 60, 60])])).answer).toBe('meets-figures');
  });

  it('agrees with a slow count second by second', () => {
    const f = fc.integer({ min: 128, max: 160 });
    fc.assert(
      fc.property(fc.array(f, { minLength: 2, maxLength: 25 }), fc.constantFrom(20, 60, 240), (temps, step) => {
        const { probes } = judge(cookOf([...atSeconds([-20_000, 38]), ...temps.map((value, i) => ({ at: START + i * step * 1000, value }))], { longestGapMinutes: 1000 }));
        const rows = TABLE.rows.filter((row) => {
          let [run, best] = [0, temps.some((t) => t >= row.f) ? 0 : -1];
          for (let second = 0; second < (temps.length - 1) * step; second++) {
            const k = Math.floor(second / step);
            run = Math.min(temps[k] ?? 0, temps[k + 1] ?? 0) >= row.f ? run + 1 : 0;
            if (run > 0) best = Math.max(best, run);
          }
          return best >= row.log65;
        });
        expect(probes[0]?.dwell?.metAt !== null).toBe(rows.length > 0);
      }),
      { numRuns: 300 },
    );
  }, 60_000); // prettier-ignore

  it('never comes out better for a colder product', () => {
    const f = fc.double({ min: 125, max: 160, noNaN: true });
    fc.assert(
      fc.property(fc.array(f, { minLength: 2, maxLength: 30 }), fc.double({ min: 0, max: 10, noNaN: true }), (temps, colder) => {
        const of = (less: number) => judge(cookOf(temps.map((value, i) => ({ at: START + i * MINUTE, value: value - less })))).probes[0]?.dwell?.metAt ?? null;
        if (of(colder) !== null) expect(of(0)).not.toBeNull();
      }),
      { numRuns: 500 },
    );
  }); // prettier-ignore
});

describe('time to come up', () => {
  const up = (minutes: number, from = 50) => cookOf([...lines([0, from], [minutes, 130], [minutes + 20, 150], [minutes + 25, 150]), ...atSeconds([(minutes + 26) * 60, 100])]); // prettier-ignore
  it('is six hours from 50 to 130 °F and not a minute more', () => {
    expect(short(up(360))).toEqual(['meets-figures', []]);
    expect(short(up(362))[0]).toBe('not-met');
    expect(judge(up(362)).notMet).toMatchObject([{ code: 'come-up.long', with: { limit: 360 } }]);
  });

  it('is not proven where the log begins above 50 °F', () => {
    expect(short(up(100, 60))).toEqual(['not-proven', ['come-up.start']]);
  });

  it('lies between bounds where readings are sparse', () => {
    // 50 °F was last read at 0 and 130 first at 370 min; the readings within are 55 at 10 and 125 at 355.
    const readings = [...atSeconds([0, 48], [600, 55]), ...atSeconds([355 * 60, 125], [370 * 60, 131], [375 * 60, 150], [380 * 60, 150])]; // prettier-ignore
    const { answer, missing, probes } = judge(cookOf(readings, { longestGapMinutes: 400 }));
    expect(answer).toBe('not-proven');
    expect(missing.map(({ code }) => code)).toEqual(['come-up.not-shown']);
    expect(probes[0]?.comeUp).toMatchObject({ mostMinutes: 370, leastMinutes: 345 });
  });

  it('goes on counting when the product falls back before it is done', () => {
    const { probes } = judge(cookOf(lines([0, 40], [100, 140], [160, 80], [260, 158])));
    // Above 50 and below 130 from 10 to 90, from 110 to 160, and up again until 224.1.
    expect(probes[0]?.comeUp?.leastMinutes).toBeGreaterThan(80 + 50 + 62);
    expect(probes[0]?.comeUp?.mostMinutes).toBeLessThan(80 + 50 + 64.2 + 6);
  });
});

describe('humidity', () => {
  const hours = (n: number) => ({ from: START, to: START + n * 3_600_000 });
  const jerky = (humidity: HumidityRecord | null, n = 5, f = 150, seconds = 67) => short(cookOf(held(f, seconds), { humidity, cook: hours(n) })); // prettier-ignore
  it('has to be recorded, with the times of the cook', () => {
    expect(jerky(null)).toEqual(['not-proven', ['humidity.record']]);
    expect(short(cookOf(held(150, 67), { humidity: { kind: 'steam', minutes: 200 } }))).toEqual(['not-proven', ['cook.times']]);
  }); // prettier-ignore

  it.each([
    ['steam', 150, 5, 'meets-figures', []],
    ['steam', 149, 5, 'not-met', ['humidity.short']],
    ['sealed-oven', 60, 1, 'meets-figures', []],
    ['sealed-oven', 60, 2 / 3, 'not-met', ['humidity.cook-short']],
    ['humid-part', 75, 5, 'meets-figures', []],
    ['humid-part', 74, 5, 'not-met', ['humidity.short']],
    ['humid-all', 300, 5, 'meets-figures', []],
    ['humid-all', 299, 5, 'not-met', ['humidity.short']],
  ] as const)('%s for %i min of a cook of %s h: %s', (kind, minutes, n, answer, codes) =>
    expect(jerky({ kind, minutes }, n)).toEqual([answer, codes])); // prettier-ignore

  it('of options 1 and 2 counts from 145 °F on alone', () => {
    expect(jerky({ kind: 'steam', minutes: 200 }, 5, 138, 18 * 60)).toEqual(['not-met', ['dwell.short']]);
    expect(jerky({ kind: 'humid-part', minutes: 200 }, 5, 138, 18 * 60)[0]).not.toBe('not-met');
  });

  it('need not be shown of large pieces in a hot oven, and only of those', () => {
    expect(jerky({ kind: 'large-piece', pieceGrams: 4536, ovenF: 250 })).toEqual(['meets-figures', []]);
    expect(jerky({ kind: 'large-piece', pieceGrams: 4500, ovenF: 250 })).toEqual(['not-met', ['humidity.large-piece']]);
    expect(jerky({ kind: 'large-piece', pieceGrams: 4536, ovenF: 249 })[0]).toBe('not-met');
  }); // prettier-ignore
});

describe('what the table does not cover', () => {
  it('is not proven: poultry, and the 5-log column without support', () => {
    expect(short(cookOf(held(160, 0), { poultry: true }))).toEqual(['not-proven', ['table.not-for-poultry']]);
    expect(short(cookOf(held(150, 52), { level: 'log5' }))).toEqual(['not-proven', ['table.needs-support']]);
    expect(short(cookOf(held(150, 52), { level: 'log5', hasSupport: true }))).toEqual(['meets-figures', []]);
  });

  it('asks 165 °F of animals that may carry Trichinella', () => {
    expect(short(cookOf(held(160, 0), { host: true }))).toEqual(['not-met', ['host.below']]);
    expect(short(cookOf(held(165, 0), { host: true }))).toEqual(['meets-figures', []]);
    expect(short(cookOf(held(165, 0), { host: true, accuracyF: 1 }))).toEqual(['not-proven', ['host.below']]);
  });

  it('takes the worst of several probes', () => {
    const logs = [log(held(160, 0)), { ...log(held(140, 10)), probe: 'end' }];
    expect(short(cookOf([], { logs }))).toEqual(['not-met', ['dwell.short']]);
    expect(judge(cookOf([], { logs })).probes.map(({ answer }) => answer)).toEqual(['meets-figures', 'not-met']); // prettier-ignore
  });

  it('refuses no log, a probe twice, a negative accuracy or gap, an oven off before on', () => {
    const throws = (change: Partial<CookCheck>, code: string) =>
      expect(() => judge(cookOf(held(160, 0), change))).toThrow(expect.objectContaining({ code }));
    throws({ logs: [] }, 'log.none');
    throws({ logs: [log([]), log([])] }, 'id.duplicate');
    throws({ accuracyF: -1 }, 'share.out-of-range');
    throws({ longestGapMinutes: 0 }, 'gap.not-positive');
    throws({ cook: { from: 2, to: 1 } }, 'cook.reversed');
    throws({ humidity: { kind: 'steam', minutes: -1 }, cook: { from: 1, to: 2 } }, 'minutes.negative');
  });

  it('is not proven by an empty log', () => expect(short(cookOf([]))).toEqual(['not-proven', ['log.empty']]));
});
