/** Takes in what another shop has learned, by keyboard, and gives what this one has. */
import axe from 'axe-core';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readLessonText } from '../../src/desk/learning/lesson-text.ts';
import { lessonOf } from '../desk/lessons/lesson-of.ts';
import { readingOf } from './keys.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  await shop.page.evaluate(() => (location.hash = '#/books?tab=files'));
  await shop.page.getByRole('heading', { name: 'Other shops' }).waitFor();
}, 180_000);
afterAll(async () => {
  await shop?.close();
});

const pick = (text: string) =>
  shop.page
    .getByLabel('Import a file')
    .setInputFiles({ name: 'learned.json', mimeType: 'application/json', buffer: Buffer.from(text) });

it('takes a file in under the name that was typed, sets it aside and uses it again', async () => {
  const { page, keys } = shop;
  await page.getByLabel('Name for the other shop').fill('The shop in town');
  await pick('{"weights": []}');
  await page.getByText('This file does not hold what a shop has learned').waitFor();
  await pick(lessonOf({ animals: 412, batches: 37 }));
  await page.getByText('The shop in town is now in use.').waitFor();
  expect(await readingOf(page)).toMatch(/The shop in town\s+412 animals, 37 batches/);
  await keys.pressOn('Set aside The shop in town');
  await page.getByRole('button', { name: 'Use again The shop in town' }).waitFor();
  await keys.pressOn('Use again The shop in town');
  await page.getByRole('button', { name: 'Set aside The shop in town' }).waitFor();
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: typeof axe }).axe.run('main'),
  );
  expect(violations.map(({ id }) => id)).toEqual([]);
}, 180_000);

it('saves what this shop has learned once five animals of a kind are finished', async () => {
  const { page, call } = shop;
  expect(await page.getByText('There is nothing to share until five').count()).toBe(1);
  for (let i = 0; i < 5; i++) {
    const hunter = { name: `Hunter ${i}` };
    const { id } = await call('intake.takeIn', { hunter, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' });
    await call('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: '400' });
    for (const [part, typed] of [['whole cuts', `${90 + i}`], ['trim', '140'], ['bone', '70'], ['sinew', '40']] as const)
      await call('table.weigh', { animalId: id, stage: 'cut', part, typed });
    await call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  }
  await page.getByText('Based on 5 animals.').waitFor();
  const saved = page.waitForEvent('download');
  await shop.keys.pressOn('Save what this shop has learned');
  const path = await (await saved).path();
  expect(readLessonText(readFileSync(path, 'utf8')).animals).toBe(5);
  expect(shop.complaints).toEqual([]);
}, 180_000); // prettier-ignore
