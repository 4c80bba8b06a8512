import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fatOfKind, withOneOfKind } from '../../../src/core/fat/kind.ts';
import { updateFatEstimates, type CorrelatedFatEstimate } from '../../../src/core/fat/fat.ts';
import { frozen } from '../blend/requests.ts';

const moose = { id: 'moose', mean: 0.01, sd: 0.04 };
const lot = { id: 'lot', mean: 0.6, sd: 0.05 };
const seven = { id: 'trim 7', kind: 'moose', ownSd: 0.03 };
const nine = { id: 'trim 9', kind: 'moose', ownSd: 0.03 };

describe('fatOfKind', () => {
  it('divides a spread so that the variances of both levels add up to it', () => {
    const found = fatOfKind(frozen({ mean: 0.03, sd: 0.02 }));
    expect(found.mean).toEqual({ mean: 0.03, sd: expect.closeTo(0.02 * Math.sqrt(0.75), 12) });
    expect(found.ownSd).toBeCloseTo(0.01, 12);
    expect(Math.hypot(found.mean.sd, found.ownSd)).toBeCloseTo(0.02, 12);
  });
});

describe('withOneOfKind', () => {
  it('adds a source that shares the mean of its kind', () => {
    const one = withOneOfKind(frozen([moose, lot]), seven);
    expect(one).toEqual([moose, lot, { id: 'trim 7', mean: 0.01, sd: 0.05, covariance: { moose: expect.closeTo(0.0016, 12), lot: 0 } }]); // prettier-ignore
    const two = withOneOfKind(frozen(one), nine);
    expect(two[3]?.covariance).toMatchObject({ moose: expect.closeTo(0.0016, 12), 'trim 7': expect.closeTo(0.0016, 12) }); // prettier-ignore
  });

  it('lets a test move the animal, less its kind and the next of it, and no other', () => {
    const before = withOneOfKind(withOneOfKind([moose, lot, { id: 'elk', mean: 0.02, sd: 0.03 }], seven), nine); // prettier-ignore
    const after = updateFatEstimates(frozen(before), {
      parts: [{ id: 'trim 7', grams: 900 }],
      measuredFat: 0.06,
      measuredSd: 0.01,
    });
    // One source: S = 0.05² + 0.01² = 0.0026, surprise 0.05; the animal takes 25/26 of it, its kind and the next 16/26.
    const by = Object.fromEntries(after.map((belief) => [belief.id, belief]));
    expect(by['trim 7']?.mean).toBeCloseTo(0.01 + (0.05 * 25) / 26, 12);
    expect(by.moose?.mean).toBeCloseTo(0.01 + (0.05 * 16) / 26, 12);
    expect(by['trim 9']?.mean).toBeCloseTo(0.01 + (0.05 * 16) / 26, 12);
    expect(by.moose?.sd).toBeCloseTo(Math.sqrt(0.0016 - 0.0016 ** 2 / 0.0026), 12);
    expect(by['trim 9']?.sd).toBeCloseTo(Math.sqrt(0.0025 - 0.0016 ** 2 / 0.0026), 12);
    expect(by.elk).toMatchObject({ mean: 0.02, sd: 0.03 });
    expect(by.lot).toMatchObject({ mean: 0.6, sd: 0.05 });
  });

  /**
   * The same world told otherwise: the kind's mean and each animal's deviation (0 ± ownSd) listed as two sources of the
   * same grams. The shares then count trim twice, so the test is scaled by all grams over all grams listed.
   */
  it('equals listing mean and deviation as two sources', () => {
    const grams = fc.integer({ min: 1, max: 1000 });
    const oneTest = fc.record({
      seven: grams,
      nine: grams,
      lot: grams,
      fat: fc.integer({ min: 0, max: 700 }),
    });
    const apart: CorrelatedFatEstimate[] = frozen([moose, lot, { id: 'own 7', mean: 0, sd: 0.03 }, { id: 'own 9', mean: 0, sd: 0.03 }]); // prettier-ignore
    fc.assert(
      fc.property(fc.array(oneTest, { minLength: 1, maxLength: 4 }), (tests) => {
        let together = withOneOfKind(withOneOfKind([moose, lot], seven), nine);
        let listed = apart;
        for (const test of tests) {
          const trim = test.seven + test.nine;
          const scale = (trim + test.lot) / (2 * trim + test.lot);
          const shared = { measuredFat: test.fat / 1000, measuredSd: 0.01 };
          together = updateFatEstimates(together, {
            ...shared,
            parts: [{ id: 'trim 7', grams: test.seven }, { id: 'trim 9', grams: test.nine }, { id: 'lot', grams: test.lot }],
          }); // prettier-ignore
          listed = updateFatEstimates(listed, {
            measuredFat: shared.measuredFat * scale,
            measuredSd: shared.measuredSd * scale,
            parts: [
              { id: 'own 7', grams: test.seven }, { id: 'own 9', grams: test.nine }, { id: 'lot', grams: test.lot },
              { id: 'moose', grams: trim },
            ],
          }); // prettier-ignore
        }
        const [mean, fat, own7, own9] = listed as [
          CorrelatedFatEstimate,
          CorrelatedFatEstimate,
          CorrelatedFatEstimate,
          CorrelatedFatEstimate,
        ];
        const animal = (own: CorrelatedFatEstimate) => ({
          mean: mean.mean + own.mean,
          sd: Math.sqrt(mean.sd ** 2 + own.sd ** 2 + 2 * (mean.covariance?.[own.id] ?? 0)),
        });
        [mean, fat, animal(own7), animal(own9)].forEach((expected, i) => {
          expect(together[i]?.mean).toBeCloseTo(expected.mean, 9);
          expect(together[i]?.sd).toBeCloseTo(expected.sd, 9);
        });
      }),
      { numRuns: 300 },
    );
  });

  it('keeps the information on the others when one is left out', () => {
    const first = { parts: [{ id: 'trim 7', grams: 800 }, { id: 'lot', grams: 200 }], measuredFat: 0.2, measuredSd: 0.01 }; // prettier-ignore
    const second = { parts: [{ id: 'trim 9', grams: 500 }, { id: 'lot', grams: 500 }], measuredFat: 0.3, measuredSd: 0.01 }; // prettier-ignore
    const tested = updateFatEstimates(withOneOfKind([moose, lot], seven), first);
    const kept = updateFatEstimates(withOneOfKind(tested, nine), second);
    const without = updateFatEstimates(
      withOneOfKind(
        tested.filter(({ id }) => id !== 'trim 7'),
        nine,
      ),
      second,
    );
    for (const one of without) {
      const same = kept.find(({ id }) => id === one.id);
      expect(one.mean).toBeCloseTo(same?.mean as number, 12);
      expect(one.sd).toBeCloseTo(same?.sd as number, 12);
    }
    expect(without).toHaveLength(3);
  });

  it.each<[string, CorrelatedFatEstimate[], object, string]>([
    ['a kind nothing is believed of', [lot], {}, 'fat.unknown-source'],
    ['a source that is there already', [moose, { id: 'trim 7', mean: 0, sd: 0.1 }], {}, 'id.duplicate'],
    ['a negative spread', [moose], { ownSd: -0.1 }, 'share.out-of-range'],
    ['a spread that is no number', [moose], { ownSd: NaN }, 'number.not-finite'],
  ])('refuses %s', (_, beliefs, wrong, code) => {
    expect(() => withOneOfKind(beliefs, { ...seven, ...wrong })).toThrow(expect.objectContaining({ code }));
  });
});
