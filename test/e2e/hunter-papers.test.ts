/** What a hunter takes home on paper is written in the hunter's language, and the window keeps its own. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CallInput } from '../../src/bridge/contract.ts';
import { printed } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };
const NO_FILTER = { rate: null, species: null, brought: null, product: null, fatSource: null, taxRate: 0 };
const LINES: CallInput<'prices.save'>['lines'] = [
  { code: 'hang', label: 'Our cutting', basis: 'hanging', unit: 'lb', amountMinor: 95, ...NO_FILTER },
];

beforeAll(async () => {
  shop = await openShop();
  const { call } = shop;
  await call('prices.save', { name: 'Fall prices', validFrom: '2020-01-01', lines: LINES });
  deer = await deerAtDesk(shop, 'Benito Encina');
  const { hunter } = await call('animals.get', { id: deer.id });
  const { name, phone, email, address, licence, refusesPooling } = hunter;
  await call('hunters.save', {
    ...{ id: hunter.id, name, phone, email, address, licence, refusesPooling },
    language: 'es-MX',
    reason: 'Speaks Spanish',
  });
  await call('bills.create', { animalId: deer.id, confirmed: true });
});
afterAll(() => shop?.close());

async function paperAt(hash: string, says: string): Promise<string> {
  const { page } = shop;
  await page.evaluate((to) => (location.hash = to), hash);
  await page.locator('article').getByText(says).first().waitFor();
  expect(await page.locator('html').getAttribute('lang')).toBe('en-US');
  const [sheet] = await printed(page);
  return sheet?.words ?? '';
}

it('is in Spanish for a hunter who reads Spanish: the claim receipt, with what the program names', async () => {
  const words = await paperAt(`#/receipt/${deer.ticket}`, 'Recibo de entrada');
  for (const said of ['Venado bura', 'Desollado', 'Cazador', 'Traiga este recibo'])
    expect(words).toContain(said);
  expect(words).not.toMatch(/Mule deer|Hunter|Bring this/);
});

it('is in Spanish on the bill, where what the shop wrote stays as it is', async () => {
  const words = await paperAt(`#/bill/${deer.ticket}`, 'Saldo pendiente');
  for (const said of ['Cuenta 1', 'Our cutting', '80.00 lb', '$76.00']) expect(words).toContain(said);
  expect(words).not.toMatch(/Balance due|Mule deer/);
  await shop.page.getByRole('heading', { name: `Bill for ${deer.ticket}` }).waitFor();
});

it('is in Spanish on the receipt for a payment', async () => {
  const { id } = await shop.call('bills.pay', {
    animalId: deer.id, kind: 'payment', method: 'cash', typed: '20', by: '',
  }); // prettier-ignore
  const words = await paperAt(`#/receipt/${deer.ticket}/${id}`, 'Efectivo');
  expect(words).toContain('$56.00');
  expect(words).not.toMatch(/Cash|Balance/);
});

it('is in Spanish on a quote that was given to the hunter', async () => {
  const { hunter } = await shop.call('animals.get', { id: deer.id });
  const { id } = await shop.call('quotes.save', {
    species: 'mule-deer', brought: 'skinned', stage: 'hanging', typed: '80', hunterId: hunter.id, hunterName: '',
    instructions: { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '' },
  }); // prettier-ignore
  const words = await paperAt(`#/quote/${id}/paper`, 'Carne entregada');
  expect(words).toContain('Venado bura');
  expect(words).not.toMatch(/Take-home|Good until|Mule deer/);
});

it('is in Spanish on the statement', async () => {
  const { hunter } = await shop.call('animals.get', { id: deer.id });
  const words = await paperAt(`#/till/statement/${hunter.id}`, 'Saldo pendiente');
  expect(words).not.toMatch(/Balance|Payment/);
});

it('is printed in another language when one is chosen, and by keyboard', async () => {
  const { keys, page } = shop;
  await keys.choose('Language of this paper', 'English (United States)');
  await page.locator('article').getByText('Balance due').first().waitFor();
  expect(shop.complaints).toEqual([]);
});
