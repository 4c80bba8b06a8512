/** Sausage of five owners, and a fat lot that runs out midway, with the sums computed by hand. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const LB = 453.59237;
/** Trim of the five, in pounds: 91.05 together. */
const TRIM = {
  'Ann Alder': '21.35',
  'Bo Birch': '14.20',
  'Cy Cedar': '30.05',
  'Di Dogwood': '9.95',
  'Ed Elder': '15.50',
};
/** USDA National Nutrient Database: ground deer 17343, pork back fat 10004. */
const [DEER, BACK_FAT] = [0.0713, 0.8869];
const TARGET = 0.25;
/** Packages of slightly less than a pound each. */
const PACKAGES = 131;

let shop: ShopWindow;
let tickets: string[];

beforeAll(async () => {
  shop = await openShop();
  tickets = [];
  for (const [hunter, trim] of Object.entries(TRIM))
    tickets.push((await deerAtDesk(shop, hunter, { trim })).ticket);
  await shop.call('fat.receive', {
    source: 'pork-back-fat',
    typed: '10.00',
    costTyped: '1.20',
    costUnit: 'lb',
  });
  await shop.call('fat.receive', {
    source: 'pork-back-fat',
    typed: '60.00',
    costTyped: '1.20',
    costUnit: 'lb',
  });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const card = (title: string) =>
  shop.page.locator('section').filter({ has: shop.page.getByRole('heading', { name: title, exact: true }) });
const wentIn = () => shop.page.getByRole('table', { name: 'What went in' });

/** Weighs in the next ingredient of the plan; done once it is in the list. */
async function weighIn(typed: string): Promise<void> {
  const { keys } = shop;
  await keys.tabTo(card('Weigh in').getByRole('textbox').first());
  await keys.press('ControlOrMeta+a');
  await keys.type(typed);
  await keys.press('Enter');
}
/** Pounds in the cells of one column, from the top. */
async function column(table: string, number: number): Promise<number[]> {
  const cells = await card(table).getByRole('row').getByRole('cell').allInnerTexts();
  return cells.filter((_, i) => i % 5 === number).map((text) => Number.parseFloat(text));
}
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('a pooled batch of five owners', () => {
  it('is planned from all trims, with the older lot of fat first', async () => {
    const { keys, page } = shop;
    await keys.goTo('grinder', 4);
    for (const ticket of tickets) {
      await keys.tabTo(page.getByRole('checkbox', { name: `Grind ${ticket}` }));
      await keys.press('Space');
    }
    await keys.choose('Fat', 'Pork back fat');
    await keys.fill('Target fat', '25');
    // 91.05 × (25 − 7.13) / (88.69 − 25) = 25.55 lb, of which the older lot holds 10.
    expect((91.05 * (TARGET - DEER)) / (BACK_FAT - TARGET)).toBeCloseTo(25.55, 2);
    const plan = page.getByRole('list', { name: 'Weigh out' });
    await plan.getByText('15.55').waitFor();
    expect(await plan.innerText()).toMatch(/10\.00/);
    await keys.press('Control+Enter');
    await page.getByRole('heading', { level: 1, name: /^G\d\d-001$/ }).waitFor();
  });

  it('takes no more fat from a lot than it has, and continues with the next lot', async () => {
    for (const typed of Object.values(TRIM)) {
      await weighIn(typed);
      await wentIn().getByText(`${typed} lb`).first().waitFor();
    }
    await weighIn('10.40');
    await shop.page
      .getByText(/only 10\.00 lb/i)
      .first()
      .waitFor();
    expect(await card('Weigh in').getByRole('textbox').first().inputValue()).toBe('10.40');
    await weighIn('10.00');
    await wentIn().getByText('10.00 lb').first().waitFor();
    await weighIn('15.55');
    await wentIn().getByText('15.55 lb').first().waitFor();
    await shop.page.getByText('On target: nothing more to weigh in.').waitFor();
    // (91.05 × 7.13 + 25.55 × 88.69) / 116.60 = 25.00 %.
    expect((91.05 * DEER + 25.55 * BACK_FAT) / 116.6).toBeCloseTo(0.25, 4);
    await card('Fat as weighed in').getByText('25.0%').first().waitFor();
    const lots = await shop.call('fat.listLots', {});
    expect(lots.map(({ leftGrams }) => Math.round((leftGrams / LB) * 100) / 100)).toEqual([0, 44.45]);
  });

  it('divides packages and pounds among the owners so that both add up', async () => {
    const { keys, page } = shop;
    await keys.fill('Packages', String(PACKAGES));
    await keys.fill(`Total weight of the ${PACKAGES} packages`, '116.10');
    await keys.press('Enter');
    await page.getByText(/0\.50 lb not packed yet/).waitFor();
    const columns = [await column('Owners', 2), await column('Owners', 3), await column('Owners', 4)];
    // The last line is the total.
    for (const figures of columns) expect(sum(figures.slice(0, -1))).toBeCloseTo(figures.at(-1) ?? 0, 6);
    const [lean = [], share = [], packages = []] = columns.map((figures) => figures.slice(0, -1));
    expect(lean).toEqual(Object.values(TRIM).map(Number));
    // Largest remainder by hand: 131 × 21.35 / 91.05 = 30.72, 20.43, 43.24, 14.32, 22.30: 129 whole ones, the two left go to .72 and .43.
    expect(packages).toEqual([31, 21, 43, 14, 22]);
    expect(sum(packages)).toBe(PACKAGES);
    // 116.10 lb by lean put in, to a hundredth of a pound; the displayed values add up to what was packed.
    expect(Math.round(sum(share) * 100)).toBe(11_610);
    for (const [i, pounds] of lean.entries()) expect(share[i]).toBeCloseTo((116.1 * pounds) / 91.05, 1);
    const [batch] = (await shop.call('grinder.get', {})).open;
    const { owners, outGrams, inGrams, fatAddedGrams } = await shop.call('grinder.getBatch', {
      id: batch?.id ?? 0,
    });
    expect(sum(owners.map(({ shareGrams }) => shareGrams))).toBeCloseTo(outGrams, 9);
    expect(sum(owners.map(({ leanGrams }) => leanGrams))).toBeCloseTo(inGrams - fatAddedGrams, 9);
  });

  it('has a label for each package, divided among the owners', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Finish this batch');
    await page.getByText('This batch is finished.').waitFor();
    await keys.pressOn('Print labels');
    await page.getByRole('button', { name: new RegExp(`${PACKAGES} labels`) }).waitFor();
    const counts = await page
      .getByRole('textbox', { name: /^Labels/ })
      .evaluateAll((boxes) => boxes.map((box) => Number((box as HTMLInputElement).value)));
    expect(counts).toEqual([31, 21, 43, 14, 22]);
    expect(shop.complaints).toEqual([]);
  });
});
