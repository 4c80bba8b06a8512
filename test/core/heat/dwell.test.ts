import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dwells, type Dwell } from '../../../src/core/heat/dwell.ts';
import type { TimeRow } from '../../../src/core/heat/figures.ts';
import type { HeatPoint } from '../../../src/core/heat/log.ts';
import { MINUTE, TABLE } from './data.ts';

const RULE = { level: 'log65', leastF: null, accuracyF: 1, longestGapMinutes: 10 } as const;

/** Rises and falls a little from one reading to the next; now and then the logger stopped. */
const log = fc
  .array(fc.tuple(fc.integer({ min: -6, max: 6 }), fc.constantFrom(20, 60, 240, 900)), { minLength: 1, maxLength: 60 })
  .map((steps): HeatPoint[] => {
    let [at, f] = [0, 146];
    return steps.map(([step, seconds]) => ({ at: (at += seconds * 1000), f: (f += step) }));
  }); // prettier-ignore

/** The same in the plainest way: every stretch of the log by itself. */
function slowly(points: readonly HeatPoint[], row: TimeRow): Omit<Dwell, 'row'> {
  const need = row.log65 * 1000;
  let [seconds, mostSeconds] = [0, 0];
  let metAt: number | null = null;
  for (let from = 0; from < points.length; from++)
    for (let to = from; to < points.length; to++) {
      const stretch = points.slice(from, to + 1);
      const [first, last] = [stretch[0]!.at, stretch.at(-1)!.at];
      const gap = stretch.some(({ at }, i) => i > 0 && at - stretch[i - 1]!.at > 10 * MINUTE);
      if (!gap && stretch.every(({ f }) => f - 1 >= row.f)) {
        seconds = Math.max(seconds, (last - first) / 1000);
        if (last - first >= need && (metAt === null || last < metAt)) metAt = last;
      }
      // A surely cold reading ends a stretch, which may have been hot right up to it.
      const hot = stretch.map(({ f }) => f + 1 >= row.f);
      if (hot.some(Boolean) && hot.slice(1, -1).every(Boolean)) mostSeconds = Math.max(mostSeconds, (last - first) / 1000);
    }
  if (need === 0 && mostSeconds === 0 && points.some(({ f }) => f + 1 >= row.f)) mostSeconds = Number.EPSILON;
  return { needSeconds: row.log65, seconds, mostSeconds, metAt };
} // prettier-ignore

describe('dwells at all rows of the table', () => {
  it('are those that a look at every stretch of the log finds', () => {
    fc.assert(
      fc.property(log, (points) => {
        const expected = TABLE.rows.map((row) => ({ row, ...slowly(points, row) }));
        expect(dwells(points, { ...RULE, rows: TABLE.rows })).toEqual(expected);
      }),
      { numRuns: 60 },
    );
  });

  it('are the coldest first in any order of the table', () => {
    const points = [100, 146, 150, 158].map((f, i) => ({ at: i * MINUTE, f }));
    const rows = TABLE.rows.toReversed();
    expect(dwells(points, { ...RULE, rows })).toEqual(dwells(points, { ...RULE, rows: TABLE.rows }));
  });
});
