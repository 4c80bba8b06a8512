/** Parts that manage the focus: dialogs, tabs, the find box. By keyboard only. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  await deerAtDesk(shop, 'Anna Berg');
  await deerAtDesk(shop, 'Anna Bergstrom');
});
afterAll(() => shop.close());

const focused = (): Promise<string> =>
  shop.page.evaluate(() => {
    const at = document.activeElement as HTMLElement;
    return at.getAttribute('aria-label') ?? (at as HTMLInputElement).labels?.[0]?.innerText ?? at.innerText;
  });

it('keep the focus in a dialog, close it with Escape only, and return the focus', async () => {
  const { page, keys } = shop;
  await keys.goTo('books', 9);
  await page.getByRole('tab', { name: 'Hunters' }).click();
  await keys.pressOn('New hunter');
  const dialog = page.getByRole('dialog', { name: 'New hunter' });
  await dialog.waitFor();
  expect(await focused()).toBe('Name');
  for (const key of [...Array<string>(20).fill('Tab'), ...Array<string>(20).fill('Shift+Tab')]) {
    await keys.press(key);
    expect(await dialog.evaluate((box) => box.contains(document.activeElement)), key).toBe(true);
  }
  await page.mouse.click(5, 5);
  expect(await dialog.isVisible()).toBe(true);
  await keys.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  expect(await focused()).toBe('New hunter');
});

it('cycle through a dialog that begins with a choice, in both directions', async () => {
  const { page, keys } = shop;
  const { ticket } = await deerAtDesk(shop, 'Otto Lund');
  await page.evaluate((hash) => (location.hash = hash), `#/table/${ticket}`);
  await keys.pressOn('Put on hold');
  const dialog = page.getByRole('dialog', { name: 'Put on hold' });
  await dialog.waitFor();
  await keys.press('2');
  expect(await page.getByRole('radio', { name: 'Other' }).isChecked()).toBe(true);
  const round: string[] = [];
  for (let i = 0; i < 4; i++) {
    await keys.press('Shift+Tab');
    round.push(await focused());
  }
  expect(round).toEqual(['Cancel', 'Put on hold', 'Reason', 'Other']);
  await keys.press('Escape');
});

it('move between tabs with arrows, Home and End, and show the panel of each', async () => {
  const { page, keys } = shop;
  await keys.goTo('books', 9);
  await keys.tabTo(page.getByRole('tab', { name: 'Record book' }));
  const steps: [string, string][] = [
    ['ArrowRight', 'Prices'],
    ['End', 'Import/export'],
    ['ArrowRight', 'Record book'],
    ['ArrowLeft', 'Import/export'],
    ['Home', 'Record book'],
  ];
  for (const [key, name] of steps) {
    await keys.press(key);
    await page.getByRole('tabpanel', { name }).waitFor();
    expect(await focused()).toBe(name);
    expect(await page.getByRole('tab', { selected: true }).innerText()).toBe(name);
  }
});

it('find a hunter by keys, and select nobody for a name that was only typed', async () => {
  const { page, keys } = shop;
  await keys.goTo('intake', 2);
  const box = page.getByRole('combobox', { name: 'Name or phone number' });
  const found = page.getByRole('listbox', { name: 'Name or phone number' }).getByRole('option');
  await keys.fill('Name or phone number', 'Anna Berg');
  await found.filter({ hasText: 'Anna Bergstrom' }).waitFor();
  expect(await box.getAttribute('aria-activedescendant')).toBeNull();
  await keys.press('Enter');
  expect(await page.getByRole('button', { name: 'Someone else' }).count()).toBe(0);

  await box.focus();
  await keys.press('End');
  await keys.type('s');
  await found.filter({ hasText: /^Anna Berg307/ }).waitFor({ state: 'detached' });
  await keys.press('Backspace');
  await found.nth(1).waitFor();
  await keys.press('ArrowDown');
  await keys.press('ArrowDown');
  const second = found.nth(1);
  expect(await box.getAttribute('aria-activedescendant')).toBe(await second.getAttribute('id'));
  await keys.press('ArrowDown');
  expect(await box.getAttribute('aria-activedescendant')).toBe(await found.first().getAttribute('id'));
  await keys.press('Escape');
  expect(await found.count()).toBe(0);
  expect(await box.inputValue()).toBe('Anna Berg');
  await keys.press('ArrowDown');
  await keys.press('Enter');
  await page.getByRole('button', { name: 'Someone else' }).waitFor();
  expect(shop.complaints).toEqual([]);
});
