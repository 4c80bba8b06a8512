/** Whether what a window holds grows from hour to hour. */
import type { Held } from './memory.ts';

/** The most that an hour may add: its own animals hang on the rail until somebody picks them up. */
export const MOST_AN_HOUR: Held = { heapMb: 0.2, nodes: 150, listeners: 20 };
/** In the first hours scripts are fetched and code is compiled. */
const WARM_HOURS = 2;

/**
 * What an hour adds: the slope of the least-squares line through the hours after the first two.
 * @throws RangeError for fewer than three such hours
 */
export function growthAnHour(held: readonly Held[]): Held {
  const later = held.slice(WARM_HOURS);
  if (later.length < 3) throw new RangeError(`${held.length} hours say nothing about growth`);
  const middle = (later.length - 1) / 2;
  const square = later.reduce((sum, _, i) => sum + (i - middle) ** 2, 0);
  const slope = (of: keyof Held): number =>
    later.reduce((sum, one, i) => sum + (i - middle) * one[of], 0) / square;
  return { heapMb: slope('heapMb'), nodes: slope('nodes'), listeners: slope('listeners') };
}

export function grows(held: readonly Held[]): boolean {
  const added = growthAnHour(held);
  return (Object.keys(MOST_AN_HOUR) as (keyof Held)[]).some((of) => added[of] > MOST_AN_HOUR[of]);
}
