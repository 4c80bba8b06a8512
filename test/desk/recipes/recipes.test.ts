import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { addIngredient, curedWith, PINK, PLAIN, SPICE } from './recipe-of.ts';

let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

const named = { name: 'Summer sausage', product: 'Summer Sausage' };

describe('a cure in a recipe', () => {
  it('comes to 156.25 ppm with 4 oz of a 6.25 % packet on 100 lb, and may start', async () => {
    const body = curedWith(await addIngredient(shop, PINK), '4');
    const { ppm, mayStart, findings, amounts } = await shop.call('recipes.check', { body });
    // 113 g of 113.398 g: a cure is never rounded up, so 155.7 ppm.
    expect(amounts).toMatchObject([{ name: 'Pink cure', grams: 113 }]);
    expect(ppm?.nitrite).toBeCloseTo((113 * 0.0625 * 1e6) / 45_359.237, 6);
    expect(findings.filter(({ weight }) => weight === 'stop')).toEqual([]);
    expect(mayStart).toBe(true);
  });

  it('stops above the limit with the rule in its own words, and is saved all the same', async () => {
    // 2 oz on 45 lb, as one printed recipe has it: 173.6 ppm.
    const body = curedWith(await addIngredient(shop, PINK), '4.4444');
    const { findings, mayStart } = await shop.call('recipes.check', { body });
    const over = findings.find(({ code }) => code === 'cure.above-limit');
    expect(over).toMatchObject({ weight: 'stop', with: { agent: 'nitrite', limit: 156.25 } });
    expect(over?.rule?.asWritten).toBe('1/4 oz to 100 lb chopped meat');
    expect(mayStart).toBe(false);
    await shop.call('recipes.save', { ...named, body });
    expect((await shop.call('recipes.list', {})).recipes).toMatchObject([{ ...named, stops: 1 }]);
  });

  it('stops while its strength was not read, and names the packet', async () => {
    const blank = { ...PINK, cure: { ...PINK.cure!, nitrite: null } };
    const body = curedWith(await addIngredient(shop, blank), '4');
    const { ppm, findings } = await shop.call('recipes.check', { body });
    expect(ppm).toBeNull();
    expect(findings).toMatchObject([{ code: 'cure.strength-missing', with: { cure: 'Pink cure' } }]);
  });

  it('refuses 6.25 for 0.0625, and a strength that no packet has', async () => {
    const typed = (nitrite: number) =>
      shop.problem('recipes.saveIngredient', {
        ingredient: { ...PINK, cure: { ...PINK.cure!, nitrite } },
      });
    expect(await typed(6.25)).toMatchObject({ code: 'cure.strength-percent' });
    expect(await typed(0.4)).toMatchObject({ code: 'cure.strength-unlikely' });
  });

  it('with nitrate is stopped in what is cooked soon, and one of the wrong class by name', async () => {
    const two = await addIngredient(shop, {
      ...PINK,
      name: 'Cure 2',
      cure: { ...PINK.cure!, nitrate: 0.04 },
    });
    const soon = await shop.call('recipes.check', { body: curedWith(two, '4') });
    expect(soon.findings.map(({ code }) => code)).toContain('nitrate.cooked-soon');
    expect(soon.ppm?.nitrate).toBeCloseTo((113 * 0.04 * 1e6) / 45_359.237, 6);
    const pink = await addIngredient(shop, PINK);
    const wrong = await shop.call('recipes.check', { body: curedWith(pink, '4', { class: 'dry-rubbed' }) });
    expect(wrong.findings).toContainEqual(
      expect.objectContaining({
        code: 'cure.wrong-class',
        with: { stated: 'dry-rubbed', derived: 'ground' },
      }),
    );
  });

  it('in a pickle counts by what the meat takes up', async () => {
    const [pink, water] = [
      await addIngredient(shop, PINK),
      await addIngredient(shop, { ...SPICE, name: 'Water' }),
    ];
    const pickle = (ingredientId: number, role: 'cure' | 'water', typed: string) =>
      ({ ingredientId, role, typed, unit: 'lb', per: '100 lb', into: 'pickle' }) as const;
    const body = curedWith(pink, '1', {
      form: 'whole',
      method: 'pumped',
      class: 'pumped',
      pickUp: 0.1,
      additions: [pickle(pink, 'cure', '0.5'), pickle(water, 'water', '14.5')],
    });
    // 226 g of cure (0.5 lb, rounded down) in 6,803 g of pickle, a tenth of the meat's weight taken up.
    const { ppm, water: share } = await shop.call('recipes.check', { body });
    expect(ppm?.nitrite).toBeCloseTo(207.63, 2);
    // Of 100 lb, 10 lb of pickle are taken up, 9.667 of it water.
    expect(share).toBeCloseTo(9.6667 / 110, 4);
    const open = await shop.call('recipes.check', { body: { ...body, pickUp: null } });
    expect(open).toMatchObject({ ppm: null, mayStart: false, findings: [{ code: 'cure.pick-up-missing' }] });
  });
});

describe('a recipe', () => {
  it('that changes keeps its older version as it was', async () => {
    const pink = await addIngredient(shop, PINK);
    const { id, versionId } = await shop.call('recipes.save', { ...named, body: curedWith(pink, '4') });
    const again = { id, ...named, body: curedWith(pink, '3.5') };
    expect(await shop.problem('recipes.save', again)).toMatchObject({ code: 'recipe.reason' });
    await shop.call('recipes.save', { ...again, reason: 'less cure' });
    const now = await shop.call('recipes.get', { id });
    expect(now).toMatchObject({ number: 2, reason: 'less cure', body: { additions: [{ typed: '3.5' }] } });
    const before = await shop.call('recipes.get', { id, versionId });
    expect(before).toMatchObject({ number: 1, body: { additions: [{ typed: '4' }] } });
    expect(now.versions.map(({ number }) => number)).toEqual([2, 1]);
  });

  it.each([
    ['without meat', { meat: [] }, 'recipe.no-meat'],
    ['of water only', { meat: [{ ...PLAIN.meat[0]!, share: 0 }] }, 'recipe.no-meat'],
    ['of meat that is not the whole', { meat: [{ ...PLAIN.meat[0]!, share: 0.8 }] }, 'recipe.shares'],
    ['that is ready to eat without heat', { readyToEat: true, finish: 'cooked' }, 'recipe.no-heat'],
    ['cured without a cure', { method: 'mixed-in', class: 'ground' }, 'recipe.no-cure'],
    ['of an unknown kind of loss', { lossKind: 'magic' }, 'loss.kind-unknown'],
  ] as const)('%s is refused', async (_, change, code) => {
    expect(await shop.problem('recipes.save', { ...named, body: { ...PLAIN, ...change } })).toMatchObject({
      code,
    });
  });

  it('with amounts that are none, negative, absurd or unknown is refused, naming the line', async () => {
    const spice = await addIngredient(shop, SPICE);
    const of = (typed: string, ingredientId = spice) =>
      shop.problem('recipes.check', {
        body: {
          ...PLAIN,
          additions: [{ ingredientId, role: 'seasoning', typed, unit: 'oz', per: '100 lb', into: 'meat' }],
        },
      });
    expect(await of('0')).toMatchObject({ code: 'reading.zero', field: 'additions[0].typed' });
    expect(await of('-4')).toMatchObject({ code: 'reading.negative' });
    expect(await of('2000')).toMatchObject({ code: 'amount.too-much' });
    expect(await of('4', 99)).toMatchObject({ code: 'ingredient.unknown' });
  });

  it('takes no thousand ingredients', async () => {
    const line = { ingredientId: 1, role: 'seasoning', typed: '1', unit: 'oz', per: '100 lb', into: 'meat' };
    expect(
      await shop.problem('recipes.check', { body: { ...PLAIN, additions: Array(1000).fill(line) } }),
    ).toMatchObject({ kind: 'invalid', code: 'list.too-long' });
  });
});

describe('an ingredient', () => {
  it('that contains itself through another is refused', async () => {
    const a = await addIngredient(shop, { ...SPICE, name: 'A' });
    const b = await addIngredient(shop, {
      ...SPICE,
      name: 'B',
      kind: 'blend',
      parts: [a],
      allergens: 'by-parts',
    });
    expect(
      await shop.problem('recipes.saveIngredient', {
        id: a,
        ingredient: { ...SPICE, name: 'A', parts: [b] },
      }),
    ).toMatchObject({ code: 'ingredient.circle' });
  });

  it('whose packet was not read leaves the allergens unknown, and never none', async () => {
    const blend = await addIngredient(shop, {
      ...SPICE,
      name: 'House blend',
      kind: 'blend',
      parts: null,
      allergens: 'unknown',
    });
    const milk = await addIngredient(shop, {
      ...SPICE,
      name: 'Dry milk',
      allergens: [{ allergen: 'milk', kind: '' }],
    });
    const line = (ingredientId: number) =>
      ({ ingredientId, role: 'other', typed: '8', unit: 'oz', per: '100 lb', into: 'meat' }) as const;
    const { allergens } = await shop.call('recipes.check', {
      body: { ...PLAIN, additions: [line(blend), line(milk)] },
    });
    expect(allergens).toEqual({
      contains: [{ allergen: 'milk', kinds: [], from: ['Dry milk'] }],
      unknown: ['House blend'],
    });
  });

  it('of a name that the shop has is refused', async () => {
    await addIngredient(shop, SPICE);
    expect(
      await shop.problem('recipes.saveIngredient', { ingredient: { ...SPICE, name: 'fennel' } }),
    ).toMatchObject({ code: 'ingredient.taken' });
  });
});

describe('a ready recipe', () => {
  it('is common practice without a source, and none of its cures has a strength', async () => {
    const { ready } = await shop.call('recipes.list', {});
    expect(ready.length).toBeGreaterThan(4);
    for (const { code, source } of ready) {
      expect(source).toMatchObject({ grade: 'assumption', source: 'Common practice, no source' });
      const { id } = await shop.call('recipes.addReady', { code });
      const { check, body } = await shop.call('recipes.get', { id });
      const missing = check.findings.filter((found) => found.code === 'cure.strength-missing');
      expect(missing.length > 0, code).toBe(body.method !== 'none');
    }
  });

  it('meets the limits with a packet of 6.25 %', async () => {
    for (const { code } of (await shop.call('recipes.list', {})).ready)
      await shop.call('recipes.addReady', { code });
    const { ingredients } = await shop.call('recipes.list', {});
    const cure = ingredients.find(({ kind }) => kind === 'cure')!;
    const { id, name, kind, note } = cure;
    await shop.call('recipes.saveIngredient', {
      id,
      ingredient: { name, kind, note, parts: [], allergens: [], cure: PINK.cure },
    });
    const { recipes } = await shop.call('recipes.list', {});
    for (const one of recipes) {
      const { check } = await shop.call('recipes.get', { id: one.id });
      expect([one.name, check.findings.filter(({ weight }) => weight !== 'note')]).toEqual([one.name, []]);
    }
  });

  it('is in grams per kilogram for a shop in kilograms', async () => {
    const metric = await freshDesk('kg');
    const { id } = await metric.call('recipes.addReady', { code: 'summer' });
    const { body } = await metric.call('recipes.get', { id });
    // 28 oz on 100 lb.
    expect(body.additions[0]).toMatchObject({ typed: '17.5', unit: 'g', per: 'kg' });
    metric.desk.close();
  });

  it('is taken once', async () => {
    await shop.call('recipes.addReady', { code: 'summer' });
    expect(await shop.problem('recipes.addReady', { code: 'summer' })).toMatchObject({
      code: 'recipe.taken',
    });
  });
});
