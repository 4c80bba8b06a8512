import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { addRecipe, opened, rawBatch, stuffed, summerSausage, trimOf, weighedOut } from './made-of.ts';
import { addIngredient, curedWith, PINK, PLAIN, SPICE } from '../recipes/recipe-of.ts';

const LB = 453.59237;

let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

describe('the sheet of a made batch', () => {
  it('is scaled to the meat that was really weighed, to the step of the small scale, a cure never rounded up', async () => {
    const { recipeId } = await summerSausage(shop);
    const [a, b, c] = [await trimOf(shop, '40'), await trimOf(shop, '30'), await trimOf(shop, '30')];
    const { id } = await opened(shop, recipeId, { [a]: '20', [b]: '15', [c]: '10' });
    const sheet = await shop.call('made.plan', { id });
    // 45 lb of meat: 28 oz on 100 lb are 357.2 g, 4 oz are 51.03 g.
    expect(sheet.blockGrams).toBeCloseTo(45 * LB, 6);
    expect(sheet.amounts.map(({ grams }) => grams)).toEqual([357, 51]);
    expect(sheet.ppm?.nitrite).toBeCloseTo((51 * 0.0625 * 1e6) / (45 * LB), 6);
    expect(sheet.totalGrams).toBeCloseTo(45 * LB + 408, 6);
    const fine = await shop.call('made.plan', { id, smallStepGrams: 0.1 });
    expect(fine.amounts.map(({ grams }) => grams)).toEqual([357.2, 51]);
    await shop.call('shop.saveSettings', { changes: { smallStep: 2 } });
    const coarse = await shop.call('made.plan', { id });
    // The nearest even gram, and for the cure the one below; 2 g may be 3.9% of 51 g.
    expect(coarse.amounts.map(({ grams, tooFine }) => [grams, tooFine])).toEqual([
      [358, false],
      [50, false],
    ]);
    await shop.call('shop.saveSettings', { changes: { smallStep: 5 } });
    expect((await shop.call('made.plan', { id })).amounts.map(({ tooFine }) => tooFine)).toEqual([
      false,
      true,
    ]);
  });

  it('stays as it was started when recipe and packet change', async () => {
    const { id, recipeId, pink } = await weighedOut(shop);
    const before = await shop.call('made.get', { id });
    await shop.call('recipes.saveIngredient', {
      id: pink,
      ingredient: { ...PINK, name: 'Stronger', cure: { ...PINK.cure!, nitrite: 0.1 } },
    });
    const { body } = await shop.call('recipes.get', { id: recipeId });
    const additions = body.additions.map((one) => ({ ...one, typed: '1' }));
    await shop.call('recipes.save', {
      id: recipeId,
      name: 'Other',
      product: 'Other',
      body: { ...body, additions },
      reason: 'tried',
    });
    const after = await shop.call('made.get', { id });
    expect(after.sheet).toEqual({ ...before.sheet, amounts: before.sheet?.amounts });
    expect(after).toMatchObject({ newerVersion: true, product: 'Summer Sausage' });
    expect(after.weighedPpm).toEqual(before.weighedPpm);
  });

  it('counts what was bought as meat of its own kind, also one that the recipe does not have', async () => {
    const { recipeId } = await summerSausage(shop);
    const a = await trimOf(shop, '40');
    const { id, batchId } = await opened(shop, recipeId, { [a]: '30' });
    const { id: lot } = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '20' });
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot, part: 'fat added', typed: '10' });
    const { meat, blockGrams, fat } = await shop.call('made.plan', { id });
    expect(blockGrams).toBeCloseTo(40 * LB, 6);
    expect(meat).toMatchObject([
      { kind: 'game', share: 0.75, recipeShare: 1 },
      { kind: 'pork', name: 'Pork back fat', share: 0.25, recipeShare: null },
    ]);
    expect(fat!.block.fat).toBeGreaterThan(0.2);
    expect(fat!.raw.fat).toBeLessThan(fat!.block.fat);
  });

  it('of several products of one grind divides the meat, and no more than there is', async () => {
    const { recipeId } = await summerSausage(shop);
    const a = await trimOf(shop, '100');
    const { id, batchId } = await opened(shop, recipeId, { [a]: '100' });
    await shop.call('made.start', { id, portionTyped: '60' });
    const second = await shop.call('made.open', { recipeId, batchId });
    const over = { id: second.id, portionTyped: '41' };
    expect(await shop.problem('made.start', over)).toMatchObject({ code: 'made.not-enough' });
    expect((await shop.call('made.plan', { id: second.id })).blockGrams).toBeCloseTo(40 * LB, 6);
  });
});

describe('a batch', () => {
  it('above an official limit does not start until the amount changes', async () => {
    const pink = await addIngredient(shop, PINK);
    const recipeId = await addRecipe(shop, curedWith(pink, '4.5'));
    const a = await trimOf(shop, '45');
    const { id } = await opened(shop, recipeId, { [a]: '45' });
    // 4.5 oz on 100 lb: 57 g of 57.4 on 45 lb, 174.5 ppm.
    const refused = await shop.problem('made.start', { id });
    expect(refused).toMatchObject({ kind: 'refused', code: 'cure.above-limit' });
    expect(refused.with?.ppm).toBeCloseTo((57 * 0.0625 * 1e6) / (45 * LB), 6);
    await shop.call('recipes.save', {
      id: recipeId, name: 'Recipe', product: 'Summer Sausage', body: curedWith(pink, '4'), reason: 'less cure',
    }); // prettier-ignore
    await shop.call('made.start', { id });
    expect((await shop.call('made.get', { id })).state).toBe('started');
  });

  it('takes no meat that is on hold, alone or pooled, before the start and after', async () => {
    const { recipeId } = await summerSausage(shop);
    const held = await trimOf(shop, '40');
    await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
    await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L1' });
    expect(await shop.problem('made.open', { recipeId, animals: [held] })).toMatchObject({
      kind: 'refused',
      code: 'made.held',
    });
    const later = await trimOf(shop, '40');
    const { id } = await opened(shop, recipeId, { [later]: '40' });
    await shop.call('animals.hold', { id: later, reason: 'sample', sample: 'L2' });
    expect(await shop.problem('made.start', { id })).toMatchObject({ code: 'made.held' });
  });

  it('takes no more cure than the limit when it is weighed, and asks about other unlike amounts', async () => {
    const { id, pink, salt } = await weighedOut(shop);
    const more = { id, ingredientId: pink, typed: '3', lot: 'A-7' };
    // 116 g on 100 lb are 159.8 ppm.
    expect(await shop.problem('made.weigh', more)).toMatchObject({
      code: 'cure.above-limit',
      field: 'typed',
    });
    const salty = { id, ingredientId: salt, typed: '794', lot: '' };
    expect(await shop.problem('made.weigh', salty)).toMatchObject({ kind: 'conflict', code: 'made.unlike' });
    await shop.call('made.weigh', { ...salty, confirmed: true });
    const none = { ...more, typed: '0.2', lot: '' };
    expect(await shop.problem('made.weigh', none)).toMatchObject({ code: 'made.lot-needed' });
  });

  it('is not stuffed before its cure was weighed, nor with other meat than was reckoned', async () => {
    const { recipeId, pink } = await summerSausage(shop);
    const a = await trimOf(shop, '100');
    const { id, batchId } = await opened(shop, recipeId, { [a]: '60' });
    await shop.call('made.start', { id });
    const stage = { id, stage: 'stuffed', typed: '60' };
    expect(await shop.problem('made.stage', stage)).toMatchObject({ code: 'made.cure-not-weighed' });
    await shop.call('made.weigh', { id, ingredientId: pink, typed: '68', lot: 'A-7' });
    await shop.call('grinder.weighIn', { batchId, animalId: a, part: 'trim', typed: '20' });
    expect(await shop.problem('made.stage', stage)).toMatchObject({ code: 'made.meat-changed' });
    await shop.call('made.start', { id });
    await shop.call('made.stage', { id, stage: 'stuffed', typed: '80' });
    expect(await shop.problem('made.start', { id })).toMatchObject({ code: 'made.stuffed' });
  });

  it('comes to no more than went in, at each step, within the tolerance of two scales', async () => {
    const { id } = await weighedOut(shop);
    // 100 lb and 907 g went in: 102 lb.
    const stage = (name: string, typed: string) => ({ id, stage: name, typed });
    expect(await shop.problem('made.stage', stage('stuffed', '105'))).toMatchObject({
      code: 'made.more-out',
    });
    expect(await shop.problem('made.stage', stage('cooked', '80'))).toMatchObject({
      code: 'made.not-stuffed',
    });
    await shop.call('made.stage', { id, stage: 'stuffed', typed: '101.5' });
    expect(await shop.problem('made.stage', stage('cooked', '104'))).toMatchObject({ code: 'made.more-out' });
    await shop.call('made.stage', { id, stage: 'cooked', typed: '84' });
    const pack = { id, count: 50, typed: '104' };
    expect(await shop.problem('made.pack', { ...pack, confirmed: true, reason: 'ice' })).toMatchObject({
      code: 'made.more-out',
    });
    await shop.call('made.pack', { id, count: 80, typed: '83.5' });
    expect(await shop.call('made.get', { id })).toMatchObject({ state: 'packed', packages: 80 });
  });

  it('of fresh sausage with water packs more than its meat without a question', async () => {
    const water = await addIngredient(shop, { ...SPICE, name: 'Water' });
    const recipeId = await addRecipe(shop, {
      ...PLAIN,
      additions: [
        { ingredientId: water, role: 'water', typed: '6', unit: 'lb', per: '100 lb', into: 'meat' },
      ],
    });
    const a = await trimOf(shop, '50');
    const { id } = await opened(shop, recipeId, { [a]: '50' });
    await shop.call('made.start', { id });
    await shop.call('made.weigh', { id, ingredientId: water, typed: '3 lb', lot: '' });
    await shop.call('made.pack', { id, count: 52, typed: '52.5' });
    expect((await shop.call('made.get', { id })).packedGrams).toBeCloseTo(52.5 * LB, 6);
  });

  it('keeps its packages when a weight is corrected, and loses one that is voided', async () => {
    const { id, batchId } = await rawBatch(shop);
    await shop.call('made.start', { id });
    const { weighingId } = await shop.call('made.pack', { id, count: 40, typed: '48' });
    await shop.call('table.correct', { weighingId, typed: '49', reason: 'misread' });
    const page = await shop.call('made.get', { id });
    expect(page.packs).toMatchObject([{ typed: '49', count: 40, product: 'Bulk Sausage' }]);
    await shop.call('table.void', { weighingId: page.packs[0]!.id, reason: 'not there' });
    expect((await shop.call('made.get', { id })).packs).toEqual([]);
    expect((await shop.call('grinder.getBatch', { id: batchId })).packages).toEqual([]);
  });

  it('that was a mistake is voided while nothing is packed', async () => {
    const { id } = await rawBatch(shop);
    await shop.call('made.start', { id });
    const { weighingId } = await shop.call('made.pack', { id, count: 1, typed: '1' });
    const reason = 'other recipe';
    expect(await shop.problem('made.void', { id, reason })).toMatchObject({ code: 'made.packed' });
    await shop.call('table.void', { weighingId, reason });
    await shop.call('made.void', { id, reason });
    expect(await shop.problem('made.get', { id })).toMatchObject({ code: 'made.voided' });
  });
});

describe('owners of a pooled batch', () => {
  it('share what was packed exactly, by their meat', async () => {
    const { recipeId, pink } = await summerSausage(shop);
    const [a, b, c] = [await trimOf(shop, '40'), await trimOf(shop, '40'), await trimOf(shop, '40')];
    const { id } = await opened(shop, recipeId, { [a]: '15', [b]: '20', [c]: '10' });
    await shop.call('made.start', { id });
    await shop.call('made.weigh', { id, ingredientId: pink, typed: '51', lot: 'A-7' });
    await shop.call('made.stage', { id, stage: 'stuffed', typed: '45' });
    await shop.call('made.pack', { id, count: 25, typed: '25.01' });
    await shop.call('made.pack', { id, count: 12, typed: '12.36' });
    const { owners } = await shop.call('made.get', { id });
    // 37.37 lb among 15, 20 and 10 of 45: 12.4567, 16.6089 and 8.3044 lb, in whole hundredths by the largest remainders.
    const pounds = owners.map(({ packedGrams }) => Number((packedGrams / LB).toFixed(6)));
    expect(pounds).toEqual([12.46, 16.61, 8.3]);
    expect(owners.map(({ packages }) => packages)).toEqual([12, 17, 8]);
  });
});

describe('the loss of a product', () => {
  /** Stuffed at 100 lb, packed at so many, finished. */
  async function finished(recipeId: number, pink: number, packed: string): Promise<void> {
    const a = await trimOf(shop, '100');
    const { id, batchId } = await opened(shop, recipeId, { [a]: '100' });
    await shop.call('made.start', { id });
    await shop.call('made.weigh', { id, ingredientId: pink, typed: '113', lot: 'A-7' });
    await shop.call('made.stage', { id, stage: 'stuffed', typed: '100' });
    await shop.call('made.pack', { id, count: 80, typed: packed });
    await shop.call('grinder.finish', { batchId });
  }

  it('is an assumption with its source, wide, until five batches taught it', async () => {
    const { recipeId, pink } = await summerSausage(shop, { lossKind: 'sticks' });
    const before = await shop.call('made.forecast', { recipeId, finishedGrams: 10 * LB });
    expect(before.forecast).toMatchObject({
      batches: 0,
      assumed: { name: 'Snack sticks', low: 0.55, high: 0.8 },
    });
    expect(before.forecast.assumed?.source.grade).toBe('assumption');
    for (const packed of ['62', '63', '62.5', '61.5', '62.2']) await finished(recipeId, pink, packed);
    const after = await shop.call('made.forecast', { recipeId, finishedGrams: 10 * LB, trimGrams: 16 * LB });
    expect(after.forecast).toMatchObject({ batches: 5, assumed: null });
    // Salt and cure are 2 % of the meat: 10 lb of sticks take 10 ÷ 0.6224 ÷ 1.02 lb of trim.
    expect(after.trim!.middle / LB).toBeCloseTo(15.75, 0);
    expect(after.trim!.high - after.trim!.low).toBeLessThan(before.trim!.high - before.trim!.low);
    expect(after.finished!.middle / LB).toBeCloseTo(10.15, 0);
    const { recipes } = await shop.call('made.losses', { recipeId });
    expect(recipes[0]?.batches.map(({ loss }) => Number(loss.toFixed(3)))).toEqual([
      0.38, 0.37, 0.375, 0.385, 0.378,
    ]);
    expect(new Set(recipes[0]?.batches.map(({ season }) => season))).toEqual(
      new Set([(await shop.call('shop.get', {})).season]),
    );
  });

  it('that is far off is unusual once five others are known', async () => {
    const { recipeId, pink } = await summerSausage(shop);
    for (const packed of ['84', '85', '84.5', '83.5', '84.2', '60']) await finished(recipeId, pink, packed);
    const { recipes } = await shop.call('made.losses', { recipeId });
    const unusual = recipes[0]!.batches.map((one) => one.unusual ?? NaN);
    expect(unusual[5]).toBeLessThan(0.01);
    expect(unusual[0]).toBeGreaterThan(0.2);
  });
});

describe('measured figures', () => {
  it('give protein-fat-free and the moisture-protein ratio', async () => {
    const { id } = await stuffed(shop);
    for (const [what, typed] of [['protein', '18.0'], ['fat', '4.0 %'], ['moisture', '58']] as const)
      await shop.call('made.analyse', { id, what, typed, method: 'laboratory' }); // prettier-ignore
    const { composition } = await shop.call('made.get', { id });
    expect(composition.proteinFatFree).toBeCloseTo(0.1875, 10);
    expect(composition.moistureProtein).toBeCloseTo(58 / 18, 10);
    expect(await shop.problem('made.analyse', { id, what: 'water activity', typed: '85' })).toMatchObject({
      code: 'analysis.range',
    });
  });
});

describe('a label', () => {
  it('lists what went in in descending order, allergens with what is unknown, and is never ready to eat unproven', async () => {
    const [soy, wheat] = [
      await addIngredient(shop, { ...SPICE, name: 'Soybeans', allergens: [{ allergen: 'soy', kind: '' }] }),
      await addIngredient(shop, { ...SPICE, name: 'Wheat', allergens: [{ allergen: 'wheat', kind: '' }] }),
    ];
    const sauce = await addIngredient(shop, {
      ...SPICE, name: 'Soy sauce', kind: 'blend', parts: [soy, wheat], allergens: 'by-parts',
    }); // prettier-ignore
    const blend = await addIngredient(shop, {
      ...SPICE,
      name: 'House blend',
      kind: 'blend',
      parts: null,
      allergens: 'unknown',
    });
    const line = (ingredientId: number, typed: string) =>
      ({ ingredientId, role: 'seasoning', typed, unit: 'oz', per: '100 lb', into: 'meat' }) as const;
    const pink = await addIngredient(shop, PINK);
    const cure = { ...line(pink, '4'), role: 'cure' } as const;
    const recipeId = await addRecipe(
      shop,
      curedWith(pink, '4', {
        readyToEat: true,
        heat: { level: 'log65', cooling: 'option-1', steps: [] },
        additions: [line(blend, '8'), cure, line(sauce, '48')],
      }),
    );
    const a = await trimOf(shop, '100');
    const { id } = await opened(shop, recipeId, { [a]: '100' });
    expect(await shop.problem('made.label', { id })).toMatchObject({ code: 'made.not-started' });
    await shop.call('made.start', { id });
    await shop.call('made.weigh', { id, ingredientId: pink, typed: '113', lot: 'A-7' });
    const label = await shop.call('made.label', { id });
    expect(label.ingredients.map(({ name }) => name)).toEqual([
      'Elk',
      'Soy sauce',
      'House blend',
      'Pink cure',
    ]);
    expect(label.ingredients[1]?.parts).toMatchObject([{ name: 'Soybeans' }, { name: 'Wheat' }]);
    expect(label.ingredients[2]?.parts).toBe('unknown');
    expect(label.allergens).toEqual({
      contains: [
        { allergen: 'wheat', kinds: [] },
        { allergen: 'soy', kinds: [] },
      ],
      unknown: ['House blend'],
    });
    expect(label).toMatchObject({
      state: 'cooked', keep: 'refrigerated', notForSale: true, cookTo: { f: 165 }, species: ['Elk'],
      cure: { nitrite: true, nitrate: false, accelerator: false },
      proof: { readyToEat: false, missing: [{ code: 'proof.no-load' }] },
    }); // prettier-ignore
  });

  it('of a raw product says raw and needs no proof', async () => {
    const { id } = await rawBatch(shop);
    await shop.call('made.start', { id });
    expect(await shop.call('made.label', { id })).toMatchObject({
      state: 'raw', keep: 'frozen', cookTo: { f: 165 }, cure: null, proof: { cook: 'not-needed', missing: [] },
    }); // prettier-ignore
  });

  it('says refrigerated of a product that was not shown to be shelf-stable', async () => {
    const { id } = await stuffed(shop, { keep: 'shelf-stable' });
    const { keep, findings } = await shop.call('made.label', { id });
    expect(keep).toBe('refrigerated');
    expect(findings.map(({ code }) => code)).toContain('label.not-shelf-stable');
  });
});
