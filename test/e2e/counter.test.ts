/** The counter: belongings, shared animals, a weight at the wrong ticket, a mistaken intake. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { keepPictures } from './keep-pictures.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Folder for screenshots, if set. */
const PICTURES = process.env.COUNTER_PICTURES;
const SIZES = [[1366, 768], [1920, 1080]] as const; // prettier-ignore

let shop: ShopWindow;
let deer: { id: number; ticket: string };
let other: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  deer = await deerAtDesk(shop, 'Ann Alder');
  other = await deerAtDesk(shop, 'Ben Birch');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const look = (name: string): Promise<void> =>
  keepPictures(shop.page, PICTURES, name, { sizes: SIZES, fullPage: true });

const named = (name: string | RegExp) => shop.page.getByRole('button', { name });

describe('belongings', () => {
  it('are entered by keyboard and sent to the taxidermist', async () => {
    const { page, keys } = shop;
    await scanTicket(page, deer.ticket);
    await named('Add item').click();
    const what = page.getByRole('combobox', { name: 'Item' });
    await what.focus();
    await keys.type('cape');
    await keys.press('Tab');
    await keys.type('A-7');
    await keys.press('Enter');
    await page.getByText('Cape added.').waitFor();
    const table = page.getByRole('table', { name: 'Items' });
    await table.getByRole('row', { name: /Cape A-7 here/ }).waitFor();
    await look('belongings');
    await named('Record where it went: Cape').click();
    await page.getByText('To the taxidermist').click();
    await page.getByLabel('Taxidermist', { exact: true }).fill('Pine Studio');
    await page.getByLabel('Receipt number').fill('R-12');
    await look('belonging-end');
    await named('Save').last().click();
    await table.getByRole('row', { name: /to the taxidermist Pine Studio/ }).waitFor();
    const [cape] = await shop.call('belongings.list', { animalId: deer.id });
    expect(cape).toMatchObject({ kind: 'cape', tag: 'A-7', end: { went: 'taxidermist', receipt: 'R-12' } });
  });
});

describe('hunters who share an animal', () => {
  it('have a percentage each, and a share of the bill', async () => {
    const { page } = shop;
    await named('Split among hunters').click();
    await page.getByRole('combobox', { name: 'Hunter 2' }).fill('Cy Cedar');
    await page.getByLabel('Phone, new hunter 2').fill('555-0133');
    await page.getByLabel('Percent, hunter 1').fill('60');
    await page.getByText('Total 110.00%').waitFor();
    await page.getByLabel('Percent, hunter 2').fill('40');
    await page.getByText('Total 100.00%').waitFor();
    await look('shares-dialog');
    await named('Save shares').click();
    await page.getByText('Cy Cedar: 40.0%').waitFor();
    await page.goto(page.url().replace('/table/', '/bill/'));
    await page.getByRole('table', { name: 'Hunters’ shares' }).waitFor();
    await look('shares-bill');
  });

  it('pick up their shares separately', async () => {
    const { page } = shop;
    await shop.call('table.weigh', { animalId: deer.id, stage: 'packed', part: 'package', product: 'Steaks', count: 11, typed: '30' });
    await shop.call('animals.setStage', { id: deer.id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('belongings.add', { animalId: deer.id, kind: 'skull', evidence: true });
    await page.goto(page.url().replace(/\/bill\/.*/, '/pickup'));
    await named(`Hand over ${deer.ticket}`).click();
    await page.getByText('Cy Cedar’s share: 40.0%').waitFor();
    await look('shares-pickup');
    await page.getByText('Hand over to Cy Cedar').click();
    await named('Hand over').click();
    await page.getByText('A share was handed over to Cy Cedar.').waitFor();
    const [row] = await shop.call('pickup.get', {});
    expect(row?.shares.map(({ taken }) => taken?.to)).toEqual([undefined, 'Cy Cedar']);
  }); // prettier-ignore
});

describe('donated and unclaimed meat', () => {
  it('is donated to a program, and listed by program and month', async () => {
    const { page } = shop;
    await page.goto(page.url().replace(/#.*/, '#/shop'));
    await named('Add program').click();
    await page.getByLabel('Program 1', { exact: true }).fill('Hunters Share');
    await page.getByLabel('Pays per lb, program 1').fill('1.50');
    await look('terms');
    await named('Save: Pickup and notices').click();
    await page.getByText('Settings saved.').waitFor();
    const gift = await deerAtDesk(shop, 'Eve Elm');
    await shop.call('table.weigh', { animalId: gift.id, stage: 'packed', part: 'package', product: 'Ground', count: 20, typed: '20' });
    await shop.call('animals.setStage', { id: gift.id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await page.goto(page.url().replace(/#.*/, `#/table/${gift.ticket}`));
    await named('Donate').click();
    await page.getByLabel('Weight, lb').fill('12.5');
    await page.getByLabel('Confirmation number').fill('HS-88');
    await look('donate');
    await named('Save donation').click();
    await page.getByText(/12.50 lb donated to Hunters Share on .*HS-88, the program owes \$18.75/).first().waitFor();
    await look('donated');
    await page.goto(page.url().replace(/#.*/, '#/books?tab=donations'));
    await page.getByRole('table', { name: 'By program and month' }).getByText('$18.75').waitFor();
    await look('donations');
  });

  it('leads to a notice after the shop’s number of days', async () => {
    const { page } = shop;
    const [row] = await shop.call('pickup.get', {});
    await shop.call('pickup.saveNotice', { id: row?.id ?? 0, step: 'first', how: 'call' });
    await page.goto(page.url().replace(/#.*/, '#/pickup'));
    await named(`Record notice for ${row?.ticket}`).click();
    await page.getByText('Second notice', { exact: true }).waitFor();
    await look('notice');
    await page.getByText('Letter', { exact: true }).click();
    await named('Save notice').click();
    await page.getByText('Second notice saved.').waitFor();
    await page.goto(page.url().replace(/#.*/, `#/notice/${row?.ticket}/last`));
    await page.getByText('It will not be sold.').waitFor();
    await look('letter');
  });

  it('is returned uncut', async () => {
    const { page } = shop;
    const raw = await deerAtDesk(shop, 'Fay Fir');
    await page.goto(page.url().replace(/#.*/, `#/table/${raw.ticket}`));
    await named('Return unprocessed').click();
    await page.getByLabel('Reason').fill('to another shop');
    await named('Return unprocessed').last().click();
    await page.getByText('Returned unprocessed: to another shop').waitFor();
    expect((await shop.call('animals.get', { id: raw.id })).stage).toBe('ready');
    await named('Process it after all').click();
    await named('Return unprocessed').waitFor();
  });
}); // prettier-ignore

describe('a weight on the wrong ticket', () => {
  it('is moved to the right one, and moved back by undo', async () => {
    const { page, keys } = shop;
    const wrong = await deerAtDesk(shop, 'Dee Dogwood', { trim: '20' });
    await page.goto(page.url().replace(/#.*/, `#/table/${wrong.ticket}`));
    await named('Move Trim 20').click();
    await page.getByLabel('Ticket', { exact: true }).fill(other.ticket);
    await page.getByText('Ben Birch').waitFor();
    await look('move');
    await named('Move weight').click();
    await page.getByText(`Moved trim 20 lb to ${other.ticket}.`).waitFor();
    expect((await shop.call('animals.get', { id: other.id })).trimGrams).toBeGreaterThan(0);
    await page.getByText(`Weight moved to ${other.ticket}: trim 20 lb.`).waitFor();
    await keys.press('Control+z');
    await page.getByRole('button', { name: 'Move Trim 20' }).waitFor();
    expect((await shop.call('animals.get', { id: other.id })).trimGrams).toBe(0);
  });
});

describe('a mistaken intake', () => {
  it('is canceled with a reason, shown as canceled, and restored by undo', async () => {
    const { page, keys } = shop;
    await page.goto(page.url().replace(/\/table\/.*/, `/table/${other.ticket}`));
    await named('Cancel intake').click();
    await page.getByLabel('Reason').fill('entered twice');
    await look('cancel');
    await named('Cancel intake').last().click();
    await page.getByText(/^Canceled on .*entered twice/).waitFor();
    await look('canceled');
    expect((await shop.call('animals.get', { id: other.id })).stage).toBe('canceled');
    await keys.press('Control+z');
    await named('Cancel intake').waitFor();
    expect((await shop.call('animals.get', { id: other.id })).stage).toBe('cutting');
    expect(shop.complaints).toEqual([]);
  });

  it('has its condition and promised date corrected', async () => {
    const { page } = shop;
    await page.getByRole('button', { name: 'Edit', exact: true }).first().click();
    await page.getByLabel('Came in as').selectOption('quarters');
    await page.getByLabel('Reason for the change').fill('read off the tag');
    await look('edit');
    await page.getByRole('button', { name: 'Save', exact: true }).last().click();
    await page.getByText(/Came in as: Skinned → Quarters/).waitFor();
  });
});
