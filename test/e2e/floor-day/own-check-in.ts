/** A hunter's own check-in at the tablet, and what the counter makes of it. */
import type { Page } from 'playwright-core';
import type { FloorStation } from './floor.ts';
import { choose, press } from './hands.ts';

const next = (page: Page) => page.getByRole('button', { name: 'Next', exact: true }).tap();

/** What a hunter types and draws, in English, up to the press that gives it to the counter. */
export async function checkInAlone({ page }: FloorStation, name: string, tag: string): Promise<void> {
  await page.getByRole('button', { name: 'English (United States)' }).tap();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await next(page);
  for (const label of ['Mule deer', 'Buck', 'Today']) await choose(page, label);
  await page.getByLabel('Tag or permit number').fill(tag);
  await next(page);
  await choose(page, 'The shop’s standard cuts');
  await next(page);
  await sign(page);
  await page.getByRole('button', { name: 'Send to the counter' }).tap();
  await page.getByRole('heading', { name: `Thank you, ${name}` }).waitFor();
}

/** Draws a line into the box for the signature. */
async function sign(page: Page): Promise<void> {
  const box = await page.getByRole('img', { name: 'Your signature' }).boundingBox();
  if (!box) throw new Error('There is no box to sign in.');
  await page.mouse.move(box.x + 60, box.y + 60);
  await page.mouse.down();
  for (let i = 1; i < 10; i += 1) await page.mouse.move(box.x + 60 + i * 30, box.y + 60 + (i % 3) * 20);
  await page.mouse.up();
}

/** Takes a hunter's own check-in from the counter's list, compares its tag and weighs the animal. */
export async function takeIn({ page }: FloorStation, name: string, tag: string, weight: string) {
  await page.getByRole('button', { name: `${name}, Mule deer · Tag ${tag}` }).tap();
  await page.getByText(`Tag ${tag}`, { exact: true }).waitFor();
  await choose(page, 'Skinned');
  await press(page, weight);
  await page.getByRole('button', { name: 'Check in', exact: true }).first().tap();
}
