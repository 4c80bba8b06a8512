/** Animations: a hook moves to its new place, a new weight grows. None on load, none with reduced motion. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let ticket = '';
beforeAll(async () => {
  shop = await openShop();
  await shop.page.emulateMedia({ reducedMotion: 'no-preference' });
  ({ ticket } = await deerAtDesk(shop, 'Anna Berg', { bone: '15' }));
  await shop.page.addInitScript(() => {
    document.addEventListener('transitionrun', ({ target }) => {
      const moved = (target as Element).closest('.rung')
        ? 'rung'
        : (target as Element).closest('ol li') && 'hook';
      if (moved)
        document.documentElement.dataset.moved = `${document.documentElement.dataset.moved ?? ''} ${moved}`;
    });
  });
});
afterAll(() => shop.close());

const moved = (): Promise<string[]> =>
  shop.page.evaluate(() => {
    const all = document.documentElement.dataset.moved ?? '';
    delete document.documentElement.dataset.moved;
    return [...new Set(all.trim().split(/\s+/))];
  });

async function weigh(typed: string): Promise<void> {
  const { page, keys } = shop;
  const field = page.getByRole('textbox', { name: 'Trim', exact: true });
  if (!(await field.isVisible())) await keys.press('t');
  await field.fill(typed);
  await keys.press('Enter');
  await page.getByText(`Saved ${typed} lb`).waitFor();
  await page.waitForTimeout(400);
}

async function open(): Promise<void> {
  const { page } = shop;
  await page.evaluate((to) => (location.hash = `#/table/${to}`), ticket);
  await page.reload();
  await page.getByRole('heading', { level: 1, name: ticket }).waitFor();
  await page.waitForTimeout(500);
}

it('does not animate on load, but animates changes', async () => {
  await open();
  expect(await moved()).toEqual(['']);
  await weigh('10.50');
  expect(await moved()).toEqual(['rung']);
  await deerAtDesk(shop, 'Otto Lund', {}, { receivedOn: '2026-11-01' });
  await shop.page.getByRole('link', { name: /Otto Lund/ }).waitFor();
  await shop.page.waitForTimeout(400);
  expect(await moved()).toEqual(['hook']);
});

it('does not animate with reduced motion', async () => {
  await shop.page.emulateMedia({ reducedMotion: 'reduce' });
  await open();
  await weigh('2.25');
  await deerAtDesk(shop, 'Ida Lund', {}, { receivedOn: '2026-11-01' });
  await shop.page.getByRole('link', { name: /Ida Lund/ }).waitFor();
  await shop.page.waitForTimeout(400);
  expect(await moved()).toEqual(['']);
});

it('restores a half-typed weight with the caret at its end', async () => {
  const { page, keys } = shop;
  const field = page.getByRole('textbox', { name: 'Trim', exact: true });
  await field.fill('12');
  await keys.goTo('quote', 6);
  await page.evaluate((to) => (location.hash = `#/table/${to}`), ticket);
  await field.waitFor();
  await keys.type('.5');
  expect(await field.inputValue()).toBe('12.5');
  expect(shop.complaints).toEqual([]);
});
