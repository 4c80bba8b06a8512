/** Blends held against published examples, and USDA's fats blended three ways. */
import solver from 'javascript-lp-solver';
import { describe, expect, it } from 'vitest';
import { fatToAdd, planBlend, type BlendPlan, type BlendRequest } from '../../src/core/blend.ts';
import { check } from './record.ts';

const POUND = 453.59237;

async function plan(request: BlendRequest): Promise<BlendPlan> {
  const answer = await planBlend(request);
  if (answer.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}

/** A source of the pages below: plenty of it, priced in dollars a pound; money comes out in dollars. */
function priced(id: string, fat: number, dollarsPerLb: number) {
  return { id, fat, availableGrams: 1000 * POUND, costPerKg: (dollarsPerLb * 1000) / POUND };
}

const pounds = (answer: BlendPlan): number[] => answer.parts.map(({ grams }) => grams / POUND);

describe('Georgia FFA state meat formulation problem, 2016: 500 lb of pan sausage at 28 % fat', () => {
  const source =
    'Georgia FFA Association, State Meat Formulation Problem 2016, https://studylib.net/doc/25302172/23862-meats-cde-problem-solving-2016-state (printed options)';
  const fifty = priced('50 % lean trim', 0.5, 1.89);
  const forty = priced('40 % lean trim', 0.6, 1.69);
  const thirty = priced('30 % lean trim', 0.7, 1.56);
  const ham = priced('boneless ham', 0.2, 2.45);
  const shoulder = priced('boneless shoulder', 0.23, 1.78);
  const sow = priced('whole sow', 0.31, 1.56);
  const batch = { batchGrams: 500 * POUND, fat: { min: 0.28, max: 0.28 } };
  const dollars = (answer: BlendPlan): number => Math.round((answer.cost / 500) * 100) / 100;

  it.each([
    [fifty, ham, 2.3],
    [fifty, shoulder, 1.8],
    [forty, shoulder, 1.77],
    [forty, ham, 2.3],
    [thirty, ham, 2.31],
    [thirty, shoulder, 1.76],
  ])('costs $id with $id as printed', async (fat, lean, expected) => {
    const answer = await plan({ ...batch, sources: [fat, lean] });
    const name = `FFA 2016: ${fat.id} + ${lean.id}, dollars a pound`;
    check({ name, source, expected, got: dollars(answer), tolerance: 1e-9 });
  });

  it('finds the cheapest of all allowed materials', async () => {
    const answer = await plan({ ...batch, sources: [fifty, forty, thirty, ham, shoulder] });
    const name = 'FFA 2016: cheapest allowed blend, dollars a pound';
    check({ name, source, expected: 1.76, got: dollars(answer), tolerance: 1e-9 });
    check({
      name: 'FFA 2016: cheapest blend, lb of 30 % lean trim and of shoulder',
      source: 'computed from the page: 500 × (0.28 − 0.23) / (0.70 − 0.23) and the rest',
      expected: [53.191489361702, 446.808510638298],
      got: [pounds(answer)[2] as number, pounds(answer)[4] as number],
      digits: 9,
    });
  });

  it('sees that sow and 40 % lean trim, both fatter than 28 %, cannot make it', async () => {
    const answer = await planBlend({ ...batch, sources: [sow, forty] });
    expect(answer).toMatchObject({ kind: 'impossible', why: { code: 'too-fat', because: 'sources' } });
  });
});

describe('other published blends', () => {
  it('blends cow meat and trim as in the teaching slides', async () => {
    const source = 'inputs: "Meat Calculations" teaching slides, https://slideplayer.com/slide/7660647; answer computed';
    const sources = [priced('cow meat', 0.1, 0.99), priced('trim', 0.25, 0.79)];
    const answer = await plan({ sources, batchGrams: 1000 * POUND, fat: { min: 0.2, max: 0.2 } });
    check({
      name: 'Slides: lb of 10 % and of 25 % meat in 1,000 lb at 20 %',
      source,
      expected: [1000 / 3, 2000 / 3],
      got: pounds(answer),
      digits: 9,
    });
    const got = answer.cost / 1000;
    check({ name: 'Slides: dollars a pound', source, expected: 2.57 / 3, got, digits: 9 });
  }); // prettier-ignore

  const forum =
    'forum thread 990143, https://pitmaster.amazingribs.com/forum/recipes-technique-food-cooking/sausages-jerky-salami-bologna-brats-and-hot-dog-recipes/990143-i-need-help-with-a-sausage-spreadsheet';

  it('knows that 3 lb of fat on 10 lb of lean are 23 %, not 30 %', async () => {
    const answer = await plan({
      sources: [
        { id: 'lean', fat: 0, availableGrams: 10 * POUND, costPerKg: 0, useAll: true },
        { id: 'fat', fat: 1, availableGrams: 3 * POUND, costPerKg: 0, useAll: true },
      ],
      fat: { min: 0, max: 1 },
    });
    const name = '3 lb of fat added to 10 lb of lean, % fat';
    check({ name, source: forum, expected: 23, got: answer.fat * 100, tolerance: 0.5 });
  });

  it('adds 6.9 lb of fat to 16 lb of lean for 30 %', () => {
    const answer = fatToAdd({ leanGrams: 16 * POUND, leanFat: 0, fatFat: 1, targetFat: 0.3 });
    const got = answer.kind === 'add' ? answer.grams / POUND : 0;
    const name = 'lb of fat to 16 lb of lean for 30 %';
    check({ name, source: forum, expected: 6.9, got, tolerance: 0.05 });
    const exact = 'computed, 16 / 0.7 − 16';
    check({ name: `${name}, in full`, source: exact, expected: 6.857142857142857, got, digits: 12 });
  });
});

describe('common practice, no source', () => {
  const elk = { id: 'elk', fat: 0.06, availableGrams: 100 * POUND, costPerKg: 0, useAll: true };

  it('brings elk at 6 % to 12.5 % with pork back fat', async () => {
    const backFat = { id: 'back fat', fat: 0.8869, availableGrams: 50 * POUND, costPerKg: 300 };
    const answer = await plan({ sources: [elk, backFat], fat: { min: 0.125, max: 0.13 } });
    check({
      name: '100 lb of elk at 6 % to 12.5 %: lb of pork back fat',
      source:
        'elk at 6 %: common practice, no source; back fat 88.69 %: USDA SR 26, NDB 10004; answer computed',
      expected: 6.5 / 0.7619,
      got: pounds(answer)[1] as number,
      digits: 9,
    });
  });

  it('cannot bring it to 30 % with the own fat of the animal alone', async () => {
    const own = { id: 'own fat', fat: 0.7089, availableGrams: 10 * POUND, costPerKg: 0 };
    const answer = await planBlend({ sources: [elk, own], fat: { min: 0.3, max: 0.32 } });
    expect(answer).toMatchObject({ kind: 'impossible', why: { code: 'too-lean', because: 'amounts' } });
    check({
      name: '100 lb of elk at 6 % with 10 lb of own fat: highest fat, %',
      source:
        'common practice, no source; own fat as beef separable fat 70.89 %: USDA SR 26, NDB 13019; computed',
      expected: (100 * (6 + 7.089)) / 110,
      got: answer.kind === 'impossible' ? (answer.reach?.highest as number) * 100 : 0,
      digits: 9,
    });
  });
});

/** USDA National Nutrient Database for Standard Reference, release 26 (2013): g of fat in 100 g. */
const LEAN = [['deer, NDB 17164', 2.42], ['elk, NDB 17166', 1.45], ['caribou, NDB 17162', 3.36]] as const; // prettier-ignore
const FAT = [['beef suet, NDB 13335', 94], ['pork back fat, NDB 10004', 88.69], ['pork belly, NDB 10005', 53.01]] as const; // prettier-ignore

describe('USDA fats, blended three ways', () => {
  const cases = LEAN.flatMap((lean) => FAT.flatMap((fat) => [10, 15, 30].map((target) => [lean, fat, target] as const)));

  it.each(cases)('%s with %s to %i %', async ([leanName, lean], [fatName, fat], target) => {
    const square = fatToAdd({ leanGrams: 100, leanFat: lean / 100, fatFat: fat / 100, targetFat: target / 100 });
    const solved = await plan({
      sources: [
        { id: 'lean', fat: lean / 100, availableGrams: 100, costPerKg: 0, useAll: true },
        { id: 'fat', fat: fat / 100, availableGrams: 1000, costPerKg: 300 },
      ],
      fat: { min: target / 100, max: 1 },
    });
    const independent = solver.Solve({
      optimize: 'cost',
      opType: 'min',
      constraints: { lean: { equal: 100 }, above: { min: 0 } },
      variables: {
        lean: { lean: 1, above: lean - target, cost: 0 },
        fat: { above: fat - target, cost: 3 },
      },
    }) as unknown as { feasible: boolean; fat: number };
    expect(independent.feasible).toBe(true);
    const name = `g of ${fatName} to 100 g of ${leanName} for ${target} %`;
    const source = 'fats: USDA SR 26 (2013); answer: javascript-lp-solver, an independent simplex';
    const got = square.kind === 'add' ? square.grams : 0;
    check({ name: `${name}: balance`, source, expected: independent.fat, got, tolerance: 1e-6 });
    const grams = solved.parts[1]?.grams as number;
    check({ name: `${name}: solver`, source, expected: independent.fat, got: grams, tolerance: 1e-6 });
    expect(Math.abs(got - grams)).toBeLessThanOrEqual(1e-9 * got);
  });
}); // prettier-ignore
