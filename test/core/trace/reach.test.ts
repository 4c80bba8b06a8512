import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reachOf, type TracedBatch, type TracedCleaning } from '../../../src/core/trace/reach.ts';

const at = (hour: number): string => `2026-11-12T${String(hour).padStart(2, '0')}:00:00.000Z`;
const clean = (hour: number, batchId: number | null = null) => ({ at: at(hour), batch: batchId });
/** @param clear from when on all was ground; null while nobody knows */
const batch = (
  id: number,
  animals: number[],
  [first, ground, last]: [number, number, number],
  clear: number | null = ground,
): TracedBatch =>
  Object.freeze({
    id,
    animals: Object.freeze(animals),
    first: at(first),
    ground: at(ground),
    clear: clear === null ? null : at(clear),
    last: at(last),
  });

describe('what a positive animal reached', () => {
  it('is every batch that its meat was weighed into', () => {
    const batches = [batch(1, [1, 2, 3], [8, 8, 9]), batch(2, [4], [6, 6, 7])];
    expect(reachOf(2, batches, [])).toEqual(new Map([[1, { by: 'meat' }]]));
  });

  it('goes through a grinder that was not cleaned, and stops at a cleaning', () => {
    const batches = [batch(1, [1], [8, 8, 9]), batch(2, [2], [10, 10, 11]), batch(3, [3], [13, 13, 14])];
    expect([...reachOf(1, batches, [clean(12)]).keys()]).toEqual([1, 2]);
    expect([...reachOf(1, batches, [clean(9)]).keys()]).toEqual([1]);
    expect([...reachOf(1, batches, []).keys()]).toEqual([1, 2, 3]);
  });

  it('goes on from a batch that was at work across the cleaning', () => {
    const batches = [batch(1, [1], [8, 8, 9]), batch(2, [2], [10, 13, 14]), batch(3, [3], [15, 15, 16])];
    expect(reachOf(1, batches, [clean(12)]).get(3)).toEqual({ by: 'grinder', from: 2 });
  });

  it('does not go on by an animal that was only reached', () => {
    const batches = [batch(1, [1, 2], [8, 8, 9]), batch(2, [2, 3], [13, 13, 14])];
    expect([...reachOf(1, batches, [clean(12)]).keys()]).toEqual([1]);
  });

  it('is not stopped by a cleaning between the last weight in and the grinding', () => {
    // Weighed in at 8, not ground before the first package at 12.
    const batches = [batch(1, [1], [8, 8, 13], 12), batch(2, [2], [15, 15, 16])];
    expect([...reachOf(1, batches, [clean(10)]).keys()]).toEqual([1, 2]);
    expect([...reachOf(1, batches, [clean(10, 2)]).keys()]).toEqual([1, 2]);
    expect([...reachOf(1, batches, [clean(10, 1)]).keys()]).toEqual([1]);
    expect([...reachOf(1, batches, [clean(7, 1)]).keys()]).toEqual([1, 2]);
    expect([...reachOf(1, batches, [clean(10), clean(12)]).keys()]).toEqual([1]);
    const waiting = [batch(1, [1], [8, 8, 8], null), batch(2, [2], [15, 15, 16])];
    expect([...reachOf(1, waiting, [clean(10)]).keys()]).toEqual([1, 2]);
  });

  it('agrees with every pair tried until nothing is added', () => {
    const moments = fc
      .tuple(fc.nat(23), fc.nat(23), fc.nat(23), fc.nat(23))
      .map((hours) => [...hours].sort((a, b) => a - b));
    const animals = fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 3 });
    const made = fc
      .array(fc.tuple(animals, moments, fc.boolean()), { maxLength: 9 })
      .map((all) =>
        all.map(([ids, [a = 0, b = 0, c = 0, d = 0], known], i) =>
          batch(i + 1, ids, [a, b, d], known ? c : null),
        ),
      );
    const cleanings = fc.array(
      fc
        .tuple(fc.nat(23), fc.option(fc.integer({ min: 1, max: 9 })))
        .map(([hour, named]) => clean(hour, named)),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(made, cleanings, (batches, all) => {
        const found = reachOf(1, batches, all);
        expect(new Set(found.keys())).toEqual(bySweeps(1, batches, all));
        for (const how of found.values()) if (how.by === 'grinder') expect(found.has(how.from)).toBe(true);
      }),
    );
  });
});

/** The same by brute force: all pairs, again and again. */
function bySweeps(
  animal: number,
  batches: readonly TracedBatch[],
  cleanings: readonly TracedCleaning[],
): Set<number> {
  const reached = new Set(batches.filter(({ animals }) => animals.includes(animal)).map(({ id }) => id));
  for (let before = -1; before !== reached.size;) {
    before = reached.size;
    for (const from of batches)
      for (const to of batches)
        if (reached.has(from.id) && to.last > from.first)
          if (!cleanings.some((one) => stops(from, one) && one.at <= to.first)) reached.add(to.id);
  }
  return reached;
}

function stops({ id, ground, clear }: TracedBatch, cleaning: TracedCleaning): boolean {
  if (cleaning.at < ground) return false;
  if (cleaning.batch === id) return true;
  return clear === null ? false : cleaning.at >= clear;
}
