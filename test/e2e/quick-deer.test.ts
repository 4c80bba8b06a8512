/** A deer weighed quickly: a few key presses from its ticket to "ready for pickup". */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** A keystroke group is a number with its Enter, or a single key that decides something. */
const MAX_GROUPS = 6;
const LB = 453.59237;

let shop: ShopWindow;
let deer: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  // The first ticket of a season is cut in detail; the second is not.
  await deerAtDesk(shop, 'Ann Alder');
  deer = await deerAtDesk(shop, 'Bo Birch');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

describe('a quick deer', () => {
  it('keeps a half-typed weight while the Rail is open', async () => {
    const { keys, page } = shop;
    await scanTicket(page, deer.ticket);
    await keys.type('78');
    await keys.goTo('rail', 1);
    await scanTicket(page, deer.ticket);
    const entry = page.getByRole('textbox', { name: 'Hanging weight', exact: true });
    expect(await entry.inputValue()).toBe('78');
    await keys.press('ControlOrMeta+a');
    await keys.press('Backspace');
  });

  it('is weighed, packed and ready in at most six keystroke groups after its ticket', async () => {
    const { keys, page } = shop;
    expect((await shop.call('animals.get', { id: deer.id })).detail).toBe('quick');
    await scanTicket(page, deer.ticket);
    let groups = 0;
    const list = page.getByRole('table', { name: 'Weights of this animal' });
    for (const typed of ['78.5', '18.60', '24.30']) {
      await keys.type(typed);
      await keys.press('Enter');
      groups++;
      await list.getByText(`${typed} lb`).first().waitFor();
    }
    await keys.press('r');
    groups++;
    await page.getByRole('button', { name: 'Back to packing' }).waitFor();
    expect(groups).toBeLessThanOrEqual(MAX_GROUPS);
    console.log(`a quick deer: ${groups} keystroke groups after its ticket`);

    const { stage, weights, packages } = await shop.call('animals.get', { id: deer.id });
    expect(stage).toBe('ready');
    expect((weights.hangingGrams ?? 0) / LB).toBeCloseTo(78.5, 9);
    // Packages of a pound: as many as the weight makes.
    expect(
      packages.map(({ product, count, grams }) => [product, count, Math.round((grams / LB) * 100) / 100]),
    ).toEqual([
      ['Steaks and roasts', 19, 18.6],
      ['Ground', 24, 24.3],
    ]);
  });

  it('is undone and redone with one key each', async () => {
    const { keys, page } = shop;
    await keys.press('Control+z');
    await page.getByRole('button', { name: 'Packed, ready for pickup' }).first().waitFor();
    expect((await shop.call('animals.get', { id: deer.id })).stage).not.toBe('ready');
    expect(shop.complaints).toEqual([]);
  });
});
