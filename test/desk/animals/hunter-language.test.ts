/** The language that a hunter is written to in: kept with the hunter, and the shop's while nobody chose one. */
import { describe, expect, it } from 'vitest';
import { messageTo } from '../../../src/ui/pickup/message.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

describe('the language of a hunter', () => {
  it('is the shop’s until one is chosen, and shows with the animal and in its history', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const { hunter } = await shop.call('animals.get', { id });
    expect(hunter.language).toBe('');
    const { name, phone } = hunter;
    await shop.call('hunters.save', { id: hunter.id, name, phone, language: 'fr-CA' });
    expect((await shop.call('animals.get', { id })).hunter.language).toBe('fr-CA');
    expect((await shop.call('hunters.find', { text: 'Dana' }))[0]?.language).toBe('fr-CA');
    shop.desk.close();
  });

  it('comes with a new hunter at intake, and is one of those that the program speaks', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { hunter: { name: 'Rosa Vega', language: 'es-MX' } });
    expect((await shop.call('animals.get', { id })).hunter.language).toBe('es-MX');
    const wrong = { name: 'Rosa Vega', language: 'qps' };
    expect(await shop.problem('hunters.save', wrong)).toMatchObject({ kind: 'invalid', field: 'language' });
    shop.desk.close();
  });

  it('is kept where a hunter is edited by a window that does not know it', async () => {
    const shop = await freshDesk();
    const { id } = await shop.call('hunters.save', { name: 'Rosa Vega', language: 'es-MX' });
    await shop.call('hunters.save', { id, name: 'Rosa Vega Ruiz' });
    expect((await shop.call('hunters.find', { text: 'Rosa' }))[0]?.language).toBe('es-MX');
    shop.desk.close();
  });
});

it('a message is written in it, with the shop’s numbers', async () => {
  await loadLanguage('fr-CA');
  const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD', language: 'fr-CA' });
  const animal = {
    ticket: '26-0001', hunter: 'Luc Roy', speciesName: 'Orignal', packages: 114, grams: 51_664.17, billed: true, dueMinor: 18_558, currency: 'USD',
  }; // prettier-ignore
  const text = messageTo(animal, { shopName: 'Atelier du Nord', pickupMessage: '' }, format, 'fr-CA');
  expect(text).toContain('Orignal');
  expect(text).toContain('$185.58');
  expect(text).not.toMatch(/Hello|packed|Balance/);
});
