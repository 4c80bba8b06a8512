import { describe, expect, it } from 'vitest';
import { openRecordBook } from '../../../src/book/book.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
const offered = async (shop: FreshDesk) => (await shop.call('shop.get', {})).products;

describe('products', () => {
  it('of the shop’s own stand beside the supplied ones of their kind, weights as typed', async () => {
    const shop = await freshDesk();
    const saved = await shop.call('products.save', {
      name: 'Jalapeño links', kind: 'sausage', fat: 'pork-back-fat', targetFat: 0.22,
      packageTyped: '1 lb 8 oz', pattyTyped: '100 g', ingredients: ' salt, jalapeño ',
    }); // prettier-ignore
    expect(saved).toEqual({
      code: 'jalapeno-links', name: 'Jalapeño links', kind: 'sausage', fat: 'pork-back-fat', targetFat: 0.22,
      packageGrams: 1.5 * LB, pattyGrams: 100, ingredients: 'salt, jalapeño', own: true, supplied: false, offered: true,
    }); // prettier-ignore
    const kinds = (await offered(shop)).map(({ kind }) => kind);
    expect(kinds.lastIndexOf('sausage')).toBeLessThan(kinds.indexOf('jerky'));
    expect((await offered(shop)).filter(({ kind }) => kind === 'sausage').at(-1)?.code).toBe(
      'jalapeno-links',
    );
  });

  it('changed keep what was left out; an empty weight is none', async () => {
    const shop = await freshDesk();
    const salted = { code: 'patties', name: 'Patties', ingredients: 'salt' };
    const changed = await shop.call('products.save', salted);
    expect(changed).toMatchObject({
      kind: 'grind',
      targetFat: 0.15,
      own: true,
      supplied: true,
      ingredients: 'salt',
    });
    expect(changed.pattyGrams).toBeCloseTo(LB / 4, 9);
    expect(await shop.call('products.save', { ...salted, pattyTyped: ' ', fat: null, targetFat: null })).toMatchObject({
      pattyGrams: null, packageGrams: changed.packageGrams, fat: null,
    }); // prettier-ignore
  });

  it('of a name alone are something else with nothing said of them', async () => {
    const shop = await freshDesk();
    expect(await shop.call('products.save', { name: 'Dog food', ingredients: 'rice' })).toMatchObject({
      code: 'dog-food', kind: 'other', fat: null, targetFat: null, packageGrams: null, ingredients: 'rice',
    }); // prettier-ignore
  });

  it('put away and brought back are as they were, supplied or own', async () => {
    const shop = await freshDesk();
    const before = (await shop.call('shelf.get', {})).products.find(({ code }) => code === 'chops');
    expect(await shop.call('products.archive', { code: 'chops' })).toEqual({ ...before, offered: false });
    expect((await offered(shop)).map(({ code }) => code)).not.toContain('chops');
    expect(await shop.call('products.restore', { code: 'chops' })).toEqual(before);
    const own = await shop.call('products.save', { name: 'Links', kind: 'sausage' });
    await shop.call('products.archive', { code: own.code });
    expect(await shop.call('products.restore', { code: own.code })).toEqual(own);
  });

  it('made again under the name of one put away are that one', async () => {
    const shop = await freshDesk();
    const own = await shop.call('products.save', { name: 'Links', kind: 'sausage', ingredients: 'salt' });
    await shop.call('products.archive', { code: own.code });
    expect(await shop.call('products.save', { name: 'LINKS' })).toEqual({ ...own, name: 'LINKS' });
  });

  it('changed while put away stay away', async () => {
    const shop = await freshDesk();
    await shop.call('products.archive', { code: 'chops' });
    expect(await shop.call('products.save', { code: 'chops', name: 'Chops', ingredients: 'salt' })).toMatchObject({
      offered: false, ingredients: 'salt',
    }); // prettier-ignore
  });

  it('are audited', async () => {
    const shop = await freshDesk();
    await shop.call('products.save', { code: 'ground', name: 'Burger', by: 'MK' });
    await shop.call('products.archive', { code: 'ground', by: 'MK' });
    shop.desk.close();
    const book = openRecordBook(shop.bookPath, new Date('2026-10-11T00:00:00Z'));
    const notes = book.audit.of('product', 'ground');
    book.close();
    expect(notes.map(({ act, by }) => [act, by])).toEqual([['change', 'MK'], ['change', 'MK']]); // prettier-ignore
    expect(JSON.parse(notes[0]?.before ?? '')).toMatchObject({ name: 'Ground', own: false });
    expect(JSON.parse(notes[1]?.after ?? '')).toEqual({ offered: false });
  });

  it.each([
    ['product.taken', 'name', { name: 'summer SAUSAGE' }],
    ['product.taken', 'name', { code: 'ground', name: 'Patties' }],
    ['product.unknown', 'code', { code: 'pie', name: 'Pie' }],
    ['text.needed', 'name', { name: '' }],
    ['choice.product', 'kind', { kind: 'pie' }],
    ['fat.unknown', 'source', { fat: 'goose', targetFat: 0.1 }],
    ['product.fat', 'fat', { fat: 'none', targetFat: 0.1 }],
    ['product.fat', 'fat', { targetFat: 0.1 }],
    ['fat.range', 'targetFat', { fat: 'own', targetFat: 0.61 }],
    ['fat.range', 'targetFat', { fat: 'own', targetFat: 0.004 }],
    ['package.size', 'packageTyped', { packageTyped: '60 lb' }],
    ['patty.size', 'pattyTyped', { pattyTyped: '2 lb' }],
    ['reading.unreadable', 'pattyTyped', { pattyTyped: 'small' }],
    ['reading.negative', 'packageTyped', { packageTyped: '-1' }],
    ['text.too-long', 'ingredients', { ingredients: 'salt '.repeat(80) }],
  ])('refuse %s at %s, and keep nothing', async (code, field, more) => {
    const shop = await freshDesk();
    const before = await offered(shop);
    expect(await shop.problem('products.save', { name: 'Links', ...more })).toMatchObject({ code, field });
    expect(await offered(shop)).toEqual(before);
  });
});
