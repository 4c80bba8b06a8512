/**
 * A moose in full detail: primals on the drawing, several totes with their container, a slip, the grind, the freezer.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openShop, type ShopWindow } from './shop-window.ts';

const LB = 453.59237;
/** Shares of a deer carcass by primal (fallow deer, Massey University thesis, 1985): of 520 lb 65, 92, 80, 80 and 203 lb. */
const PRIMALS = {
  Neck: '65.00',
  'Loin and saddle': '79.90',
  'Ribs and flank': '79.60',
  'Hind leg': '203.00',
};

let shop: ShopWindow;
let ticket: string;

beforeAll(async () => (shop = await openShop()));
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const list = () => shop.page.getByRole('table', { name: 'Weights of this animal' });
const row = (name: RegExp) => shop.page.getByRole('row', { name });
const entry = (name: string) => shop.page.getByRole('textbox', { name, exact: true });

/** Selects the primal by name and returns the focus to the entry. */
async function pickStage(name: string): Promise<void> {
  await shop.page.getByRole('radio', { name, exact: true }).check({ force: true });
}
async function weigh(label: string, typed: string): Promise<void> {
  const { keys } = shop;
  await keys.tabTo(entry(label));
  await keys.type(typed);
  await keys.press('Enter');
}
describe('a moose in full detail', () => {
  it('is received with cutting instructions', async () => {
    const { keys, page } = shop;
    await keys.goTo('intake', 2);
    await keys.fill('Name or phone number', 'Mats Lindgren');
    await keys.fill('Phone', '307-555-0119');
    await keys.choose('Species', 'Moose');
    await keys.choose('Sex', 'Bull');
    await keys.choose('Age', 'Adult');
    await keys.choose('Came in as', 'Hide on');
    await keys.fill('Weight received', '640');
    await keys.fill('Hanging weight', '520');
    await keys.choose('Start from', 'Steaks, roasts and burger');
    await keys.press('Control+Enter');
    ticket = (
      await page
        .locator('main')
        .getByText(/^\d\d-\d{4}$/)
        .first()
        .innerText()
    ).trim();
    await keys.pressOn('Take to the table');
    await page.getByRole('heading', { level: 1, name: ticket }).waitFor();
    const { instructions, detail } = await shop.call('animals.get', { ticket });
    expect(detail).toBe('detailed');
    expect(instructions.primals.map(({ primal }) => primal).sort()).toEqual([
      'flank',
      'haunch',
      'neck',
      'saddle',
      'shoulder',
    ]);
  });

  it('has its primals weighed on the drawing, one after another', async () => {
    await pickStage('Primals');
    for (const [name, typed] of Object.entries(PRIMALS)) {
      await shop.page
        .getByRole('radio', { name: new RegExp(`^${name}`) })
        .first()
        .click({ force: true });
      await weigh(name, typed);
      await list().getByText(`${typed} lb`).first().waitFor();
    }
  });

  it('asks about a shoulder with swapped digits, and saves the correction', async () => {
    const { keys, page } = shop;
    await page
      .getByRole('radio', { name: /^Shoulder/ })
      .first()
      .click({ force: true });
    await weigh('Shoulder', '19.50');
    await page.getByRole('button', { name: /Make it 91\.50/ }).waitFor();
    await keys.press('m');
    await list().getByText('91.50 lb').first().waitFor();
    // 65.00 + 91.50 + 79.90 + 79.60 + 203.00 = 519.00 of 520 lb.
    await page.getByText('The primals add up to 519.00 lb of 520.00 lb, 99.8%.').waitFor();
  });

  it('has its parts weighed in totes, minus the container', async () => {
    const { keys, page } = shop;
    await pickStage('Parts');
    await keys.fill('Container (tare)', '4.2');
    const totes: [letter: string, label: string, gross: string, net: string][] = [
      ['c', 'Whole cuts', '84.2', '80.00'],
      ['c', 'Whole cuts', '54.2', '50.00'],
      ['t', 'Trim', '79.2', '75.00'],
      ['t', 'Trim', '79.7', '75.50'],
      ['s', 'Sinew', '49.2', '45.00'],
      ['b', 'Bone', '70.2', '66.00'],
      ['b', 'Bone', '64.2', '60.00'],
      ['d', 'Damage', '26.2', '22.00'],
    ];
    await keys.tabTo(page.locator('main input[inputmode="decimal"]').first());
    for (const [letter, label, gross, net] of totes) {
      await keys.press(letter);
      await entry(label).waitFor();
      await keys.type(gross);
      await keys.press('Enter');
      await list().getByText(`${net} lb`).first().waitFor();
    }
    // 130 + 150.5 + 45 + 126 + 22 = 473.5; 520 − 473.5 = 46.5 lb unexplained.
    await row(/^Unaccounted for 46\.50 lb/).waitFor();
    await row(/^Whole cuts 130\.00 lb 25\.0%/).waitFor();
    const { balance } = await shop.call('animals.get', { ticket });
    expect(balance.overGrams).toBe(0);
  });

  it('has a tote voided with a reason, and keeps it listed', async () => {
    const { keys, page } = shop;
    await keys.pressOn(/^Void Damage/);
    await page.getByRole('dialog').waitFor();
    await keys.press('2'); // Wrong animal
    await row(/^Damage cut away –/).waitFor();
    expect(await list().innerText()).toMatch(/wrong animal/i);
  });

  it('is ground, packed into the freezer and ready', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Finished cutting');
    const { id } = await shop.call('animals.get', { ticket });
    await keys.goTo('grinder', 4);
    await keys.tabTo(page.getByRole('checkbox', { name: `Grind ${ticket}` }));
    await keys.press('Space');
    await page.getByRole('list', { name: 'Weigh out' }).getByText('150.50').waitFor();
    await keys.press('Control+Enter');
    await page.getByRole('heading', { level: 1, name: /^G\d\d-001$/ }).waitFor();
    const weighIn = page
      .locator('section')
      .filter({ has: page.getByRole('heading', { name: 'Weigh in', exact: true }) });
    await keys.tabTo(weighIn.getByRole('textbox').first());
    await keys.type('150.50');
    await keys.press('Enter');
    await page.getByRole('table', { name: 'What went in' }).getByText('150.50').first().waitFor();
    await keys.fill('Packages', '150');
    await keys.fill('Freezer spot', 'B4');
    await keys.fill('Total weight of the 150 packages', '149.80');
    await keys.press('Enter');
    await page.getByText(/0\.70 lb not packed yet/).waitFor();
    await keys.pressOn('Finish this batch');
    await page.getByText('This batch is finished.').waitFor();
    await keys.press('/');
    await keys.type(ticket);
    await keys.press('Enter');
    await entry('Steaks and roasts').waitFor();
    await keys.fill('Freezer spot', 'B3');
    await weigh('Steaks and roasts', '129.60');
    await list().getByText('129.60 lb').first().waitFor();
    await list()
      .getByRole('row', { name: /Steaks and roasts × \d+ B3/ })
      .waitFor();
    await keys.tabTo(entry('Steaks and roasts'));
    await keys.press('r');
    await page.getByRole('button', { name: 'Back to packing' }).waitFor();
    const after = await shop.call('animals.get', { id });
    expect(after.packages.map(({ product, grams: weighed }) => [product, (weighed / LB).toFixed(2)])).toEqual(
      [
        ['Steaks and roasts', '129.60'],
        ['Ground', '149.80'],
      ],
    );
    await keys.goTo('pickup', 7);
    await page
      .getByRole('row', { name: new RegExp(`${ticket}.*B3.*B4|${ticket}.*B4.*B3`) })
      .first()
      .waitFor();
    expect(shop.complaints).toEqual([]);
  });
});
