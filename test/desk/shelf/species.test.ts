import { describe, expect, it } from 'vitest';
import type { CallInput, CallName } from '../../../src/bridge/contract.ts';
import type { SpeciesProfile } from '../../../src/core/species/species.ts';
import { expectWholeProfile } from '../../core/species/whole-profile.ts';
import { cut, deskOn, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
type Wish = CallInput<'species.save'>;

function sika(more: Partial<Wish> = {}): Wish {
  return {
    like: 'white-tail', name: 'Sika deer', many: 'sika deer', words: { male: 'stag', female: 'hind', young: 'calf' },
    typicalTyped: '60 lb',
    primals: [
      { code: 'neck', name: 'Neck', pair: false, share: 12 },
      { code: 'shoulder', name: 'Shoulder', pair: true, share: 20 },
      { name: 'Back strap', pair: true, share: 10 },
      { code: 'haunch', name: 'Leg', pair: true, share: 38 },
    ],
    ...more,
  }; // prettier-ignore
}

const offered = async (shop: FreshDesk) => (await shop.call('shop.get', {})).species;
const onShelf = async (shop: FreshDesk, code: string) =>
  (await shop.call('shelf.get', {})).species.find((one) => one.code === code);

describe('a species of the shop’s own', () => {
  it('is on offer at once, with its words, its pieces and where its figures come from', async () => {
    const shop = await freshDesk();
    const saved = await shop.call('species.save', sika({ by: 'MK' }));
    expect(saved).toMatchObject({
      code: 'sika-deer', own: true, supplied: false, offered: true, like: 'white-tail', body: 'cervid',
      cookTo: { f: 165, c: 74 }, hangingGrams: { typical: expect.closeTo(60 * LB, 6) },
    }); // prettier-ignore
    expect(saved.primals.map(({ code, share }) => [code, share])).toEqual([
      ['neck', 0.15], ['shoulder', 0.25], ['back-strap', 0.125], ['haunch', 0.475],
    ]); // prettier-ignore
    expect((await offered(shop)).map(({ code }) => code)).toContain('sika-deer');
    const { animal, audit, profile } = inBook(shop, (book) => ({
      animal: book.ownSpecies.all().length,
      audit: book.audit.of('species', 'sika-deer'),
      profile: JSON.parse(book.ownSpecies.all()[0]!.profile) as SpeciesProfile,
    }));
    expect(animal).toBe(1);
    expect(audit).toEqual([expect.objectContaining({ act: 'add', before: null, by: 'MK' })]);
    expectWholeProfile(profile);
  });

  it('is quoted, taken in, cut and ground, and its weights teach the next quote', async () => {
    const shop = await freshDesk();
    await shop.call('species.save', sika());
    const asked: CallInput<'quotes.calculate'> = {
      species: 'sika-deer', stage: 'hanging', typed: '60', sex: 'male', age: 'adult', brought: 'skinned',
      instructions: {
        cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
      },
    }; // prettier-ignore
    const before = await shop.call('quotes.calculate', asked);
    expect(before.takeHomeGrams.low).toBeLessThan(before.takeHomeGrams.mean);
    for (let i = 0; i < 4; i++) {
      const id = await takeIn(shop, { species: 'sika-deer' }, `6${i}`);
      await cut(shop, id, { 'whole cuts': '20', trim: `2${i}`, bone: '12', sinew: '4' });
      await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product: 'Steaks', count: 9, typed: '20' });
      const { id: batchId } = await shop.call('grinder.start', { animals: [{ id }], fat: 'none', targetFat: null, product: 'Ground' });
      await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: `2${i}` });
      await shop.call('grinder.pack', { batchId, product: 'Ground', count: 20, typed: '19.8' });
      await shop.call('grinder.finish', { batchId });
      const page = await shop.call('animals.get', { id });
      expect(page.species).toMatchObject({ code: 'sika-deer', name: 'Sika deer', cookTo: { f: 165 } });
      await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    }
    const after = await shop.call('quotes.calculate', asked);
    expect(after.takeHomeGrams.mean).toBeGreaterThan(before.takeHomeGrams.mean + LB);
    expect(after.takeHomeGrams.high - after.takeHomeGrams.low).toBeLessThan(before.takeHomeGrams.high - before.takeHomeGrams.low);
    expect(shop.broken).toEqual([]);
  }); // prettier-ignore

  it('that an earlier program kept gets the figures of this one, and keeps what the shop said', async () => {
    const shop = await freshDesk();
    await shop.call('species.save', sika());
    const kept = inBook(shop, (book) => {
      const [row] = book.ownSpecies.all();
      const profile = JSON.parse(row?.profile ?? '') as SpeciesProfile;
      // As it was kept before figures had a grade, and legs were on or off.
      const GONE = ['grade', 'cites', 'legsOff', 'primalsFrom'];
      const earlier = JSON.parse(row?.profile ?? '', (key, value: unknown) =>
        GONE.includes(key) ? undefined : key === 'source' ? 'a forum' : value,
      ) as object;
      book.ownSpecies.put('sika-deer', { ...earlier, primalsSource: 'a forum' }, true);
      return profile;
    });
    const again = await deskOn(shop.bookPath);
    const asked: CallInput<'quotes.calculate'> = {
      species: 'sika-deer', stage: 'legs off', typed: '60', sex: 'male', age: 'adult', brought: 'whole',
      instructions: {
        cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
      },
    }; // prettier-ignore
    const { restsOn } = await again.call('quotes.calculate', asked);
    expect(restsOn.takeHome.grade).toBe('assumption');
    expect(restsOn.takeHome.source).not.toContain('forum');
    expect(await onShelf(again, 'sika-deer')).toMatchObject({
      name: 'Sika deer', hangingGrams: { typical: kept.hangingGrams.typical },
      primals: kept.primals.map(({ name }) => ({ name })),
    }); // prettier-ignore
  });

  it('keeps its code when its name changes, and its weights when none are typed', async () => {
    const shop = await freshDesk('kg');
    const { code, primals } = await shop.call('species.save', sika({ typicalTyped: '27', leastTyped: '12' }));
    const unweighed = sika({ typicalTyped: undefined, code, name: 'Sika', primals });
    const renamed = await shop.call('species.save', unweighed);
    expect(renamed).toMatchObject({ code, name: 'Sika', hangingGrams: { typical: 27_000, least: 12_000 } });
    expect(renamed.primals).toEqual(primals);
  });

  it('gets a code of its own whatever its name', async () => {
    const shop = await freshDesk();
    const names = ['Elk!', 'Mule Deer?', '野生', 'Ærø deer'];
    const codes: string[] = [];
    for (const name of names) codes.push((await shop.call('species.save', sika({ name }))).code);
    expect(codes).toEqual(['elk-2', 'mule-deer-2', 'species', 'r-deer']);
  });

  it('put away is offered no more, and its animals still open everywhere', async () => {
    const shop = await freshDesk();
    const { code } = await shop.call('species.save', sika());
    const id = await takeIn(shop, { species: code }, '58');
    await cut(shop, id, { trim: '20' });
    expect(await shop.call('species.archive', { code })).toMatchObject({ offered: false, own: true });
    expect((await offered(shop)).map((one) => one.code)).not.toContain(code);
    await cut(shop, id, { bone: '12' });
    const page = await shop.call('animals.get', { id });
    expect(page.species).toMatchObject({ code, primals: expect.arrayContaining([expect.objectContaining({ code: 'back-strap' })]) });
    const everywhere: [CallName, object][] = [
      ['rail.get', {}], ['grinder.get', {}], ['season.yields', {}], ['season.fat', {}], ['season.check', {}], ['records.list', {}], ['animals.find', { text: page.ticket }],
    ];
    for (const [call, input] of everywhere) expect((await shop.desk.call(call, input)).ok, call).toBe(true);
    expect(await shop.call('species.restore', { code })).toMatchObject({ offered: true, name: 'Sika deer' });
    expect((await offered(shop)).map((one) => one.code)).toContain(code);
    expect(shop.broken).toEqual([]);
  }); // prettier-ignore

  it('keeps the pieces that animals were weighed, brought or ordered by', async () => {
    const shop = await freshDesk();
    const { code, primals } = await shop.call('species.save', sika());
    await takeIn(
      shop,
      { species: code, brought: 'quarters', parts: [{ primal: 'back-strap', count: 2 }] },
      null,
    );
    const without = (gone: string) => primals.filter((one) => one.code !== gone);
    expect(await shop.problem('species.save', { ...sika(), code, primals: without('back-strap') })).toMatchObject({
      kind: 'refused', code: 'species.primal-used', with: { primal: 'Back strap' },
    }); // prettier-ignore
    const less = await shop.call('species.save', { ...sika(), code, primals: without('neck') });
    expect(less.primals.map((one) => one.code)).toEqual(['shoulder', 'back-strap', 'haunch']);
  });
});

describe('a species that came with the program', () => {
  const wishOf = async (shop: FreshDesk, code: string, more: Partial<Wish> = {}): Promise<Wish> => {
    const { name, many, words, primals } = (await onShelf(shop, code))!;
    return { code, like: code, name, many, words, primals, ...more };
  };

  it('may be renamed with its words, weights and pieces; its figures and its codes stay', async () => {
    const shop = await freshDesk();
    const wish = await wishOf(shop, 'elk', { name: 'Wapiti', typicalTyped: '300' });
    const primals = wish.primals.map((one) => ({ ...one, name: `${one.name}!`, share: 1 }));
    const changed = await shop.call('species.save', { ...wish, primals });
    expect(changed).toMatchObject({ code: 'elk', name: 'Wapiti', own: true, supplied: true, like: null });
    expect(changed.hangingGrams.typical).toBeCloseTo(300 * LB, 6);
    expect(changed.primals.map(({ name }) => name)).toContain('Hind leg!');
    expect(changed.primals.map(({ share }) => share)).toEqual([0.1251, 0.1768, 0.1539, 0.1529, 0.3913]);
    expect((await offered(shop)).filter(({ code }) => code === 'elk')).toHaveLength(1);
    expect(await shop.problem('species.save', { ...wish, primals: primals.slice(1) })).toMatchObject({
      code: 'species.supplied-primals',
    });
  });

  it('put away and brought back is as it came', async () => {
    const shop = await freshDesk();
    const before = await onShelf(shop, 'cougar');
    expect(await shop.call('species.archive', { code: 'cougar' })).toEqual({ ...before, offered: false });
    expect((await offered(shop)).map(({ code }) => code)).not.toContain('cougar');
    expect(await shop.call('species.restore', { code: 'cougar' })).toEqual(before);
  });

  it('leaves at least one on offer', async () => {
    const shop = await freshDesk();
    const [first, ...others] = (await offered(shop)).map(({ code }) => code);
    for (const code of others) await shop.call('species.archive', { code });
    expect(await shop.problem('species.archive', { code: first })).toMatchObject({
      kind: 'refused',
      code: 'species.last',
    });
  });
});

describe('what cannot be', () => {
  it.each([
    ['species.like', 'like', { like: 'dragon' }],
    ['species.taken', 'name', { name: 'mule DEER' }],
    ['text.needed', 'name', { name: '  ' }],
    ['text.needed', 'words.female', { words: { male: 'a', female: '', young: 'c' } }],
    ['reading.empty', 'typicalTyped', { typicalTyped: undefined }],
    ['reading.unreadable', 'leastTyped', { leastTyped: 'small' }],
    ['reading.negative', 'mostTyped', { mostTyped: '-3' }],
    ['species.weights', 'typicalTyped', { leastTyped: '70' }],
    ['species.weights', 'typicalTyped', { typicalTyped: '2 lb' }],
    ['species.no-primals', 'primals', { primals: [] }],
    ['species.primal-share', 'primals', { primals: [{ name: 'All', pair: false, share: 0 }] }],
    ['species.primal-twice', 'primals', { primals: ['Leg', 'leg'].map((name) => ({ name, pair: false, share: 1 })) }],
    ['primal.unknown', 'primals', { primals: [{ code: 'wing', name: 'Wing', pair: true, share: 1 }] }],
    ['species.too-many-primals', 'primals', { primals: Array.from({ length: 21 }, (_, i) => ({ name: `${i}`, pair: false, share: 1 })) }],
    ['species.unknown', 'species', { code: 'unicorn' }],
  ])('is refused with %s at %s, and nothing is kept', async (code, field, more) => {
    const shop = await freshDesk();
    const before = await shop.call('shelf.get', {});
    expect(await shop.problem('species.save', { ...sika(), ...more })).toMatchObject({ code, field });
    expect(await shop.call('shelf.get', {})).toEqual(before);
    expect(shop.broken).toEqual([]);
  }); // prettier-ignore
});
