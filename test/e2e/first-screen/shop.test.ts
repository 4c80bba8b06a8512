/** The Shop on a small laptop's first screen: the index of all groups, and the first group with its own Save. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('shop');
}, 120_000);
afterAll(() => screen?.close());

const GROUPS = [
  'The shop', 'Letterhead', 'Money and terms', 'Rail and cold', 'Coolers', 'Scale', 'Pickup and notices', 'Record book',
  'Other items', 'Who works here', 'Stations', 'Ledger', 'Backups', 'Help',
]; // prettier-ignore

it('names every group at the left', async () => {
  const { page, inside } = screen;
  const links = page.getByRole('navigation', { name: 'Groups of settings' }).getByRole('link');
  expect(await links.allInnerTexts()).toEqual(GROUPS);
  expect(await page.locator('main section h2').allInnerTexts()).toEqual(GROUPS);
  for (const link of await links.all()) await inside(link);
  await inside(page.getByRole('button', { name: 'Save: The shop' }));
});

it('leads from the index to the group, where the next Tab goes on', async () => {
  const { page } = screen;
  await page.getByRole('link', { name: 'Rail and cold' }).click();
  const group = page.getByRole('heading', { name: 'Rail and cold' });
  await expect.poll(async () => (await group.boundingBox())?.y).toBeLessThan(150);
  await page.keyboard.press('Tab');
  const focused = page.locator(':focus');
  expect(await focused.getAttribute('id')).toBe(
    await page.getByLabel('Ready to cut after').getAttribute('id'),
  );
});

it('saves a group by itself, and keeps what is typed in another', async () => {
  const { page } = screen;
  const phone = page.getByLabel('Phone', { exact: true });
  await phone.fill('555-0199');
  const name = page.getByLabel('Name of the shop');
  await name.fill('Cold Creek');
  const save = page.getByRole('button', { name: 'Save: The shop' });
  expect(await save.getAttribute('aria-disabled')).toBeNull();
  await save.click();
  await page.getByText('Settings saved.').waitFor();
  await expect.poll(() => save.getAttribute('aria-disabled')).toBe('true');
  expect(await phone.inputValue()).toBe('555-0199');
  expect(
    await page.getByRole('button', { name: 'Save: Letterhead' }).getAttribute('aria-disabled'),
  ).toBeNull();
});

it('has units inside the fields and no filled button', async () => {
  const { page } = screen;
  const field = page.getByLabel('Ready to cut after');
  const box = await field.boundingBox();
  const unit = await field.locator('xpath=..').getByText('days').boundingBox();
  expect(box).not.toBeNull();
  expect(unit).not.toBeNull();
  if (box && unit) {
    expect(unit.x).toBeGreaterThan(box.x);
    expect(unit.x + unit.width).toBeLessThanOrEqual(box.x + box.width);
  }
  expect(await page.locator('main button.main').count()).toBe(0);
});
