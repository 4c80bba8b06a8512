/**
 * Two windows on one book: each shows the other's changes immediately, and saving the same tote twice needs a
 * confirmation.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import type { Keys } from './keys.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let other: { page: Page; keys: Keys };
let animal: { id: number; ticket: string };
let tray: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  animal = await deerAtDesk(shop, 'Ann Alder');
  tray = await deerAtDesk(shop, 'Bo Birch');
  await shop.call('table.weigh', { animalId: animal.id, stage: 'hanging', part: 'carcass', typed: '78.5' });
  other = await shop.another();
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

/** One weight at the Table of a window: the letter of the part, the number, Enter. */
async function weigh(
  { page, keys }: { page: Page; keys: Keys },
  letter: string,
  typed: string,
): Promise<void> {
  await keys.tabTo(page.locator('main input[inputmode="decimal"]').first());
  await keys.press(letter);
  await keys.type(typed);
  await keys.press('Enter');
}
const kept = (page: Page, text: string) =>
  page.getByRole('table', { name: 'Weights of this animal' }).getByText(text).first();

describe('two windows on one book', () => {
  it('open an animal from its barcode on any page', async () => {
    await shop.keys.goTo('season', 8);
    await other.keys.goTo('rail', 1);
    const times = [await scanTicket(shop.page, animal.ticket), await scanTicket(other.page, animal.ticket)];
    // And from one animal straight to another and back, with the focus in the number entry.
    for (const { ticket } of [tray, animal, tray, animal]) times.push(await scanTicket(shop.page, ticket));
    console.log(
      `from the barcode's Enter to the animal on the screen, ms: ${times.map((ms) => ms.toFixed(0)).join(', ')}`,
    );
    expect(times.every((ms) => ms > 0)).toBe(true);
  });

  it('never save a barcode as a weight, even of the open animal', async () => {
    const entry = shop.page.locator('main input[inputmode="decimal"]').first();
    await shop.keys.tabTo(entry);
    await shop.keys.type('12');
    // Nobody types and scans within a moment.
    await shop.page.waitForTimeout(300);
    await scanTicket(shop.page, animal.ticket);
    await shop.page.waitForFunction(() => {
      const field = document.querySelector<HTMLInputElement>('main input[inputmode="decimal"]');
      return field?.value === '12';
    });
    // Also with the weight selected, as after a refusal: the reader then replaces it.
    await shop.keys.press('ControlOrMeta+a');
    await shop.page.waitForTimeout(300);
    await scanTicket(shop.page, animal.ticket);
    await shop.page.waitForFunction(() => {
      const field = document.querySelector<HTMLInputElement>('main input[inputmode="decimal"]');
      return field?.value === '12';
    });
    await shop.keys.press('ControlOrMeta+a');
    await shop.keys.press('Backspace');
  });

  it('show each other’s weights immediately', async () => {
    await weigh(shop, 't', '20.45');
    await kept(shop.page, '20.45 lb').waitFor();
    await kept(other.page, '20.45 lb').waitFor({ timeout: 2_000 });
  });

  it('ask before saving the same tote again from the other window', async () => {
    await weigh(other, 't', '20.45');
    await other.page.getByText('Same weight again?').waitFor();
    await other.keys.press('n');
    await other.page.getByText('Same weight again?').waitFor({ state: 'detached' });
    const { trimGrams } = await shop.call('animals.get', { id: animal.id });
    expect(trimGrams / 453.59237).toBeCloseTo(20.45, 9);
  });

  it('save it as a second tote if confirmed', async () => {
    await weigh(other, 't', '20.45');
    await other.page.getByText('Same weight again?').waitFor();
    await other.keys.press('y');
    await shop.page
      .getByRole('row', { name: /^Trim.* 40\.90 lb/ })
      .first()
      .waitFor({ timeout: 3_000 });
  });

  it('keep a half-typed weight when the other window writes', async () => {
    await other.keys.tabTo(other.page.locator('main input[inputmode="decimal"]').first());
    await other.keys.type('7.2');
    await weigh(shop, 'b', '17.05');
    await kept(other.page, '17.05 lb').waitFor({ timeout: 2_000 });
    expect(await other.page.locator('main input[inputmode="decimal"]').first().inputValue()).toBe('7.2');
    expect(shop.complaints).toEqual([]);
  });
});
