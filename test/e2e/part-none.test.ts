/** At the Table, typing 0 or “none” states that there is none of a part, and so does the button beside it. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  deer = await deerAtDesk(shop, 'Ann Alder');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const stated = async (): Promise<string[]> =>
  (await shop.call('animals.get', { id: deer.id })).none.map(({ part }) => part);
const list = () => shop.page.getByRole('table', { name: 'Weights of this animal' });

describe('a part that an animal has none of', () => {
  it('is stated by 0, and shown among the weights and on the ladder', async () => {
    const { keys, page } = shop;
    await scanTicket(page, deer.ticket);
    await keys.type('78.5');
    await keys.press('Enter');
    await list().getByText('78.5 lb').first().waitFor();
    await keys.press('d');
    await keys.type('0');
    await page.getByText('Press Enter to record no damage.').waitFor();
    await keys.press('Enter');
    await page.getByText(`No damage on ${deer.ticket}.`).waitFor();
    await list()
      .getByRole('row', { name: /^Damage none/ })
      .waitFor();
    const parts = page.getByRole('table', { name: 'Parts of this animal' });
    expect(await parts.getByRole('row', { name: /Damage cut away none/ }).count()).toBe(1);
    expect(await parts.getByRole('row', { name: /Bone –/ }).count()).toBe(1);
    expect(await stated()).toEqual(['damage']);
  });

  it('is undone by the undo key, and stated again by the word', async () => {
    const { keys, page } = shop;
    await keys.press('Control+z');
    await list()
      .getByRole('row', { name: /^Damage none/ })
      .waitFor({ state: 'detached' });
    expect(await stated()).toEqual([]);
    await keys.type('none');
    await keys.press('Enter');
    await list()
      .getByRole('row', { name: /^Damage none/ })
      .waitFor();
    expect(await stated()).toEqual(['damage']);
    await page.getByRole('button', { name: 'No damage', exact: true }).waitFor({ state: 'detached' });
  });

  it('is stated by its button, and voided from the list', async () => {
    const { keys, page } = shop;
    await keys.press('f');
    await page.getByRole('button', { name: 'No fat saved' }).click();
    await list()
      .getByRole('row', { name: /^Fat saved none/ })
      .waitFor();
    await page.getByRole('button', { name: 'Void “no damage”' }).click();
    await list()
      .getByRole('row', { name: /^Damage none/ })
      .waitFor({ state: 'detached' });
    expect(await stated()).toEqual(['fat saved']);
  });

  it('cannot be meat: a trim of 0 is rejected', async () => {
    const { keys, page } = shop;
    await page.getByRole('textbox', { name: 'Fat saved', exact: true }).focus();
    await keys.press('t');
    await keys.type('0');
    await keys.press('Enter');
    await page.getByText('The scale shows zero.').waitFor();
    expect(await stated()).toEqual(['fat saved']);
    expect(shop.complaints).toEqual([]);
  });
});
