/**
 * What a game processor makes of the grind: burger at 10 to 15 %, patties of 6 to 8 oz. Common practice, no source, so these
 * are worked examples and no outside checks; fats of the USDA's database (SR 26), answers by hand.
 */
import { describe, expect, it } from 'vitest';
import { fatToAdd, planBlend, type BlendPlan, type BlendRequest } from '../../../src/core/blend/blend.ts';
import { costOf } from '../../../src/core/pricing/costing.ts';
import { fromGrams, toGrams } from '../../../src/core/values/units.ts';

const elk = Object.freeze({
  id: 'elk',
  fat: 0.06,
  availableGrams: toGrams(100, 'lb'),
  costPerKg: 0,
  useAll: true,
});
const backFat = Object.freeze({
  id: 'back fat',
  fat: 0.8869,
  availableGrams: toGrams(60, 'lb'),
  costPerKg: 300,
});
const ownFat = Object.freeze({ id: 'own fat', fat: 0.7089, availableGrams: toGrams(5, 'lb'), costPerKg: 0 });

async function plan(request: BlendRequest): Promise<BlendPlan> {
  const answer = await planBlend(request);
  if (answer.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}
const pounds = (grams: number | undefined): number => fromGrams(grams ?? NaN, 'lb');

describe('100 lb of elk at 6 %', () => {
  it.each([
    ['takes the least fat where fat costs money', 300, 0.1, 4 / 0.7869],
    ['takes the most where fat saves money', -300, 0.15, 9 / 0.7369],
  ])('to 10–15 %% %s', async (_, costPerKg, fat, lb) => {
    const made = await plan({ sources: [elk, { ...backFat, costPerKg }], fat: { min: 0.1, max: 0.15 } });
    expect(made.fat).toBeCloseTo(fat, 10);
    expect(pounds(made.parts[1]?.grams)).toBeCloseTo(lb, 8);
  });

  it('needs 8.53 lb of back fat for 12.5 %, by the square and by the planner', async () => {
    const square = fatToAdd({
      leanGrams: elk.availableGrams,
      leanFat: 0.06,
      fatFat: 0.8869,
      targetFat: 0.125,
    });
    expect(square.kind === 'add' && pounds(square.grams)).toBeCloseTo(6.5 / 0.7619, 10);
    const made = await plan({ sources: [elk, backFat], fat: { min: 0.125, max: 0.13 } });
    expect(pounds(made.parts[1]?.grams)).toBeCloseTo(6.5 / 0.7619, 8);
    // 108.53 lb × 16 oz = 1,736.5 oz
    expect([8, 6].map((ounces) => Math.floor(made.batchGrams / toGrams(ounces, 'oz')))).toEqual([217, 289]);
  });

  it('cannot reach 30 % with 5 lb of its own fat, and reports what is missing', async () => {
    const answer = await planBlend({ sources: [elk, ownFat], fat: { min: 0.3, max: 0.32 } });
    const reached = (6 + 0.05 * 70.89) / 105;
    expect(answer).toMatchObject({
      kind: 'impossible',
      why: { code: 'too-lean', because: 'amounts', highestFat: expect.closeTo(reached, 10) },
      nearest: { fat: expect.closeTo(reached, 10) },
    });
    const missing = answer.kind === 'impossible' ? answer.missing[0]?.grams : undefined;
    expect(pounds(missing)).toBeCloseTo(24 / 0.4089 - 5, 6);
  });

  it('cannot reach 30 % with a fat of 25 %, whatever the amount', () => {
    const answer = fatToAdd({ leanGrams: 100, leanFat: 0.06, fatFat: 0.25, targetFat: 0.3 });
    expect(answer).toMatchObject({ kind: 'out of reach', highestFat: 0.25 });
  });
});

it('sow and 40 % lean trim, both fatter than 28 %, cannot make 28 %', async () => {
  const plenty = { availableGrams: 1e6, costPerKg: 300 };
  const sources = [{ id: 'whole sow', fat: 0.31, ...plenty }, { id: '40 % lean trim', fat: 0.6, ...plenty }]; // prettier-ignore
  const answer = await planBlend({ sources, batchGrams: 1e5, fat: { min: 0.28, max: 0.28 } });
  expect(answer).toMatchObject({ kind: 'impossible', why: { code: 'too-fat', because: 'sources' } });
});

it('beef at 10 % reaches 30 % with beef fat', async () => {
  const made = await plan({ sources: [{ ...elk, fat: 0.1 }, { ...backFat, fat: 0.7089 }], fat: { min: 0.3, max: 0.3 } }); // prettier-ignore
  expect(made.fat).toBeCloseTo(0.3, 10);
  expect(pounds(made.parts[1]?.grams)).toBeCloseTo(20 / 0.4089, 8);
});

it.each([
  [6, 100, 267],
  [7, 100, 229],
  [8, 100, 200],
  [6, 75, 200],
  [8, 75, 150],
])('patties of %i oz from %i lb: the last one started counts', (ounces, lb, expected) => {
  const nothing = { shrink: 0, minutesPerAnimal: 0, minutesPerKg: 0, wagePerHour: 0, overheadPerHour: 0 };
  const { packages } = costOf({
    ...nothing,
    code: 'patties',
    receivedGrams: toGrams(lb, 'lb'),
    gramsPerPackage: toGrams(ounces, 'oz'),
    packagingPerPackage: 0,
    boughtFatShare: 0,
    fatPerKg: 0,
  });
  expect(packages).toBe(expected);
});
