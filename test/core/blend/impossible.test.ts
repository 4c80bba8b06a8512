import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBlend, type BlendRequest, type InfeasibleBlend } from '../../../src/core/blend/blend.ts';
import { anyRequest, frozen } from './requests.ts';
import { runs } from '../../runs.ts';

const LONG = 300_000;
const elk = { id: 'elk', fat: 0.06, availableGrams: 10_000, costPerKg: 0, useAll: true };
const backFat = { id: 'back fat', fat: 0.8869, availableGrams: 5000, costPerKg: 300 };
const ownFat = { id: 'own fat', fat: 0.7089, availableGrams: 500, costPerKg: 0 };

async function refused(request: BlendRequest): Promise<InfeasibleBlend> {
  const answer = await planBlend(frozen(request));
  if (answer.kind !== 'impossible') throw new Error('a plan was found');
  return answer;
}

describe('an infeasible blend', () => {
  it('reports that own fat alone cannot reach 30 %, and how much is missing (common practice, no source)', async () => {
    const { why, nearest, reach, missing } = await refused({
      sources: [elk, ownFat],
      fat: { min: 0.3, max: 0.32 },
    });
    const highest = (600 + 354.45) / 10_500;
    expect(why).toMatchObject({ code: 'too-lean', because: 'amounts' });
    expect(reach?.highest).toBeCloseTo(highest, 9);
    expect(reach?.lowest).toBeCloseTo(0.06, 9);
    expect(nearest?.fat).toBeCloseTo(highest, 9);
    expect(nearest?.fatOff).toBeCloseTo(0.3 - highest, 9);
    expect(missing).toEqual([{ id: 'own fat', grams: expect.closeTo(2400 / 0.4089 - 500, 3) }]);
  });

  it('is feasible with the missing amount', async () => {
    const fat = { min: 0.3, max: 0.32 };
    const { missing } = await refused({ sources: [elk, ownFat], fat });
    const grams = ownFat.availableGrams + (missing[0]?.grams ?? 0) + 0.01;
    expect((await planBlend({ sources: [elk, { ...ownFat, availableGrams: grams }], fat })).kind).toBe(
      'plan',
    );
  });

  it.each<[string, BlendRequest, object]>([
    ['even the fattest source is too lean', { sources: [elk, { ...ownFat, fat: 0.2 }], fat: { min: 0.3, max: 0.4 } },
      { why: { code: 'too-lean', because: 'sources' }, missing: [] }],
    ['a share limit forbids enough fat', { sources: [elk, { ...backFat, maxShare: 0.05 }], fat: { min: 0.12, max: 0.13 } },
      { why: { code: 'too-lean', because: 'limits' }, missing: [] }],
    ['the trim is fatter than wanted', { sources: [{ ...elk, fat: 0.3 }, backFat], fat: { min: 0.1, max: 0.15 } },
      { why: { code: 'too-fat', because: 'sources', lowestFat: expect.closeTo(0.3, 9) } }],
    ['there is not enough for the batch', { sources: [{ ...elk, useAll: false }, backFat], batchGrams: 50_000, fat: { min: 0.12, max: 0.13 } },
      { why: { code: 'too-little', mostGrams: expect.closeTo(15_000, 6), missingGrams: expect.closeTo(35_000, 6) },
        nearest: { fatOff: 0, batchGrams: expect.closeTo(10_000 * (0.8869 - 0.06) / (0.8869 - 0.13), 3) } }],
    ['there is nothing at all', { sources: [{ ...backFat, availableGrams: 0 }], batchGrams: 500, fat: { min: 0, max: 1 } },
      { why: { code: 'too-little', mostGrams: 0, missingGrams: 500 }, nearest: null, reach: null }],
    ['the trim alone is more than the batch', { sources: [elk, backFat], batchGrams: 5000, fat: { min: 0.12, max: 0.13 } },
      { why: { code: 'too-much', leastGrams: expect.closeTo(10_000, 6), surplusGrams: expect.closeTo(5000, 6) } }],
    ['share limits contradict each other', { sources: [{ ...elk, minShare: 0.6 }, { ...backFat, minShare: 0.5 }], fat: { min: 0, max: 1 } },
      { why: { code: 'shares' }, nearest: null }],
    ['share limits leave room for no batch of that size', { sources: [{ ...elk, useAll: false, maxShare: 0.4 }, { ...backFat, maxShare: 0.4 }], batchGrams: 1000, fat: { min: 0, max: 1 } },
      { why: { code: 'shares' }, nearest: null }],
  ])('tells when %s', async (_, request, expected) => {
    expect(await refused(request)).toMatchObject(expected);
  }); // prettier-ignore

  it('gives the nearest whole step where steps miss the wanted fat, and never widens the range', async () => {
    const step = 45.359237; // a tenth of a pound
    const sources = [elk, { ...backFat, stepGrams: step }];
    const { why, nearest } = await refused({ sources, fat: { min: 0.125, max: 0.125 } });
    const off = (steps: number): number =>
      Math.abs((600 + steps * step * 0.8869) / (10_000 + steps * step) - 0.125);
    const best = Array.from({ length: 100 }, (_, i) => i).sort((a, b) => off(a) - off(b))[0] as number;
    expect(why).toEqual({ code: 'steps', proven: true });
    expect(nearest?.parts[1]?.grams).toBeCloseTo(best * step, 9);
    expect(nearest?.fatOff).toBeCloseTo(off(best), 9);
  });

  it(
    'always gives a reason that holds, a nearest batch that can be made, and a true reach',
    async () => {
      let cases = 0;
      const holds = async (request: BlendRequest): Promise<void> => {
        const answer = await planBlend(request);
        if (answer.kind === 'plan') return;
        cases++;
        const { why, nearest, reach } = answer;
        expect(['too-little', 'too-much', 'too-lean', 'too-fat', 'shares']).toContain(why.code);
        if (why.code === 'too-lean') expect(reach?.highest).toBeLessThan(request.fat.min);
        if (why.code === 'too-fat') expect(reach?.lowest).toBeGreaterThan(request.fat.max);
        if (!nearest) return;
        nearest.parts.forEach(({ grams, share }, i) => {
          const source = request.sources[i];
          expect(grams).toBeLessThanOrEqual(source?.availableGrams as number);
          expect(share).toBeLessThanOrEqual((source?.maxShare ?? 1) + 1e-9);
          if (source?.useAll) expect(grams).toBe(source.availableGrams);
        });
        if (why.code === 'too-lean' && nearest.fatOff > 0)
          expect(nearest.fat).toBeCloseTo(reach?.highest as number, 5);
        if (why.code === 'too-fat' && nearest.fatOff > 0)
          expect(nearest.fat).toBeCloseTo(reach?.lowest as number, 5);
      };
      await fc.assert(fc.asyncProperty(anyRequest, holds), { numRuns: runs(1000) });
      expect(cases).toBeGreaterThan(100);
    },
    LONG,
  );
});

describe('an invalid blend', () => {
  const good: BlendRequest = { sources: [elk, backFat], fat: { min: 0.1, max: 0.2 } };
  const withFirst = (wrong: object): BlendRequest => ({ ...good, sources: [{ ...elk, ...wrong }, backFat] });

  it.each<[string, BlendRequest, string, string]>([
    ['no sources', { ...good, sources: [] }, 'sources.empty', 'sources'],
    ['the same id twice', { ...good, sources: [elk, elk] }, 'id.duplicate', 'sources[1].id'],
    ['no id', withFirst({ id: '' }), 'id.empty', 'sources[0].id'],
    ['fat that is no number', withFirst({ fat: NaN }), 'number.not-finite', 'sources[0].fat'],
    ['fat in percent', withFirst({ fat: 6 }), 'share.out-of-range', 'sources[0].fat'],
    ['negative spread', withFirst({ fatSd: -0.1 }), 'share.out-of-range', 'sources[0].fatSd'],
    ['less than nothing on hand', withFirst({ availableGrams: -1 }), 'grams.negative', 'sources[0].availableGrams'],
    ['endless supply', withFirst({ availableGrams: Infinity }), 'number.not-finite', 'sources[0].availableGrams'],
    ['a cost that is no number', withFirst({ costPerKg: NaN }), 'number.not-finite', 'sources[0].costPerKg'],
    ['share limits crossed', withFirst({ minShare: 0.5, maxShare: 0.4 }), 'range.reversed', 'sources[0].minShare'],
    ['a step of nothing', withFirst({ stepGrams: 0 }), 'step.not-positive', 'sources[0].stepGrams'],
    ['fat limits crossed', { ...good, fat: { min: 0.2, max: 0.1 } }, 'range.reversed', 'fat.min'],
    ['fat limits above one', { ...good, fat: { min: 0.2, max: 1.1 } }, 'share.out-of-range', 'fat.max'],
    ['a batch of nothing', { ...good, batchGrams: 0 }, 'grams.not-positive', 'batchGrams'],
    ['a batch that is no number', { ...good, batchGrams: NaN }, 'number.not-finite', 'batchGrams'],
    ['neither size nor trim to use up', { ...good, sources: [backFat] }, 'blend.no-size', 'batchGrams'],
    ['a promise that is a guess', { ...good, sureBelow: { fat: 0.2, probability: 0.4 } }, 'probability.out-of-range', 'sureBelow.probability'],
    ['a promise of certainty', { ...good, sureBelow: { fat: 0.2, probability: 1 } }, 'probability.out-of-range', 'sureBelow.probability'],
  ])('is refused for %s', async (_, request, code, field) => {
    await expect(planBlend(frozen(request))).rejects.toMatchObject({ name: 'ValidationError', code, field });
  }); // prettier-ignore

  it('is refused above twenty thousand sources', async () => {
    const sources = Array.from({ length: 20_001 }, (_, i) => ({ ...elk, id: `${i}` }));
    await expect(planBlend({ ...good, sources })).rejects.toMatchObject({ code: 'sources.too-many' });
  });
});
