/** The time between two temperatures on the way up, between bounds: what it took at most, and what it took at least. */
import type { TimeTable } from './figures.ts';
import { MINUTE, type HeatPoint } from './log.ts';

export interface ComeUp {
  /** At most, min; null where the log begins above the first temperature. */
  readonly mostMinutes: number | null;
  readonly leastMinutes: number;
  /** Where counting begins, ms UTC. */
  readonly from: number;
}

/**
 * @param until when the time at temperature was complete: a fall back below the range before then counts too
 */
export function comeUpTime(
  points: readonly HeatPoint[],
  { fromF, toF }: TimeTable['comeUp'],
  accuracyF: number,
  until: number,
): ComeUp {
  const firstWarm = points.findIndex(({ f }) => f + accuracyF > fromF);
  const start = Math.max(0, firstWarm - 1);
  let [most, least] = [0, 0];
  for (let i = start + 1; i < points.length; i++) {
    const [before, after] = [points[i - 1] as HeatPoint, points[i] as HeatPoint];
    if (after.at > until) break;
    // Whole milliseconds, so that six hours of seconds are six hours.
    const span = after.at - before.at;
    const [cold, hot] = before.f < after.f ? [before.f, after.f] : [after.f, before.f];
    if (cold - accuracyF < toF && hot + accuracyF > fromF) most += span;
    if (hot + accuracyF <= toF && cold - accuracyF >= fromF) least += span;
  }
  return {
    mostMinutes: firstWarm === 0 ? null : most / MINUTE,
    leastMinutes: least / MINUTE,
    from: points[start]?.at ?? until,
  };
}
