/** The counter finds a hunter's boxes with the first key, and six rows are whole on a small laptop's first screen. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('pickup');
}, 120_000);
afterAll(() => screen?.close());

const find = () => screen.page.getByRole('searchbox', { name: 'Hunter, phone number or ticket' });
const rows = () => screen.page.getByRole('table', { name: /^Ready for pickup/ }).locator('tbody tr');

it('shows the find field, 64 px high and focused, and six rows', async () => {
  const { inside } = screen;
  await inside(find());
  expect((await find().boundingBox())?.height).toBeGreaterThanOrEqual(64);
  expect(await rows().count()).toBeGreaterThanOrEqual(6);
  for (let at = 0; at < 6; at++) await inside(rows().nth(at));
});

it('has the focus in the find field', async () => {
  const { page } = screen;
  await page.evaluate(() => (location.hash = '#/rail'));
  await page.getByRole('button', { name: 'Take to the table' }).waitFor();
  await page.evaluate(() => (location.hash = '#/pickup'));
  await rows().first().waitFor();
  await expect.poll(() => find().evaluate((field) => field === document.activeElement)).toBe(true);
});

it('opens the one that was found: its shelf in large figures, what is due, and handing over by Enter', async () => {
  const { page, inside } = screen;
  const ticket = await rows().nth(1).getByRole('link').first().innerText();
  await find().fill(String(Number(ticket.split('-')[1])));
  const shelf = page.locator('.counter .shelf');
  await inside(shelf);
  expect(await shelf.innerText()).toMatch(/Shelf/);
  expect(await shelf.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize))).toBe(64);
  await inside(page.locator('.counter .due'));
  expect(await page.locator('main button.main').count()).toBe(1);
  await find().press('Enter');
  await page.getByRole('dialog', { name: `Hand over ${ticket}` }).waitFor();
  // A second Enter must not lead to the bill.
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
  await page.keyboard.press('Escape');
  await find().fill('zzz');
  await page.getByText('Nothing ready for “zzz”.').waitFor();
});

it('keeps those on hold apart, without a button to hand them over', async () => {
  await find().fill('');
  const { page } = screen;
  const held = page.getByRole('table', { name: 'Not ready to hand over' });
  expect(await held.locator('tbody tr').count()).toBeGreaterThan(0);
  expect(await held.getByRole('button', { name: /^Hand over/ }).count()).toBe(0);
});
