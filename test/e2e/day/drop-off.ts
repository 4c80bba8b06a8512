/** The counter in the morning: twelve animals with their deposits, receipts and belongings. */
import { expect } from 'vitest';
import { at, enterTo } from '../../replay/intake-keys.ts';
import { typed } from './figures.ts';
import { follow, look, openAnimal, pressInSheet } from './hands.ts';
import { timesPrinted, type Day } from './open-day.ts';
import { GUESTS, GUS, type Guest, type Who } from './people.ts';

const LOOKED_AT: ReadonlySet<Who> = new Set(['al', 'hal']);

export async function takeIn(day: Day, who: Who): Promise<void> {
  const { page, keys, call } = day;
  const guest: Guest = GUESTS[who];
  await at(page, 'Name or phone number');
  await keys.type(guest.find ?? guest.name);
  if (guest.find) await page.getByText(`Press Enter for ${guest.name}`).waitFor();
  await keys.press('Enter');
  if (guest.find) {
    await at(page, /^Same cut sheet/);
    await keys.press('y');
  } else {
    await at(page, 'Phone');
    await keys.type(guest.phone);
  }
  await keys.choose('Species', guest.species);
  await keys.choose('Sex', guest.sex);
  await keys.choose('Age', 'Adult');
  await keys.choose('Came in as', guest.brought);
  for (const [piece, count] of Object.entries(guest.pieces ?? {}))
    await keys.fill(`Pieces of ${piece}`, count);
  await keys.fill('Weight received', guest.received);
  await enterTo(day, 'Tag or permit');
  await keys.type(guest.tag);
  await enterTo(day, 'Killed on');
  await keys.type('yesterday');
  if (LOOKED_AT.has(who)) await look(day, `1-intake-${who}`);
  await keys.press('Control+Enter');
  // The tag shows the next number while it is filled in.
  await page.getByRole('button', { name: 'Next animal' }).waitFor();
  const shown = page.locator('main .ticket').filter({ hasText: /^\s*\d\d-\d{4}\s*$/ });
  await shown.first().waitFor();
  const ticket = (await shown.first().innerText()).trim();
  day.tickets[who] = ticket;
  day.ids[who] = (await call('animals.get', { ticket })).id;
  if (guest.deposit) await takeDeposit(day, who, guest.deposit);
  else await keys.pressOn('Next animal');
}

/** Takes the deposit on the drop-off receipt: the default or a typed amount, a letter, Enter; then it prints. */
async function takeDeposit(day: Day, who: Who, { cents, key }: NonNullable<Guest['deposit']>): Promise<void> {
  const { page, keys, call } = day;
  await keys.pressOn('Drop-off receipt');
  await page
    .getByRole('heading', { name: `Drop-off receipt ${day.tickets[who]}` })
    .first()
    .waitFor();
  await at(page, 'Amount');
  expect(await page.getByRole('textbox', { name: 'Amount' }).inputValue()).toBe('50.00');
  await keys.press('ControlOrMeta+a');
  await keys.type(typed(cents));
  await keys.press(key);
  if (LOOKED_AT.has(who)) await look(day, '1-deposit');
  const printedBefore = await timesPrinted(day);
  await keys.press('Enter');
  await expect.poll(() => timesPrinted(day)).toBe(printedBefore + 1);
  const { payments } = await call('bills.get', { animalId: day.ids[who] });
  const method = { c: 'cash', h: 'check', a: 'card' }[key];
  expect(payments).toMatchObject([{ kind: 'deposit', method, amountMinor: cents, by: 'MK' }]);
  await follow(day, 'Next animal');
}

/** Flo and Gus share Flo's deer 60 to 40 percent. */
export async function splitAmongTwo(day: Day): Promise<void> {
  const { page, keys } = day;
  await openAnimal(day, 'flo');
  await keys.pressOn('Split among hunters');
  await keys.fill('Hunter 2', GUS.name);
  await keys.press('Tab');
  await keys.fill('Phone, new hunter 2', GUS.phone);
  await keys.fill('Percent, hunter 1', '60');
  await keys.fill('Percent, hunter 2', '40');
  await look(day, '2-shares');
  await pressInSheet(day, 'Save shares');
  await page.getByText(`${GUS.name}: 40.0%`).waitFor();
}

/** Kay's cape is stored under its own tag. */
export async function addCape(day: Day): Promise<void> {
  const { page, keys } = day;
  await openAnimal(day, 'kay');
  await keys.pressOn('Add item');
  await keys.fill('Item', 'cape');
  await keys.fill('Tag', 'C-20');
  await look(day, '2-cape');
  await keys.press('Enter');
  await page
    .getByRole('table', { name: 'Items' })
    .getByRole('row', { name: /Cape C-20 here/ })
    .waitFor();
}
