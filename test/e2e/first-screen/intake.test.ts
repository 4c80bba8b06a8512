/** From the hunter to both weights and the button, an intake is whole on a small laptop's first screen. */
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('intake');
}, 120_000);
afterAll(() => screen?.close());

it('shows both weights, 72 px high, and its button', async () => {
  const { page, inside } = screen;
  await inside(page.getByLabel('Name or phone number'));
  for (const name of ['Weight received', 'Hanging weight']) {
    const entry = page.getByLabel(name);
    await inside(entry);
    expect((await entry.boundingBox())?.height).toBeGreaterThanOrEqual(72);
  }
  await inside(page.getByRole('button', { name: 'Check in' }));
  expect(await page.locator('main button.main').count()).toBe(1);
});

it('fills the tag and says what is still needed while words are chosen', async () => {
  const { page } = screen;
  const tag = page.locator('.tag');
  expect(await tag.locator('.ticket').innerText()).toMatch(/^26-\d{4}$/);
  await page.getByText('Still needed: hunter, species, sex, how it came in.').waitFor();
  await page.getByRole('radio', { name: 'Elk', exact: true }).check({ force: true });
  await page.getByRole('radio', { name: 'Hide on' }).check({ force: true });
  await page.getByLabel('Weight received').fill('402.5');
  await page.getByLabel('Name or phone number').fill('Ann Alder');
  await tag.getByText('Ann Alder').waitFor();
  await tag.getByText('402.5 lb').waitFor();
  await page.getByText('Still needed: sex.').waitFor();
  // By its label, which must stand still: the words of the sexes change with the species.
  await page.locator('label').filter({ hasText: /^Cow/ }).click();
  await tag.getByText('cow, Hide on').waitFor();
  expect(await page.getByText(/^Still needed/).count()).toBe(0);
});

it('lays nothing over the form on a tablet held upright, with open cautions above it', async () => {
  const { page } = screen;
  await page.setViewportSize({ width: 810, height: 1080 });
  const cautions = page.locator('[data-cautions]');
  await cautions.locator('summary').first().click();
  await page.evaluate(() => scrollTo(0, 0));
  const top = async (element: Locator) => (await element.boundingBox())!.y;
  const name = page.getByLabel('Name or phone number');
  const box = (await cautions.boundingBox())!;
  expect(box.y + box.height).toBeLessThan(await top(name));
  expect(await top(page.getByRole('button', { name: 'Check in' }))).toBeGreaterThan(1080 - 90);
});
