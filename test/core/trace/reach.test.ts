import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reachOf, type TracedBatch } from '../../../src/core/trace/reach.ts';

const at = (hour: number): string => `2026-11-12T${String(hour).padStart(2, '0')}:00:00.000Z`;
const batch = (id: number, animals: number[], [first, ground, last]: [number, number, number]): TracedBatch =>
  Object.freeze({
    id,
    animals: Object.freeze(animals),
    first: at(first),
    ground: at(ground),
    last: at(last),
  });

describe('what a positive animal reached', () => {
  it('is every batch that its meat was weighed into', () => {
    const batches = [batch(1, [1, 2, 3], [8, 8, 9]), batch(2, [4], [6, 6, 7])];
    expect(reachOf(2, batches, [])).toEqual(new Map([[1, { by: 'meat' }]]));
  });

  it('goes through a grinder that was not cleaned, and stops at a cleaning', () => {
    const batches = [batch(1, [1], [8, 8, 9]), batch(2, [2], [10, 10, 11]), batch(3, [3], [13, 13, 14])];
    expect([...reachOf(1, batches, [at(12)]).keys()]).toEqual([1, 2]);
    expect([...reachOf(1, batches, [at(9)]).keys()]).toEqual([1]);
    expect([...reachOf(1, batches, []).keys()]).toEqual([1, 2, 3]);
  });

  it('goes on from a batch that was at work across the cleaning', () => {
    const batches = [batch(1, [1], [8, 8, 9]), batch(2, [2], [10, 13, 14]), batch(3, [3], [15, 15, 16])];
    expect(reachOf(1, batches, [at(12)]).get(3)).toEqual({ by: 'grinder', from: 2 });
  });

  it('does not go on by an animal that was only reached', () => {
    const batches = [batch(1, [1, 2], [8, 8, 9]), batch(2, [2, 3], [13, 13, 14])];
    expect([...reachOf(1, batches, [at(12)]).keys()]).toEqual([1]);
  });

  it('agrees with every pair tried until nothing is added', () => {
    const moments = fc
      .tuple(fc.nat(23), fc.nat(23), fc.nat(23))
      .map((hours) => [...hours].sort((a, b) => a - b));
    const made = fc
      .array(fc.tuple(fc.uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 3 }), moments), {
        maxLength: 9,
      })
      .map((all) => all.map(([animals, [a = 0, b = 0, c = 0]], i) => batch(i + 1, animals, [a, b, c])));
    fc.assert(
      fc.property(made, fc.array(fc.nat(23).map(at), { maxLength: 4 }), (batches, cleanings) => {
        const found = reachOf(1, batches, cleanings);
        expect(new Set(found.keys())).toEqual(bySweeps(1, batches, cleanings));
        for (const how of found.values()) if (how.by === 'grinder') expect(found.has(how.from)).toBe(true);
      }),
    );
  });
});

/** The same by brute force: all pairs, again and again. */
function bySweeps(
  animal: number,
  batches: readonly TracedBatch[],
  cleanings: readonly string[],
): Set<number> {
  const reached = new Set(batches.filter(({ animals }) => animals.includes(animal)).map(({ id }) => id));
  for (let before = -1; before !== reached.size;) {
    before = reached.size;
    for (const from of batches)
      for (const to of batches)
        if (reached.has(from.id) && to.last > from.first)
          if (!cleanings.some((moment) => moment >= from.ground && moment <= to.first)) reached.add(to.id);
  }
  return reached;
}
