/** The step that a batch needs next is whole on a small laptop's first screen; the others are one line. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('batch');
}, 120_000);
afterAll(() => screen?.close());

it('shows five steps in a line, and only packing open, with its large entry', async () => {
  const { page, inside } = screen;
  const steps = page.getByRole('list', { name: 'Steps of this batch' }).getByRole('listitem');
  expect(await steps.count()).toBe(5);
  for (const step of await steps.all()) await inside(step);
  const tops = await steps.evaluateAll((all) =>
    all.map((one) => Math.round(one.getBoundingClientRect().top)),
  );
  expect(new Set(tops).size).toBe(1);
  const entry = page.getByRole('textbox', { name: 'Weight of the package', exact: true });
  await inside(entry);
  expect((await entry.boundingBox())?.height).toBeGreaterThanOrEqual(92);
  expect(await page.getByRole('button', { name: 'Save', exact: true }).count()).toBe(1);
  expect(await page.getByRole('button', { name: 'Add this pass' }).count()).toBe(0);
});

it('opens another step on demand', async () => {
  const { page } = screen;
  await page.getByRole('button', { name: /^Grind/ }).click();
  await page.getByRole('button', { name: 'Add this pass' }).waitFor();
  expect(await page.getByRole('button', { name: 'Save', exact: true }).count()).toBe(0);
});
