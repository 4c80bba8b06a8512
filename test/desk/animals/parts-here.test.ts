/** Parts of shared meat, donations and parts that were taken sum to what was packed, to the pound and to the package. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { gramsOf, partsOf, withoutDonated } from '../../../src/desk/animal/parts-here.ts';

const row = fc.record({
  product: fc.constantFrom('Steaks', 'Roasts', 'Ground'),
  count: fc.integer({ min: 1, max: 40 }),
  grams: fc.integer({ min: 200, max: 20_000 }),
});
const packed = fc
  .array(row, { minLength: 1, maxLength: 6 })
  .map((rows) => rows.map((one) => ({ ...one, batch: null, places: [] as string[] })));
const sharers = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 4 }).map((parts) =>
  parts.map((part, hunterId) => ({
    hunterId, name: '', phone: '', typed: '', basis: 'pieces' as const,
    share: part / parts.reduce((a, b) => a + b, 0),
  })),
); // prettier-ignore
const part = fc.double({ min: 0, max: 1, noNaN: true });
const countOf = (rows: readonly { count: number }[]) => rows.reduce((all, { count }) => all + count, 0);

it('sum to what is left, before and after a part is taken and more is given away', () => {
  fc.assert(
    fc.property(packed, sharers, part, part, (packages, all, early, late) => {
      const first = gramsOf(packages) * early;
      const before = partsOf(packages, all, [], first);
      const left = withoutDonated(packages, first);
      expect(gramsOf(before.flat())).toBeCloseTo(gramsOf(packages) - first, 4);
      expect(countOf(before.flat())).toBe(countOf(left));

      const mine = before[0] ?? [];
      const taken = [{ hunter_id: 0, rows: mine }];
      // The same again: nothing was given away in between.
      expect(partsOf(packages, all, taken, first)).toEqual(before);
      const waiting = gramsOf(before.slice(1).flat());
      const after = partsOf(packages, all, taken, first + waiting * late);
      expect(after[0]).toEqual(mine);
      const rest = after.slice(1).flat();
      expect(rest.every(({ count, grams }) => count > 0 && grams >= 0)).toBe(true);
      expect(gramsOf(rest)).toBeCloseTo(waiting * (1 - late), 4);
    }),
  );
});
