/** The season's finding and its first plot are whole on a small laptop's first screen. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('season');
}, 120_000);
afterAll(() => screen?.close());

it('shows the finding above 300 px and the first plot whole', async () => {
  const { page, inside } = screen;
  const finding = page.locator('.finding').first();
  await inside(finding);
  const box = await finding.boundingBox();
  expect((box?.y ?? 999) + (box?.height ?? 0)).toBeLessThan(300);
  await inside(page.locator('main canvas').first());
});

it('says which animals are shown in words, and opens the choices on demand', async () => {
  const { page } = screen;
  await page.getByText('2026 · all animals').waitFor();
  expect(await page.getByRole('group', { name: 'Filter' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Change filters' }).click();
  await page.getByRole('group', { name: 'Filter' }).getByLabel('Species').waitFor();
});

it('shows the rail as a thin line, which a press opens', async () => {
  const { page } = screen;
  const thin = page.getByRole('button', { name: /^Show the rail/ });
  expect((await thin.boundingBox())?.height).toBe(28);
  await thin.click();
  expect(await page.getByRole('navigation', { name: 'Animals on the rail' }).getByRole('link').count()).toBe(
    24,
  );
});

it.each([1024, 810])('keeps its views in one row at %i px', async (width) => {
  const { page } = screen;
  await page.setViewportSize({ width, height: 768 });
  const links = await page.getByRole('navigation', { name: 'Season' }).getByRole('link').all();
  const boxes = await Promise.all(links.map((one) => one.boundingBox()));
  expect(boxes).toHaveLength(9);
  expect(new Set(boxes.map((box) => box?.y)).size).toBe(1);
  expect(Math.max(...boxes.map((box) => (box?.x ?? 999) + (box?.width ?? 999)))).toBeLessThanOrEqual(width);
  expect(Math.min(...boxes.map((box) => box?.width ?? 0))).toBeGreaterThanOrEqual(44);
});
