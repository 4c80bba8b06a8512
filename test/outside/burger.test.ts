/** What a game processor makes of the grind. Common practice, no source, unless a row says otherwise. */
import { describe, it } from 'vitest';
import { fatToAdd, planBlend, type BlendPlan, type BlendRequest } from '../../src/core/blend.ts';
import { costOf } from '../../src/core/costing.ts';
import { fromGrams, toGrams } from '../../src/core/units.ts';
import { check } from './record.ts';

const PRACTICE = 'common practice, no source';
const elk = { id: 'elk', fat: 0.06, availableGrams: toGrams(100, 'lb'), costPerKg: 0, useAll: true };
const backFat = { id: 'back fat', fat: 0.8869, availableGrams: toGrams(60, 'lb'), costPerKg: 300 };

async function plan(request: BlendRequest): Promise<BlendPlan> {
  const answer = await planBlend(request);
  if (answer.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}

describe('game burger at 10 to 15 %', () => {
  const source = `${PRACTICE}: lean elk trim at 6 %, burger at 10 to 15 %; back fat 88.69 %: USDA SR 26, NDB 10004; answer computed`;
  it.each([
    ['takes the least fat where fat costs money', 300, 10, 4 / 0.7869],
    ['takes the most where fat saves money', -300, 15, 9 / 0.7369],
  ])('%s', async (_, costPerKg, percent, pounds) => {
    const answer = await plan({ sources: [elk, { ...backFat, costPerKg }], fat: { min: 0.1, max: 0.15 } });
    check({
      name: `100 lb of elk at 6 % to 10–15 %, fat at ${costPerKg} a kg: % fat, lb of back fat`,
      source,
      expected: [percent, pounds],
      got: [answer.fat * 100, fromGrams(answer.parts[1]?.grams as number, 'lb')],
      digits: 9,
    });
  });

  it('12.5 % by the balance', () => {
    const answer = fatToAdd({ leanGrams: elk.availableGrams, leanFat: 0.06, fatFat: 0.8869, targetFat: 0.125 });
    check({
      name: '100 lb of elk at 6 % to 12.5 %: lb of back fat, lb of batch',
      source,
      expected: [6.5 / 0.7619, 100 + 6.5 / 0.7619],
      got: answer.kind === 'add' ? [fromGrams(answer.grams, 'lb'), fromGrams(answer.batchGrams, 'lb')] : [],
      digits: 12,
    });
  }); // prettier-ignore
});

describe('at 30 %, as beef burger', () => {
  it('is reached by beef with beef fat', async () => {
    const lean = { ...elk, id: 'ground beef 90/10', fat: 0.1 };
    const fat = { ...backFat, id: 'beef fat trimmings', fat: 0.7089 };
    const answer = await plan({ sources: [lean, fat], fat: { min: 0.3, max: 0.3 } });
    check({
      name: '100 lb of 90/10 beef to 30 %: % fat, lb of beef fat',
      source: `${PRACTICE}: beef burger at 30 %; 10 % and 70.89 %: USDA SR 26, NDB 23562 and 13019; answer computed`,
      expected: [30, 20 / 0.4089],
      got: [answer.fat * 100, fromGrams(answer.parts[1]?.grams as number, 'lb')],
      digits: 9,
    });
  });

  it('is out of reach with 5 lb of the elk’s own fat, and says what is missing', async () => {
    const own = { id: 'own fat', fat: 0.7089, availableGrams: toGrams(5, 'lb'), costPerKg: 0 };
    const answer = await planBlend({ sources: [elk, own], fat: { min: 0.3, max: 0.32 } });
    const no = answer.kind === 'impossible' ? answer : null;
    check({
      name: '100 lb of elk at 6 %, 5 lb of own fat, wanted 30 %: highest fat %, % of nearest batch, lb missing',
      source: `${PRACTICE}; own fat as beef separable fat 70.89 %: USDA SR 26, NDB 13019; computed`,
      expected: [(100 * (6 + 0.05 * 70.89)) / 105, (100 * (6 + 0.05 * 70.89)) / 105, 24 / 0.4089 - 5],
      got: [
        (no?.why.code === 'too-lean' ? no.why.highestFat : NaN) * 100,
        (no?.nearest?.fat ?? NaN) * 100,
        fromGrams(no?.missing[0]?.grams ?? NaN, 'lb'),
      ],
      digits: 8,
    });
  }); // prettier-ignore

  it('is out of reach with a fat of 25 %, whatever the amount', () => {
    const answer = fatToAdd({ leanGrams: 100, leanFat: 0.06, fatFat: 0.25, targetFat: 0.3 });
    const got = answer.kind === 'out of reach' ? answer.highestFat * 100 : NaN;
    const name = 'elk at 6 % with a fat of 25 %, wanted 30 %: highest fat, %';
    check({ name, source: `${PRACTICE}; computed: no blend is fatter than its fattest part`, expected: 25, got, digits: 12 });
  }); // prettier-ignore
});

describe('patties of 6 to 8 oz', () => {
  it.each([
    [6, 100, 267],
    [7, 100, 229],
    [8, 100, 200],
    [6, 75, 200],
    [8, 75, 150],
  ])('%i oz from %i lb', (ounces, pounds, expected) => {
    const { packages } = costOf({
      code: 'patties',
      receivedGrams: toGrams(pounds, 'lb'),
      shrink: 0,
      minutesPerAnimal: 0,
      minutesPerKg: 0,
      wagePerHour: 0,
      overheadPerHour: 0,
      gramsPerPackage: toGrams(ounces, 'oz'),
      packagingPerPackage: 0,
      boughtFatShare: 0,
      fatPerKg: 0,
    });
    check({
      name: `patties of ${ounces} oz from ${pounds} lb`,
      source: `${PRACTICE}: patties of 6 to 8 oz; computed: ${pounds} × 16 / ${ounces}, the last one started counts`,
      expected,
      got: packages,
      tolerance: 0,
    });
  });

  it('from 100 lb of elk blended to 12.5 %', async () => {
    const answer = await plan({ sources: [elk, backFat], fat: { min: 0.125, max: 0.13 } });
    check({
      name: 'whole patties of 8 and of 6 oz in 100 lb of elk brought to 12.5 %',
      source: `${PRACTICE}: patties of 6 to 8 oz; computed: 108.5313 lb × 16 = 1736.5 oz`,
      expected: [217, 289],
      got: [8, 6].map((ounces) => Math.floor(answer.batchGrams / toGrams(ounces, 'oz'))),
      tolerance: 0,
    });
  });
});
