/** The answer of the Grinder is whole on a small laptop's first screen. */
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('grinder with a plan');
}, 120_000);
afterAll(() => screen?.close());

const sum = (): Locator => screen.page.getByRole('list', { name: 'Weigh out' });

it('shows the sum of trim, fat and total in figures of one height, and the start', async () => {
  const { page, inside } = screen;
  await sum().getByText('Pork back fat').waitFor(); // Before it, the plan without fat is shown.
  const figures = sum().locator('xpath=..').locator('strong.number');
  const said = await figures.allInnerTexts();
  const [trim = 0, fat = 0, total = 0] = said.map((text) => Number.parseFloat(text));
  expect(said).toHaveLength(4);
  expect(trim + fat).toBeCloseTo(total, 9);
  for (const figure of await figures.all()) {
    await inside(figure);
    const size = await figure.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(size).toBeGreaterThanOrEqual(60);
  }
  const tops = await figures.evaluateAll((all) =>
    all.map((one) => Math.round(one.getBoundingClientRect().top)),
  );
  expect(new Set(tops).size).toBe(1);
  const likely = page.getByText(/^9 in 10 such batches come out between/);
  await inside(likely);
  const start = await page.getByRole('button', { name: /^Start this batch/ }).boundingBox();
  const ends = await likely.boundingBox();
  expect(ends!.y + ends!.height, 'above the start').toBeLessThanOrEqual(start!.y);
  await inside(page.getByRole('button', { name: /^Start this batch/ }));
});

it('says beside the start that the cut sheet wants no fat, until none is added', async () => {
  const { page, inside } = screen;
  const says = page.getByText(/^The cut sheet of 26-\d{4} says: no fat added\./);
  await inside(says);
  const [line, start] = await Promise.all([
    says.boundingBox(),
    page.getByRole('button', { name: /^Start this batch/ }).boundingBox(),
  ]);
  expect(line!.y, 'beside the start').toBeGreaterThanOrEqual(start!.y - 4);
  await page.getByRole('radio', { name: 'No fat added' }).check({ force: true });
  await expect.poll(() => says.count()).toBe(0);
  await page.getByRole('radio', { name: 'Pork back fat' }).check({ force: true });
  await says.waitFor();
});

it.each([
  { width: 810, height: 1080 },
  { width: 1024, height: 768 },
])('keeps the sum on one line on $width × $height', async (size) => {
  const { page } = screen;
  await page.setViewportSize(size);
  const figures = sum().locator('xpath=..').locator('strong.number');
  await expect
    .poll(() =>
      figures.evaluateAll(
        (all) => [...new Set(all.map((one) => Math.round(one.getBoundingClientRect().top)))].length,
      ),
    )
    .toBe(1);
  const start = await page.getByRole('button', { name: /^Start this batch/ }).boundingBox();
  const receive = await page.getByRole('button', { name: 'Receive fat' }).boundingBox();
  // It covers nothing: the bar stands below it, wherever the page is scrolled to.
  const [key] = await page.getByText(/^Lean [\d.]+ lb$/).all();
  for (const top of [0, 200]) {
    await page.evaluate((to) => scrollTo(0, to), top);
    const [above, below] = [
      await page.getByRole('button', { name: /^Start this batch/ }).boundingBox(),
      await key!.boundingBox(),
    ];
    expect(below!.y, 'the bar').toBeGreaterThanOrEqual(above!.y + above!.height);
  }
  await page.evaluate(() => scrollTo(0, 0));
  expect(receive!.y, 'beside the start').toBeLessThan(start!.y + start!.height);
  await page.setViewportSize({ width: 1366, height: 690 });
});

it('names the batches after which the grinder was not cleaned in one strip with one form', async () => {
  const { page, inside } = screen;
  const strip = page.getByRole('region', { name: 'Grinder cleaned' });
  await inside(strip);
  expect((await strip.boundingBox())?.height).toBeLessThan(100);
  expect(await page.getByText(/^No cleaning is recorded after/).count()).toBe(1);
  expect(await page.getByRole('button', { name: 'Record cleaning' }).count()).toBe(1);
  await strip.getByRole('button', { name: 'and 3 before it' }).click();
  expect(await strip.getByRole('link', { name: /^Open G26-/ }).count()).toBe(4);
});
