import fc from 'fast-check';
import { Matrix, inverse } from 'ml-matrix';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  fatTestInnovation,
  updateFatEstimates,
  type CorrelatedFatEstimate,
} from '../../../src/core/fat/fat.ts';
import { frozen } from '../blend/requests.ts';

const estimates: CorrelatedFatEstimate[] = frozen([
  { id: 'elk', mean: 0.06, sd: 0.03 },
  { id: 'back fat', mean: 0.88, sd: 0.02 },
  { id: 'deer', mean: 0.0242, sd: 0.015 },
]);
const test = frozen({
  parts: [
    { id: 'elk', grams: 9000 },
    { id: 'back fat', grams: 1000 },
  ],
  measuredFat: 0.16,
  measuredSd: 0.01,
});

/** The same update by adding information (inverse covariances), which shares no formula with the tested one. */
function byInformation(prior: readonly CorrelatedFatEstimate[], shares: readonly number[], fat: number, sd: number) {
  const P = new Matrix(prior.map((a) => prior.map((b) => (a === b ? a.sd ** 2 : (a.covariance?.[b.id] ?? 0)))));
  const h = Matrix.columnVector([...shares]);
  const information = inverse(P).add(h.mmul(h.transpose()).div(sd ** 2));
  const covariance = inverse(information);
  const means = covariance.mmul(
    inverse(P).mmul(Matrix.columnVector(prior.map(({ mean }) => mean))).add(h.clone().mul(fat / sd ** 2)),
  );
  return { means: means.to1DArray(), covariance: covariance.to2DArray() };
} // prettier-ignore

describe('updateFatEstimates', () => {
  it('moves half way for an estimate as uncertain as the test', () => {
    const found = updateFatEstimates([{ id: 'elk', mean: 0.06, sd: 0.03 }], {
      parts: [{ id: 'elk', grams: 5000 }],
      measuredFat: 0.09,
      measuredSd: 0.03,
    });
    expect(found).toEqual([
      {
        id: 'elk',
        mean: expect.closeTo(0.075, 12),
        sd: expect.closeTo(0.03 / Math.SQRT2, 12),
        covariance: {},
      },
    ]);
  });

  it('divides the innovation by spread and share, and leaves other sources unchanged', () => {
    const [elk, backFat, deer] = updateFatEstimates(estimates, test);
    const moved = [(elk?.mean as number) - 0.06, (backFat?.mean as number) - 0.88];
    expect((moved[0] as number) / (moved[1] as number)).toBeCloseTo((0.9 * 0.03 ** 2) / (0.1 * 0.02 ** 2), 9);
    expect(deer).toMatchObject({ mean: 0.0242, sd: 0.015 });
    expect(elk?.covariance?.['back fat']).toBeLessThan(0);
    expect(elk?.covariance?.['back fat']).toBe(backFat?.covariance?.elk);
  });

  it('agrees with adding information, twice in a row, with covariances', () => {
    const once = updateFatEstimates(estimates, test);
    const twice = updateFatEstimates(frozen(once), {
      parts: [{ id: 'deer', grams: 600 }, { id: 'back fat', grams: 400 }],
      measuredFat: 0.4,
      measuredSd: 0.02,
    }); // prettier-ignore
    const first = byInformation(estimates, [0.9, 0.1, 0], 0.16, 0.01);
    const second = byInformation(once, [0, 0.4, 0.6], 0.4, 0.02);
    once.forEach((one, i) => expect(one.mean).toBeCloseTo(first.means[i] as number, 10));
    twice.forEach((one, i) => {
      expect(one.mean).toBeCloseTo(second.means[i] as number, 10);
      twice.forEach((other, j) =>
        expect(i === j ? one.sd ** 2 : one.covariance?.[other.id]).toBeCloseTo(
          second.covariance[i]?.[j] as number,
          12,
        ),
      );
    });
    expect(twice[0]?.mean).not.toBe(once[0]?.mean); // elk learns through the back fat it was tested with
  });

  it('never increases a variance, never makes one negative, and does not depend on the order of tests', () => {
    const share = fc.integer({ min: 1, max: 1000 });
    const oneTest = fc.record({
      grams: fc.tuple(share, share, share),
      measuredFat: fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000),
      measuredSd: fc.integer({ min: 1, max: 100 }).map((n) => n / 1000),
    });
    const asTest = ({ grams, ...rest }: { grams: number[]; measuredFat: number; measuredSd: number }) => ({
      ...rest,
      parts: grams.map((g, i) => ({ id: estimates[i]?.id as string, grams: g })),
    });
    fc.assert(
      fc.property(oneTest, oneTest, (a, b) => {
        const afterA = updateFatEstimates(estimates, asTest(a));
        afterA.forEach((one, i) =>
          expect(one.sd).toBeLessThanOrEqual((estimates[i] as CorrelatedFatEstimate).sd),
        );
        const ab = updateFatEstimates(afterA, asTest(b));
        const ba = updateFatEstimates(updateFatEstimates(estimates, asTest(b)), asTest(a));
        ab.forEach((one, i) => {
          expect(one.sd).toBeGreaterThanOrEqual(0);
          expect(one.mean).toBeCloseTo(ba[i]?.mean as number, 9);
          expect(one.sd).toBeCloseTo(ba[i]?.sd as number, 9);
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('does not clamp the mean of an impossible test, and reports a large innovation', () => {
    const odd = { ...test, parts: [{ id: 'elk', grams: 1 }], measuredFat: 0, measuredSd: 0.001 };
    const confirmed = [{ id: 'elk', mean: 0.02, sd: 0.03 }, { id: 'lean', mean: 0.01, sd: 0.02, covariance: { elk: 0.0006 } }]; // prettier-ignore
    expect(updateFatEstimates(confirmed, odd)[1]?.mean).toBeLessThan(0);
    const { innovation, variance } = fatTestInnovation(estimates, { ...test, measuredFat: 0.4 });
    expect(innovation / Math.sqrt(variance)).toBeGreaterThan(3);
    const asPredicted = { ...test, measuredFat: 0.9 * 0.06 + 0.088 };
    expect(fatTestInnovation(estimates, asPredicted).innovation).toBeCloseTo(0, 9);
  });

  it('counts both weights of a source listed twice', () => {
    const parts = [{ id: 'elk', grams: 4000 }, { id: 'elk', grams: 5000 }, { id: 'back fat', grams: 1000 }]; // prettier-ignore
    expect(updateFatEstimates(estimates, { ...test, parts })).toEqual(updateFatEstimates(estimates, test));
  });

  it.each<[string, CorrelatedFatEstimate[], object, string]>([
    ['no estimates', [], {}, 'estimates.empty'],
    ['no parts', estimates, { parts: [] }, 'parts.empty'],
    ['an empty batch', estimates, { parts: [{ id: 'elk', grams: 0 }] }, 'grams.not-positive'],
    ['an unknown source', estimates, { parts: [{ id: 'moose', grams: 1 }] }, 'fat.unknown-source'],
    ['a negative weight', estimates, { parts: [{ id: 'elk', grams: -1 }] }, 'grams.negative'],
    ['a weight that is no number', estimates, { parts: [{ id: 'elk', grams: NaN }] }, 'number.not-finite'],
    ['fat in percent', estimates, { measuredFat: 12 }, 'share.out-of-range'],
    ['an endless spread', estimates, { measuredSd: Infinity }, 'number.not-finite'],
    ['the same belief twice', [estimates[0] as CorrelatedFatEstimate, estimates[0] as CorrelatedFatEstimate], {}, 'id.duplicate'],
    ['certainty on both sides', [{ id: 'elk', mean: 0.1, sd: 0 }], { parts: [{ id: 'elk', grams: 1 }], measuredSd: 0 }, 'fat.certain'],
  ])('refuses %s', (_, prior, wrong, code) => {
    expect(() => updateFatEstimates(prior, { ...test, ...wrong })).toThrow(expect.objectContaining({ code }));
  }); // prettier-ignore
});

describe('resources/fats.json', () => {
  const fats = JSON.parse(readFileSync(new URL('../../../resources/fats.json', import.meta.url), 'utf8')) as {
    code: string;
    animal: string;
    fat: number;
    sd: number;
    source: string;
    grade: string;
    ndb: string | null;
  }[];

  it('contains only fats with a source, or marked as convention or assumption', () => {
    expect(new Set(fats.map(({ code }) => code)).size).toBe(fats.length);
    for (const { animal, fat, sd, source, grade, ndb } of fats) {
      expect(['pork', 'beef', 'own']).toContain(animal);
      expect(fat > 0 && fat <= 1 && sd > 0 && sd < 0.2).toBe(true);
      expect(source).toMatch(ndb ? new RegExp(`item ${ndb} "`) : /common practice, no source$/);
      if (ndb) expect(source).toContain('spread is our choice');
      expect(grade).toBe(ndb && animal !== 'own' ? 'official' : 'assumption');
    }
  });

  /** USDA National Nutrient Database for Standard Reference, release 26 (2013): total fat, g per 100 g. */
  it.each([['10004', 88.69], ['10006', 65.7], ['10005', 53.01], ['10105', 69.61], ['10109', 94.16], ['13335', 94], ['13019', 70.89]])(
    'gives NDB %s as %f g of fat in 100 g', (ndb, fat) => {
      expect(fats.find((one) => one.ndb === ndb)?.fat).toBeCloseTo(fat / 100, 12);
    }); // prettier-ignore
});
