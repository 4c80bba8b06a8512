/** The answer of the Quote is whole on a small laptop's first screen. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('quote with an answer');
}, 120_000);
afterAll(() => screen?.close());

it('shows pounds and dollars side by side in whole figures, then the sentence and saving', async () => {
  const { page, inside } = screen;
  const figures = page.locator('main strong.figure');
  const said = await figures.allInnerTexts();
  expect(said).toHaveLength(2);
  expect(said[0]).toMatch(/^\d+$/);
  expect(said[1]).toMatch(/^\$\d+$/);
  for (const figure of await figures.all()) {
    await inside(figure);
    const size = await figure.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(size).toBeGreaterThanOrEqual(64);
  }
  const tops = await figures.evaluateAll((all) =>
    all.map((one) => Math.round(one.getBoundingClientRect().top)),
  );
  expect(new Set(tops).size).toBe(1);
  const sentence = page.getByRole('blockquote');
  await inside(sentence);
  for (const figure of said) expect(await sentence.innerText()).toContain(`about ${figure}`);
  await inside(page.getByRole('button', { name: 'Save this quote' }));
  await inside(page.getByLabel('Weight', { exact: true }));
});

it('lists the newest five quotes, and finds others by hunter', async () => {
  const rows = screen.page.getByRole('table', { name: 'Saved quotes' }).locator('tbody tr');
  expect(await rows.count()).toBe(5);
  await screen.page.getByLabel('Find a quote').fill('lindqvist');
  await expect.poll(() => rows.count()).toBeGreaterThan(0);
  for (const row of await rows.allInnerTexts()) expect(row).toContain('Lindqvist');
});

it('asks about a weight that no such animal has, before it says a word about meat or money', async () => {
  const { page } = screen;
  const weight = page.getByLabel('Weight', { exact: true });
  await weight.fill('9999');
  await page.getByText('Is 9999 lb right?').waitFor();
  expect(await page.getByText('Phone script').count()).toBe(0);
  await page.getByRole('button', { name: 'No, change the weight' }).click();
  await weight.fill('340');
  await page.getByText('Phone script').waitFor();
  await weight.fill('9999');
  await page.getByRole('button', { name: 'Yes, show the quote' }).click();
  await page.getByText('Phone script').waitFor();
});
