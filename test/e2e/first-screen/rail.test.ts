/** What to cut next, whether the cold is right, and the first rows of the list are whole on a small laptop's first screen. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('rail');
}, 120_000);
afterAll(() => screen?.close());

it('shows the next animal, both temperatures and six rows', async () => {
  const { page, inside } = screen;
  await inside(page.getByRole('button', { name: 'Take to the table' }));
  const temperatures = page.locator('.cold strong');
  expect(await temperatures.allInnerTexts()).toEqual([
    expect.stringMatching(/^\d+\s?°F$/),
    expect.stringMatching(/^\d+\s?°F$/),
  ]);
  for (const one of await temperatures.all()) {
    await inside(one);
    const size = await one.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(size).toBeGreaterThanOrEqual(28);
  }
  const rows = page.getByRole('table', { name: 'Animals on the rail' }).locator('tbody tr');
  for (let at = 0; at < 6; at++) await inside(rows.nth(at));
});

it('hangs every animal on the beam of its cooler', async () => {
  const { page } = screen;
  const beams = page.locator('header .beam');
  expect(await beams.locator('strong').allInnerTexts()).toEqual(['Walk-in cooler', 'Back cooler']);
  const inTable = await page.getByRole('table', { name: 'Animals on the rail' }).locator('tbody tr').count();
  expect(await beams.getByRole('link').count()).toBe(inTable);
});

it('counts as many on the rail as hang in its list and in its coolers', async () => {
  const { page } = screen;
  const figures = async (texts: Promise<string[]>): Promise<number[]> =>
    (await texts).map((text) => Number.parseInt(text, 10));
  const [onRail] = await figures(
    page.getByRole('list', { name: 'Today’s counts' }).getByText('on the rail').locator('..').allInnerTexts(),
  );
  const rows = page.getByRole('table', { name: 'Animals on the rail' }).locator('tbody tr');
  expect(onRail).toBe(await rows.count());
  const taken = await figures(page.getByText(/^\d+ of \d+ (places|spaces) taken$/).allInnerTexts());
  expect(taken.reduce((sum, one) => sum + one, 0)).toBe(onRail);
});

it('keeps each animal to a row of two lines, and the counts to one line, on a tablet held upright', async () => {
  const { page } = screen;
  await page.setViewportSize({ width: 810, height: 1080 });
  const rows = page.getByRole('table', { name: 'Animals on the rail' }).locator('tbody tr');
  const tallest = async (): Promise<number> =>
    Math.max(...(await rows.evaluateAll((all) => all.map((row) => row.getBoundingClientRect().height))));
  await expect.poll(tallest).toBeLessThanOrEqual(58);
  const tops = await page
    .getByRole('list', { name: 'Today’s counts' })
    .getByRole('listitem')
    .evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().bottom)));
  expect(Math.max(...tops) - Math.min(...tops)).toBeLessThan(20);
  await page.setViewportSize({ width: 1366, height: 690 });
});

it('has one filled button', async () => {
  expect(await screen.page.locator('main button.main').count()).toBe(1);
});
