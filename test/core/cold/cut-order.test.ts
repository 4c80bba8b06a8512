import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutOrder, type AnimalToCut, type CutRule } from '../../../src/core/cold/cut-order.ts';

const rule: CutRule = Object.freeze({ readyDays: 4, limitDays: 7, cutWhileHeld: false });

function animal(id: number, days: number, more: Partial<AnimalToCut> = {}): AnimalToCut {
  return Object.freeze({ id, days, promisedInDays: null, grams: 50_000, held: false, ...more });
}

/** The same rule told slowly: take out, again and again, the one that no other goes before. */
function goesBefore(a: AnimalToCut, b: AnimalToCut): boolean {
  const over = (one: AnimalToCut) => one.days > rule.limitDays;
  const promised = (one: AnimalToCut) => (one.promisedInDays ?? Infinity) <= 3;
  if (over(a) !== over(b)) return over(a);
  if (!over(a) && promised(a) !== promised(b)) return promised(a);
  if (!over(a) && promised(a) && a.promisedInDays !== b.promisedInDays)
    return (a.promisedInDays ?? 0) < (b.promisedInDays ?? 0);
  // Late before ready before fresh is nothing but longest hung first.
  if (a.days !== b.days) return a.days > b.days;
  const [grams, other] = [a.grams ?? Infinity, b.grams ?? Infinity];
  return grams === other ? a.id < b.id : grams < other;
}

const anyAnimal = fc.record({
  days: fc.nat(12),
  promisedInDays: fc.option(fc.integer({ min: -3, max: 10 })),
  grams: fc.option(fc.integer({ min: 1, max: 4 })),
  held: fc.boolean(),
});
const anyHerd = fc
  .array(anyAnimal, { maxLength: 12 })
  .map((herd) => Object.freeze(herd.map((one, id) => Object.freeze({ ...one, id: id + 1 }))));

describe('cutOrder', () => {
  it('puts animals over the limit first, then promised, late, ready and the rest', () => {
    const herd = [
      animal(1, 2),
      animal(2, 5, { grams: 80_000 }),
      animal(3, 5, { grams: 30_000 }),
      animal(4, 6),
      animal(5, 1, { promisedInDays: 3 }),
      animal(6, 2, { promisedInDays: 1 }),
      animal(7, 8),
      animal(8, 11),
      animal(9, 3, { promisedInDays: 4 }),
      animal(10, 9, { held: true }),
    ];
    expect(cutOrder(herd, rule)).toEqual([
      { id: 8, why: 'over-limit' },
      { id: 7, why: 'over-limit' },
      { id: 6, why: 'promised' },
      { id: 5, why: 'promised' },
      { id: 4, why: 'due' },
      { id: 3, why: 'light' },
      { id: 2, why: 'ready' },
      { id: 9, why: 'oldest' },
      { id: 1, why: 'oldest' },
    ]);
    expect(cutOrder(herd, { ...rule, cutWhileHeld: true }).map(({ id }) => id)).toEqual([
      8, 10, 7, 6, 5, 4, 3, 2, 9, 1,
    ]);
  });

  it('puts an overdue promise before one for tomorrow, and unweighed animals last at equal age', () => {
    const promised = [animal(1, 5, { promisedInDays: 1 }), animal(2, 0, { promisedInDays: -2 })];
    expect(cutOrder(promised, rule).map(({ id }) => id)).toEqual([2, 1]);
    const weighed = [animal(1, 5, { grams: null }), animal(2, 5), animal(3, 5, { grams: null })];
    expect(cutOrder(weighed, rule)).toEqual([
      { id: 2, why: 'light' },
      { id: 1, why: 'ready' },
      { id: 3, why: 'ready' },
    ]);
  });

  it('is total, does not depend on the order of the list and agrees with a slow reference', () => {
    fc.assert(
      fc.property(anyHerd, fc.infiniteStream(fc.nat()), (herd, keys) => {
        const turns = cutOrder(herd, rule);
        const free = herd.filter(({ held }) => !held);
        expect(turns.map(({ id }) => id).sort((a, b) => a - b)).toEqual(free.map(({ id }) => id));
        const shuffled = herd.map((one) => ({ one, key: keys.next().value ?? 0 }));
        shuffled.sort((a, b) => a.key - b.key);
        expect(cutOrder(shuffled.map(({ one }) => one), rule)).toEqual(turns); // prettier-ignore
        const left = [...free];
        const slow: number[] = [];
        while (left.length > 0) {
          const first = left.findIndex((a) => left.every((b) => a === b || goesBefore(a, b)));
          slow.push(...left.splice(first, 1).map(({ id }) => id));
        }
        expect(turns.map(({ id }) => id)).toEqual(slow);
      }),
      { numRuns: 1500 },
    );
  });

  it('never changes the order of the others when an animal is added', () => {
    fc.assert(
      fc.property(anyHerd, anyAnimal, (herd, one) => {
        const more = [...herd, { ...one, id: 99 }];
        const ids = (list: readonly AnimalToCut[]) => cutOrder(list, rule).map(({ id }) => id);
        expect(ids(more).filter((id) => id !== 99)).toEqual(ids(herd));
      }),
      { numRuns: 500 },
    );
  });

  it('throws a typed error for wrong input', () => {
    const code = (herd: AnimalToCut[], shop = rule) => {
      try {
        cutOrder(herd, shop);
      } catch (error) {
        return (error as { code: string }).code;
      }
      return 'none';
    };
    expect(code([animal(1, -1)])).toBe('hanging.days');
    expect(code([animal(1, 1)], { ...rule, limitDays: 1 })).toBe('hanging.limits');
    expect(code([animal(1, 1, { promisedInDays: Number.NaN })])).toBe('number.not-finite');
    expect(code([animal(1, 1, { grams: 0 })])).toBe('grams.not-positive');
    expect(code([animal(1, 1), animal(1, 2)])).toBe('id.duplicate');
  });
});
