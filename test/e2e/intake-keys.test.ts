/** Intake on an opening day: the number of keys, and the order of the questions. */
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import {
  at,
  costLine,
  NEW_HUNTER,
  OWN_CUTS,
  RETURNING,
  takeInNew,
  takeInReturning,
} from '../replay/intake-keys.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Before date fields and the order of fields were improved: 132 keys with 5 clicks, and 59 with 1; 84 and 27 with seldom fields on the way. */
const MAX_KEYS = { new: 82, returning: 26 };
let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  await deerAtDesk(shop, 'Dana Whitfield', {}, { hunter: { name: 'Dana Whitfield', phone: '307-555-0177' } });
  await deerAtDesk(shop, 'Dale Whitmore', {}, { hunter: { name: 'Dale Whitmore', phone: '307-555-0188' } });
  await shop.keys.goTo('intake', 2);
  // The first animal of the day sets its species; the next ones keep it.
  await shop.keys.fill('Name or phone number', 'Opal First');
  await shop.keys.choose('Species', 'Mule deer');
  await shop.keys.choose('Sex', 'Doe');
  await shop.keys.choose('Came in as', 'Skinned');
  await shop.keys.press('Control+Enter');
  await shop.keys.pressOn('Next animal');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

it('receives from a new hunter with instructions', async () => {
  const cost = await takeInNew(shop, NEW_HUNTER, OWN_CUTS);
  console.log(costLine('new hunter with a cut sheet of his own', cost));
  const page = await shop.call('animals.get', { ticket: cost.ticket });
  const { today } = await shop.call('shop.get', {});
  expect(page).toMatchObject({ sex: 'male', age: 'adult', brought: 'whole', tag: 'M-40218' });
  expect(page.hunter).toMatchObject({ name: 'Amos Sandoval', phone: '307-555-0142' });
  expect(Date.parse(today) - Date.parse(page.killDate ?? '')).toBe(86_400_000);
  expect(page.weights.receivedGrams).toBeCloseTo(142.6 * 453.59237, 6);
  expect(page.instructions.primals).toEqual([
    { primal: 'neck', as: 'roasts', size: '3 lb' },
    { primal: 'saddle', as: 'steaks', size: '1 in' },
    { primal: 'haunch', as: 'steaks', size: '¾ in' },
  ]);
  expect(cost.clicks).toBe(0);
  expect(cost.keys).toBeLessThanOrEqual(MAX_KEYS.new);
});

it('receives from a returning hunter with the same instructions as last time', async () => {
  const cost = await takeInReturning(shop, RETURNING);
  console.log(costLine('returning hunter, same as last time', cost));
  const page = await shop.call('animals.get', { ticket: cost.ticket });
  expect(page.hunter.name).toBe('Amos Sandoval');
  expect(page.killDate).toMatch(/-03$/);
  expect(page.instructions.primals).toHaveLength(3);
  expect(cost.clicks).toBe(0);
  expect(cost.keys).toBeLessThanOrEqual(MAX_KEYS.returning);
});

it('returns from a drop-off receipt with the name field focused', async () => {
  const { page, keys } = shop;
  await keys.fill('Name or phone number', 'Lee Rowan');
  await keys.choose('Sex', 'Doe');
  await keys.choose('Came in as', 'Skinned');
  await keys.press('Control+Enter');
  let answer = (): void => {};
  const asked = new Promise<void>((resolve) => (answer = resolve));
  await page.route('**/call/animals.getDropOff', (route) => asked.then(() => route.continue()));
  await keys.pressOn('Drop-off receipt');
  await keys.tabTo(page.getByRole('link', { name: 'Next animal' }));
  // The deposit, in which Enter takes money, comes late and leaves the focus where it is.
  answer();
  await page.getByLabel('Amount', { exact: true }).waitFor();
  await at(page, 'A');
  await keys.press('Enter');
  await at(page, 'Name or phone number');
});

it('does not select a hunter whose name only begins alike', async () => {
  const { page, keys } = shop;
  const hunters = async () => (await shop.call('hunters.find', { text: 'Whit' })).length;
  const before = await hunters();
  await keys.fill('Name or phone number', 'Whit');
  await keys.press('Enter');
  // Two matches: Enter continues with the typed text and selects nobody.
  await page.getByRole('textbox', { name: 'Phone', exact: true }).waitFor();
  expect(await page.getByRole('combobox', { name: 'Name or phone number' }).inputValue()).toBe('Whit');
  await keys.fill('Name or phone number', 'Whitm');
  await page.getByText('Press Enter for Dale Whitmore').waitFor();
  await keys.press('Tab');
  expect(await page.getByRole('combobox', { name: 'Name or phone number' }).inputValue()).toBe('Whitm');
  await keys.fill('Name or phone number', 'Whitm');
  await keys.press('Enter');
  await page.getByRole('button', { name: 'Someone else' }).click();
  // The typed text is restored, to continue with a new hunter.
  expect(await page.getByRole('combobox', { name: 'Name or phone number' }).inputValue()).toBe('Whitm');
  expect(await hunters()).toBe(before);
  expect(shop.complaints).toEqual([]);
});
