/** A weight from a scale to the book: the practice scale drives the Table in a real browser. */
import axe from 'axe-core';
import Database from 'better-sqlite3';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Keys } from './keys.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let page: Page;
let keys: Keys;

beforeAll(async () => {
  shop = await openShop();
  ({ page, keys } = shop);
  await takeIn();
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

/** A deer that hangs at 84 lb, on the table. */
async function takeIn(): Promise<void> {
  await keys.goTo('intake', 2);
  await keys.fill('Name or phone number', 'Ana Reyes');
  await keys.fill('Phone', '307-555-0142');
  await keys.choose('Species', 'White-tailed deer');
  await keys.choose('Sex', 'Doe');
  await keys.choose('Came in as', 'Skinned');
  await keys.fill('Hanging weight', '84');
  await keys.press('Control+Enter');
  await keys.pressOn('Take to the table');
  await page.getByRole('textbox', { name: 'Whole cuts', exact: true }).waitFor();
}

const entry = (name = 'Whole cuts') => page.getByRole('textbox', { name, exact: true });
const takeButton = () => page.getByRole('button', { name: 'Use weight' });
const readout = () => page.locator('.readout');

/** Sets the weight on the practice scale, in the Shop, and returns to the animal. */
async function put(weight: string, moving: boolean): Promise<void> {
  const animal = page.url();
  await keys.goTo('shop', 0);
  const on = page.getByRole('checkbox', { name: 'Use practice scale' });
  await keys.tabTo(on);
  if (!(await on.isChecked())) await keys.press('Space');
  await keys.fill('On the practice scale, lb', weight);
  const moves = page.getByRole('checkbox', { name: 'In motion' });
  await keys.tabTo(moves);
  if ((await moves.isChecked()) !== moving) await keys.press('Space');
  await page.goto(animal);
  await entry().waitFor();
}

/** Weights in the book file, oldest first, read by another program. */
function kept(): { typed: string; source: string; grams: number }[] {
  const file = new Database(shop.bookPath, { readonly: true });
  const rows = file
    .prepare("SELECT typed, source, grams FROM weighing WHERE stage = 'cut' ORDER BY id")
    .all();
  file.close();
  return rows as ReturnType<typeof kept>;
}

describe('a scale at the Table', () => {
  it('is not shown without a scale', async () => {
    expect(await readout().count()).toBe(0);
    await keys.tabTo(entry());
    await keys.press('Space');
    expect(await entry().inputValue()).toBe(' ');
    await keys.press('Backspace');
  });

  it('does not offer an unstable weight', async () => {
    await put('18.62', true);
    await readout().getByText('In motion. Wait until it is stable.').waitFor();
    expect(await readout().innerText()).toMatch(/18\.6\d lb/);
    expect(await takeButton().isDisabled()).toBe(true);
    await keys.tabTo(entry());
    await keys.press('Space');
    await keys.press('F2');
    expect(await entry().inputValue()).toBe('');
  });

  it('fills in a stable weight on request, and records the practice scale as its source', async () => {
    await put('18.62', false);
    await readout().getByText('Stable.').waitFor();
    expect(await entry().inputValue()).toBe('');
    await keys.tabTo(entry());
    // A busy computer hears the scale late, and a weight that was not heard just now is not offered.
    const afterSpace = async (): Promise<string> => {
      if ((await entry().inputValue()) === '') await keys.press('Space');
      return entry().inputValue();
    };
    await expect.poll(afterSpace).toBe('18.62 lb');
    await keys.press('Enter');
    await page.getByRole('cell', { name: /18\.62 lb ?practice scale/ }).waitFor();
    expect(kept()).toEqual([
      { typed: '18.62 lb', source: 'practice', grams: expect.closeTo(18.62 * 453.59237, 6) },
    ]);
  });

  it('does not replace typed text, which is saved as typed', async () => {
    await keys.tabTo(entry());
    await keys.press('t');
    await keys.tabTo(entry('Trim'));
    await keys.type('30.5');
    await keys.press('F2');
    expect(await takeButton().isDisabled()).toBe(true);
    expect(await entry('Trim').inputValue()).toBe('30.5');
    await keys.press('Enter');
    await page.getByRole('cell', { name: '30.5 lb', exact: true }).waitFor();
    expect(kept().at(-1)).toMatchObject({ typed: '30.5', source: 'typed' });
  });

  it('counts a scale weight as typed once it is edited', async () => {
    await keys.press('b');
    await keys.tabTo(entry('Bone'));
    await keys.press('F2');
    expect(await entry('Bone').inputValue()).toBe('18.62 lb');
    await keys.press('Home');
    await keys.press('Delete');
    await keys.press('Delete');
    await keys.type('13');
    await keys.press('Enter');
    await page.getByRole('cell', { name: '13.62 lb', exact: true }).waitFor();
    expect(kept().at(-1)).toMatchObject({ typed: '13.62 lb', source: 'typed' });
  });

  it('learns a line format by the marked digits, by keyboard', async () => {
    await keys.goTo('shop', 0);
    await page.getByText('Show where the weight is').focus();
    await keys.press('Enter');
    await keys.pressOn('Freeze newest line');
    const line = page.getByRole('textbox', { name: 'Line' });
    expect(await line.inputValue()).toMatch(/^ST,GS,\+ +18\.62lb$/);
    await keys.press('End');
    await keys.press('ArrowLeft');
    await keys.press('ArrowLeft');
    for (let i = 0; i < '18.62'.length; i++) await keys.press('Shift+ArrowLeft');
    await page.getByText('Reads as 18.62 lb.').waitFor();
    await keys.pressOn('Save format');
    await page.getByText('Format saved.').waitFor();
    await page.getByRole('button', { name: 'Clear saved format' }).waitFor();
    await readout().getByText('Stable.').waitFor();
    const stored = await page.evaluate(() => localStorage.getItem('gambrel.scale'));
    expect(JSON.parse(stored ?? '')).toMatchObject({ form: { number: 0, of: 1, words: ['GS'], unit: null } });
  });

  it('is accessible, in light and dark', async () => {
    for (const theme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: theme });
      await page.evaluate(axe.source);
      const found = await page.evaluate(async () => {
        const { violations } = await (window as unknown as { axe: typeof axe }).axe.run('main');
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
      });
      expect(found, theme).toEqual([]);
    }
    expect(shop.complaints).toEqual([]);
  });
});
