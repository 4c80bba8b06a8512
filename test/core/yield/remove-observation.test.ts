import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summarise, removeObservation, type YieldObservation } from '../../../src/core/yield/yield.ts';

const animal: fc.Arbitrary<YieldObservation> = fc
  .record({
    hanging: fc.double({ min: 20_000, max: 200_000, noNaN: true }),
    share: fc.double({ min: 0.3, max: 0.7, noNaN: true }),
    species: fc.constantFrom('elk', 'moose'),
    sex: fc.constantFrom('male' as const, 'female' as const),
  })
  .map(({ hanging, share, species, sex }) => ({
    hangingGrams: hanging,
    takeHomeGrams: hanging * share,
    parts: {},
    group: { species, sex, brought: 'skinned' as const },
  }));

describe('removeObservation', () => {
  it('removes an animal from the sums without a trace', () => {
    fc.assert(
      fc.property(fc.array(animal, { minLength: 1, maxLength: 12 }), fc.nat(), (animals, at) => {
        const index = at % animals.length;
        const [one] = animals.slice(index, index + 1);
        if (!one) return;
        const sums = summarise(animals);
        const left = removeObservation(sums, one);
        const rest = summarise(animals.filter((_, i) => i !== index));
        for (const [key, cell] of Object.entries(left)) {
          const same = rest[key]?.splits ?? {};
          expect(Object.keys(cell.splits).sort()).toEqual(Object.keys(same).sort());
          for (const [split, { n, sum, squares }] of Object.entries(cell.splits)) {
            const other = same[split as keyof typeof same];
            expect(n).toBe(other?.n);
            expect(sum).toBeCloseTo(other?.sum ?? NaN, 9);
            expect(squares).toBeCloseTo(other?.squares ?? NaN, 9);
          }
        }
        expect(summarise(animals)).toEqual(sums);
      }),
      { numRuns: 1000 },
    );
  });
});
