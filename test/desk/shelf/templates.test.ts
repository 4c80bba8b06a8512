import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';

type Template = CallInput<'templates.save'>;
const offered = async (shop: FreshDesk) => (await shop.call('shop.get', {})).templates;
const names = async (shop: FreshDesk, carcass: string) =>
  (await offered(shop)).filter((one) => one.carcass === carcass).map(({ name }) => name);

function chops(more: Partial<Template> = {}, orders: Partial<Template['instructions']> = {}): Template {
  return {
    name: 'Chops and links', carcass: 'boar',
    instructions: {
      cutsShare: 0.17, primals: [{ primal: 'loin', as: 'steaks', size: '¾ in' }], fat: 'own', targetFat: 0.2,
      grindProduct: 'Links', packageGrams: 500, extras: ['heart kept'], note: 'no shank', ...orders,
    },
    ...more,
  }; // prettier-ignore
}

describe('ways to cut', () => {
  it('of the shop’s own come first, with everything that was said', async () => {
    const shop = await freshDesk();
    const saved = await shop.call('templates.save', chops());
    expect(saved).toMatchObject({
      id: 1,
      name: 'Chops and links',
      carcass: 'boar',
      supplied: false,
      offered: true,
    });
    expect(saved.instructions).toMatchObject({ ...chops().instructions, pattyGrams: null, alsoGround: [] });
    expect((await offered(shop))[0]).toEqual(saved);
    expect((await names(shop, 'boar')).length).toBe(4);
  });

  it('may fit any animal when they name no piece', async () => {
    const shop = await freshDesk();
    expect(await shop.call('templates.save', chops({ carcass: null }, { primals: [] }))).toMatchObject({
      carcass: null,
    });
    expect(await shop.problem('templates.save', chops({ name: 'Other', carcass: null }))).toMatchObject({
      code: 'template.carcass', field: 'carcass',
    }); // prettier-ignore
  });

  it('may name the pieces of a species of the shop’s own', async () => {
    const shop = await freshDesk();
    const primals = ['Front', 'Hind'].map((name) => ({ name, pair: true, share: 1 }));
    await shop.call('species.save', {
      like: 'pronghorn', name: 'Ibex', many: 'ibex', words: { male: 'billy', female: 'nanny', young: 'kid' },
      typicalTyped: '70', primals,
    }); // prettier-ignore
    const orders = { primals: [{ primal: 'hind', as: 'roasts', size: '' }] } as const;
    const ibex = chops({ name: 'Ibex', carcass: 'pronghorn' }, { primals: [...orders.primals] });
    expect((await shop.call('templates.save', ibex)).instructions).toMatchObject({
      ...orders,
      cutsShare: 0.5,
    });
  });

  it('are changed, renamed, put away and brought back', async () => {
    const shop = await freshDesk();
    const { id } = await shop.call('templates.save', chops());
    const renamed = await shop.call('templates.save', chops({ id: id ?? 0, name: 'Links' }, { note: '' }));
    expect(renamed).toMatchObject({ id, name: 'Links', instructions: { note: '' } });
    expect(await shop.call('templates.archive', { name: 'Links', carcass: 'boar' })).toEqual({
      ...renamed,
      offered: false,
    });
    expect(await names(shop, 'boar')).not.toContain('Links');
    expect(await shop.call('templates.restore', { name: 'Links', carcass: 'boar' })).toEqual(renamed);
    await shop.call('templates.archive', { name: 'Links', carcass: 'boar' });
    expect(await shop.call('templates.save', chops({ name: 'LINKS' }))).toMatchObject({
      id,
      name: 'LINKS',
      offered: true,
    });
  });

  it('that came with the program can be put away, brought back and replaced', async () => {
    const shop = await freshDesk();
    const key = { name: 'All to grind', carcass: 'boar' };
    const before = (await shop.call('shelf.get', {})).templates.find(
      (one) => one.name === key.name && one.carcass === 'boar',
    );
    expect(await shop.call('templates.archive', key)).toEqual({ ...before, offered: false });
    expect(await names(shop, 'boar')).not.toContain(key.name);
    expect(await names(shop, 'bear')).toContain(key.name);
    expect(await shop.call('templates.restore', key)).toEqual(before);
    expect(await shop.problem('templates.save', chops(key))).toMatchObject({ code: 'template.taken' });
    const own = await shop.call('templates.save', chops({ ...key, inPlace: true }));
    expect(own).toMatchObject({ supplied: true, instructions: { grindProduct: 'Links' } });
    expect((await names(shop, 'boar')).filter((name) => name === key.name)).toHaveLength(1);
  });

  it('are audited', async () => {
    const shop = await freshDesk();
    await shop.call('templates.save', chops({ by: 'MK' }));
    shop.desk.close();
    const book = openRecordBook(shop.bookPath, new Date('2026-10-11T00:00:00Z'));
    const notes = book.audit.of('template', 'Chops and links');
    book.close();
    expect(notes).toEqual([expect.objectContaining({ act: 'add', by: 'MK', before: null })]);
  });

  it.each([
    ['template.unknown', 'id', chops({ id: 9 })],
    ['template.carcass', 'carcass', chops({ carcass: 'goose' })],
    ['text.needed', 'name', chops({ name: ' ' })],
    ['primal.unknown', 'primals', chops({ carcass: 'bison' }, { primals: [{ primal: 'ham', as: 'whole', size: '' }] })],
    ['primal.twice', 'instructions.primals', chops({}, { primals: ['a', 'a'].map((primal) => ({ primal, as: 'grind', size: '' })) })],
    ['fat.unknown', 'source', chops({}, { fat: 'goose' })],
    ['fat.unknown', 'source', chops({}, { alsoGround: [{ product: 'Links', grams: 900, fat: 'goose', targetFat: null }] })],
    ['share.range', 'instructions.cutsShare', chops({}, { cutsShare: 2 })],
  ] as const)('refuse %s at %s, and keep nothing', async (code, field, template) => {
    const shop = await freshDesk();
    const before = await offered(shop);
    expect(await shop.problem('templates.save', template)).toMatchObject({ code, field });
    expect(await offered(shop)).toEqual(before);
  }); // prettier-ignore

  it('refuse a name that is taken, and a carcass keeps its names to itself', async () => {
    const shop = await freshDesk();
    const { id } = await shop.call('templates.save', chops());
    await shop.call('templates.save', chops({ name: 'Other' }));
    expect(await shop.problem('templates.save', chops({ name: 'chops AND links' }))).toMatchObject({
      code: 'template.taken',
    });
    expect(await shop.problem('templates.save', chops({ id: id ?? 0, name: 'other' }))).toMatchObject({
      code: 'template.taken',
    });
    const bear = chops({ carcass: 'bear' });
    expect(await shop.call('templates.save', bear)).toMatchObject({
      carcass: 'bear',
      name: 'Chops and links',
    });
  });

  it('ask for packages of the shop’s own unit where nothing else is said', async () => {
    const [lb, kg] = [await freshDesk('lb'), await freshDesk('kg')];
    const packages = async (shop: FreshDesk) =>
      new Set((await offered(shop)).map((one) => one.instructions.packageGrams));
    expect([await packages(lb), await packages(kg)]).toEqual([new Set([453.59237]), new Set([500])]);
  });
});
