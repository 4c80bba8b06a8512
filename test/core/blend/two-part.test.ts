import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fatToAdd } from '../../../src/core/blend/blend.ts';
import { ValidationError } from '../../../src/core/values/validation-error.ts';

const weight = fc.double({ min: 1, max: 1e6, noNaN: true });
const share = fc.integer({ min: 0, max: 10_000 }).map((n) => n / 10_000);

describe('fatToAdd', () => {
  it('brings 6 % elk to 12.5 % with pork back fat (elk fat: common practice, no source; fat: USDA NDB 10004)', () => {
    const answer = fatToAdd(
      Object.freeze({ leanGrams: 10_000, leanFat: 0.06, fatFat: 0.8869, targetFat: 0.125 }),
    );
    expect(answer).toEqual({ kind: 'add', grams: (10_000 * 0.065) / 0.7619, batchGrams: expect.anything() });
  });

  it('adds nothing where the trim has the target already', () => {
    const blend = { leanGrams: 1, leanFat: 0.15, fatFat: 0.9 };
    expect(fatToAdd({ ...blend, targetFat: 0.15 })).toEqual({ kind: 'lean enough', fat: 0.15 });
    expect(fatToAdd({ ...blend, targetFat: 0.1 })).toEqual({ kind: 'lean enough', fat: 0.15 });
  });

  it('reports a source that cannot reach the target', () => {
    const blend = { leanGrams: 1, leanFat: 0.02, fatFat: 0.5 };
    expect(fatToAdd({ ...blend, targetFat: 0.6 })).toMatchObject({ reason: 'fat-too-lean', highestFat: 0.5 });
    expect(fatToAdd({ ...blend, targetFat: 0.5 })).toMatchObject({ reason: 'needs-pure-fat' });
    expect(fatToAdd({ ...blend, leanFat: 0.2, fatFat: 0.1, targetFat: 0.3 })).toMatchObject({
      kind: 'out of reach',
      highestFat: 0.2,
    });
  });

  it('conserves fat, and scales with the trim', () => {
    fc.assert(
      fc.property(weight, share, share, share, (leanGrams, leanFat, fatFat, targetFat) => {
        const answer = fatToAdd({ leanGrams, leanFat, fatFat, targetFat });
        if (answer.kind !== 'add') {
          expect(targetFat <= leanFat || targetFat >= fatFat).toBe(true);
          return;
        }
        const fatIn = leanGrams * leanFat + answer.grams * fatFat;
        expect(Math.abs(fatIn - answer.batchGrams * targetFat)).toBeLessThanOrEqual(1e-9 * answer.batchGrams);
        expect(answer.batchGrams).toBe(leanGrams + answer.grams);
        const twice = fatToAdd({ leanGrams: 2 * leanGrams, leanFat, fatFat, targetFat });
        expect(twice).toEqual({ kind: 'add', grams: 2 * answer.grams, batchGrams: 2 * answer.batchGrams });
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    [{ leanGrams: NaN }, 'number.not-finite', 'leanGrams'],
    [{ leanGrams: Infinity }, 'number.not-finite', 'leanGrams'],
    [{ leanGrams: 0 }, 'grams.not-positive', 'leanGrams'],
    [{ leanGrams: -1 }, 'grams.not-positive', 'leanGrams'],
    [{ leanFat: 6 }, 'share.out-of-range', 'leanFat'],
    [{ fatFat: -0.1 }, 'share.out-of-range', 'fatFat'],
    [{ targetFat: NaN }, 'number.not-finite', 'targetFat'],
  ])('refuses %o', (wrong, code, field) => {
    const blend = { leanGrams: 1, leanFat: 0.02, fatFat: 0.9, targetFat: 0.1, ...wrong };
    expect(() => fatToAdd(blend)).toThrow(ValidationError);
    expect(() => fatToAdd(blend)).toThrow(expect.objectContaining({ code, field }));
  });
});
