/**
 * Time at temperature. Between two readings the product counts as cold as the colder of them and nothing is credited over a gap; to find
 * that a figure was certainly not met, it counts as hot as the hotter one.
 */
import type { Level, TimeRow } from './figures.ts';
import { MINUTE, type HeatPoint } from './log.ts';

export interface Dwell {
  readonly row: TimeRow;
  readonly needSeconds: number;
  /** The longest unbroken time that is proven. */
  readonly seconds: number;
  /** The longest that the readings leave possible. */
  readonly mostSeconds: number;
  /** When the needed time was complete, ms UTC, or null. */
  readonly metAt: number | null;
}

export interface DwellRule {
  readonly rows: readonly TimeRow[];
  readonly level: Level;
  /** Rows below it do not count; null for all. */
  readonly leastF: number | null;
  /** The thermometer may be off by so much either way. */
  readonly accuracyF: number;
  readonly longestGapMinutes: number;
}

/** The dwell at each row of the table that counts, coldest first. */
export function dwells(points: readonly HeatPoint[], rule: DwellRule): Dwell[] {
  const { rows, level, leastF, accuracyF } = rule;
  const counting = rows.filter(({ f }) => leastF === null || f >= leastF).sort((a, b) => a.f - b.f);
  // What no reading near it can have reached at one row cannot have reached a hotter one.
  let [from, to] = [0, points.length];
  const isBelow = (i: number, { f }: TimeRow): boolean => (points[i]?.f ?? 0) + accuracyF < f;
  return counting.map((row) => {
    while (from < to && isBelow(from, row)) from++;
    while (from < to && isBelow(to - 1, row)) to--;
    if (from === to) return neverAt(row, row[level]);
    // With a reading to either side: a stretch with one hot end counts.
    return dwellAt(points.slice(Math.max(0, from - 1), to + 1), row, row[level], rule);
  });
}

/** Of a row that no reading can have reached. */
const neverAt = (row: TimeRow, needSeconds: number): Dwell => ({
  row,
  needSeconds,
  seconds: 0,
  mostSeconds: 0,
  metAt: null,
});

function dwellAt(
  points: readonly HeatPoint[],
  row: TimeRow,
  needSeconds: number,
  { accuracyF, longestGapMinutes }: DwellRule,
): Dwell {
  const gap = longestGapMinutes * MINUTE;
  let [seconds, mostSeconds] = [0, 0];
  let metAt: number | null = null;
  let since: number | null = null;
  let possiblySince: number | null = null;
  let before: HeatPoint | undefined;
  for (const point of points) {
    const { at, f } = point;
    const sure = f - accuracyF >= row.f;
    if (!sure || (before && at - before.at > gap)) since = null;
    if (sure) {
      since ??= at;
      seconds = Math.max(seconds, (at - since) / 1000);
      if (metAt === null && at - since >= needSeconds * 1000) metAt = at;
    }
    const possible = f + accuracyF >= row.f;
    const wasPossible = before !== undefined && before.f + accuracyF >= row.f;
    // A stretch with one hot end counts whole.
    if (possible || wasPossible) possiblySince ??= before?.at ?? at;
    if (possiblySince !== null) mostSeconds = Math.max(mostSeconds, (at - possiblySince) / 1000);
    if (!possible) possiblySince = null;
    before = point;
  }
  // At once: hot enough at any moment is enough.
  if (needSeconds === 0 && mostSeconds === 0) mostSeconds = Number.EPSILON;
  return { row, needSeconds, seconds, mostSeconds, metAt };
}

/** Whether the readings leave it possible that the row was met. */
export function mayBeMet({ needSeconds, mostSeconds }: Dwell): boolean {
  return needSeconds === 0 ? mostSeconds > 0 : mostSeconds >= needSeconds;
}
