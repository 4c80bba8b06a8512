import { expect, it } from 'vitest';
import { growthAnHour, grows, MOST_AN_HOUR } from './growth.ts';
import type { Held } from './memory.ts';

/** Hours of which each adds the same, after two that add much: scripts are fetched and code is compiled. */
const hours = (count: number, added: Held): Held[] =>
  Array.from({ length: count }, (_, hour) => ({
    heapMb: 9 + Math.min(hour, 2) * 5 + hour * added.heapMb,
    nodes: 900 + Math.min(hour, 2) * 400 + hour * added.nodes,
    listeners: 100 + hour * added.listeners,
  }));
const NOTHING: Held = { heapMb: 0, nodes: 0, listeners: 0 };

it('takes the slope after the first two hours', () => {
  const added = growthAnHour(hours(7, { heapMb: 0.5, nodes: 40, listeners: 3 }));
  expect(added.heapMb).toBeCloseTo(0.5, 9);
  expect(added.nodes).toBeCloseTo(40, 9);
  expect(added.listeners).toBeCloseTo(3, 9);
});

it('is not misled by an hour that holds more for a while', () => {
  const held = hours(9, NOTHING);
  const more = held.map((one, hour) => (hour === 5 ? { ...one, heapMb: one.heapMb + 3 } : one));
  expect(growthAnHour(more).heapMb).toBeCloseTo(0, 9);
});

it.each(Object.keys(MOST_AN_HOUR) as (keyof Held)[])('says that a window grows by its %s', (of) => {
  expect(grows(hours(7, { ...NOTHING, [of]: MOST_AN_HOUR[of] * 0.9 }))).toBe(false);
  expect(grows(hours(7, { ...NOTHING, [of]: MOST_AN_HOUR[of] * 1.1 }))).toBe(true);
});

it('refuses to judge from too few hours', () => {
  expect(() => growthAnHour(hours(4, NOTHING))).toThrow(RangeError);
});
