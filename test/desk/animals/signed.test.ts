/** The shop's terms in the hunter's language, what was signed of them, and the price list beside the cuts. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { freshDesk } from '../fresh-desk.ts';
import { floorOn, type Floor } from '../stations/floor.ts';

const ENGLISH = 'Pick up within 5 days.';
const SPANISH = 'Recoja en 5 días.';
const SIGNATURE = 'M10,20L30,40';
const DRAFT = { name: 'Rosa Vega', species: 'elk', sex: 'female', signature: SIGNATURE } as const;
type Line = CallInput<'prices.save'>['lines'][number];
const line = (more: Partial<Line>): Line => ({
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  products: [], kinds: [], recipes: [], least: null, fatSource: null, taxRate: 0, ...more,
}); // prettier-ignore

let floor: Floor;
beforeEach(async () => {
  floor = await floorOn(await freshDesk());
  await floor.call('shop.saveSettings', {
    changes: { dropOffTerms: ENGLISH, dropOffTermsIn: { 'es-MX': SPANISH } },
  });
});
afterEach(() => floor.desk.close());

const begin = (language: CallInput<'drafts.begin'>['language']) => floor.call('drafts.begin', { language });

describe('the shop’s terms', () => {
  it('are in the hunter’s language where the shop wrote them, else in its own', async () => {
    expect(await begin('es-MX')).toMatchObject({ terms: SPANISH, termsLanguage: 'es-MX' });
    expect(await begin('fr-CA')).toMatchObject({ terms: ENGLISH, termsLanguage: 'en-US' });
    expect(await begin('en-CA')).toMatchObject({ terms: ENGLISH });
  });

  it('are signed in the language in which they were read', async () => {
    const wrong = { ...DRAFT, language: 'es-MX' as const, terms: ENGLISH };
    expect(await floor.problem('drafts.add', wrong)).toMatchObject({ code: 'draft.terms-changed' });
    expect(await floor.call('drafts.add', { ...wrong, terms: SPANISH })).toEqual({ id: 1 });
  });

  it('stay as they were signed, with signature, day and since when they were the shop’s', async () => {
    const { id } = await floor.call('drafts.add', { ...DRAFT, language: 'es-MX', terms: SPANISH });
    floor.wait(3 * 86_400);
    await floor.call('shop.saveSettings', { changes: { dropOffTermsIn: { 'es-MX': 'Otras.' } } });
    const animal = await floor.call('intake.takeIn', {
      hunter: { name: 'Rosa Vega' }, species: 'elk', sex: 'female', age: 'adult', brought: 'skinned', draftId: id,
    }); // prettier-ignore
    const signed = {
      name: 'Rosa Vega', terms: SPANISH, language: 'es-MX', since: '2026-10-10', signature: SIGNATURE, on: '2026-10-10',
    }; // prettier-ignore
    expect(await floor.call('drafts.getSigned', { draftId: id })).toEqual(signed);
    expect(await floor.call('drafts.getSigned', { animalId: animal.id })).toEqual(signed);
    const counter = await floor.pair('counter');
    expect(await counter.call('drafts.getSigned', { animalId: animal.id })).toMatchObject({ value: signed });
    const table = await floor.pair('table', 'Table');
    expect(await table.call('drafts.getSigned', { animalId: animal.id })).toMatchObject({
      problem: { code: 'station.place' },
    });
  });

  it('are signed of no animal that came without the check-in', async () => {
    expect(await floor.call('drafts.getSigned', { animalId: 99 })).toBeNull();
  });
});

describe('the price list at the check-in', () => {
  it('is the shop’s own, never the example’s', async () => {
    expect((await begin('es-MX')).prices).toBeNull();
    const { today } = await floor.call('shop.get', {});
    await floor.call('prices.save', {
      name: 'Fall', validFrom: today, taxRule: 'per line',
      lines: [line({}), line({ code: 'links', label: 'Links', basis: 'product', amountMinor: 350, unit: 'lb', kinds: ['sausage'] })],
    }); // prettier-ignore
    const { prices, ways, usual } = await begin('es-MX');
    expect(prices).toMatchObject({
      currency: 'USD',
      lines: [{ code: 'cut', basis: 'animal', amountMinor: 9500 }, { code: 'links', unit: 'lb', amountMinor: 350 }],
    }); // prettier-ignore
    expect(usual.charges).toEqual([]);
    const sausage = ways.filter(({ charges }) => charges.includes('links'));
    expect(sausage.length).toBeGreaterThan(0);
    for (const { made } of sausage) expect(made.join()).toMatch(/chori|salchich/i);
  });
});

describe('the ways to cut at the check-in', () => {
  it('fit the species that have what they name, and only bodies that they are for', async () => {
    const { ways, usual, species } = await begin('en-US');
    expect(usual.fits).toEqual(species.map(({ code }) => code));
    for (const { fits, instructions } of ways)
      for (const { code, primals } of species)
        if (fits.includes(code))
          for (const { primal } of instructions.primals)
            expect(primals.map((one) => one.code)).toContain(primal);
    const bodies = new Set(ways.filter(({ fits }) => fits.length < species.length).map(({ title }) => title));
    expect(bodies.size).toBeGreaterThan(0);
  });
});
