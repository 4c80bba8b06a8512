/** Photographs in the shop's own window, by keyboard: added from a file, looked at, voided, undone, and found again. */
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { photoFolder, photoPath } from '../../src/book/file/photos/files.ts';
import { pictureOf } from '../../src/demo/pictures/draw.ts';
import { scanTicket } from '../replay/open-ticket.ts';
import { exifWithPlace, withSegment } from '../photo-of.ts';
import { bringAxe, rulesIn, violations } from './axe-check.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const PICTURES = process.env.WINDOW_PICTURES;
let shop: ShopWindow;
let deer: { id: number; ticket: string };
beforeAll(async () => {
  shop = await openShop();
  deer = await deerAtDesk(shop, 'Ann Alder', { trim: '20' });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const card = () => shop.page.locator('section', { has: shop.page.getByRole('heading', { name: 'Photos' }) });
const photos = () => shop.call('photos.list', { animalId: deer.id });
const dialog = () => shop.page.getByRole('dialog');

async function looks(name: string): Promise<void> {
  await bringAxe(shop.page);
  for (const colorScheme of ['light', 'dark'] as const)
    for (const size of [
      { width: 1366, height: 768 },
      { width: 1920, height: 1080 },
    ]) {
      await shop.page.emulateMedia({ colorScheme });
      await shop.page.setViewportSize(size);
      if (size.width === 1366) expect(await violations(shop.page, rulesIn(colorScheme))).toEqual([]);
      if (PICTURES)
        await shop.page.screenshot({ path: join(PICTURES, `${name} ${colorScheme} ${size.width}.png`) });
    }
  await shop.page.emulateMedia({ colorScheme: 'light' });
  await shop.page.setViewportSize({ width: 1366, height: 768 });
}

async function addFromFile(kind: string, file: Uint8Array): Promise<void> {
  const { keys, page } = shop;
  await keys.pressOn('Add photo');
  await keys.choose('What it shows', kind);
  await page
    .getByLabel('Photo', { exact: true })
    .setInputFiles({ name: 'photo.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(file) });
}

it('are added from a file, and lose their place on the way', async () => {
  await scanTicket(shop.page, deer.ticket);
  await addFromFile('Tag', withSegment(pictureOf('tag', 147), exifWithPlace()));
  await expect.poll(photos).toMatchObject([{ kind: 'tag', width: 240, height: 320 }]);
  const [tag] = await photos();
  const file = readFileSync(photoPath(photoFolder(shop.bookPath), tag?.digest ?? ''));
  expect(file.includes('Exif')).toBe(false);
  await addFromFile('Damage', pictureOf('damage', 147));
  await expect.poll(photos).toHaveLength(2);
  await card()
    .getByRole('button', { name: /^Open photo: Damage/ })
    .waitFor();
  await card().scrollIntoViewIfNeeded();
  await looks('card');
}, 60_000);

it('say what is no picture', async () => {
  await addFromFile('Damage', Buffer.from('%PDF-1.7'));
  await card().getByText('This cannot be read as a picture.').waitFor();
  expect(await photos()).toHaveLength(2);
});

it('are looked at large, one after the other, by keyboard', async () => {
  const { keys } = shop;
  await keys.tabTo(card().getByRole('button', { name: /^Open photo: Tag/ }));
  await keys.press('Enter');
  await dialog().getByRole('heading', { name: 'Tag' }).waitFor();
  await expect
    .poll(() =>
      dialog()
        .locator('img')
        .evaluate((img) => (img as HTMLImageElement).naturalWidth),
    )
    .toBe(240);
  await looks('large');
  await keys.press('ArrowRight');
  await dialog().getByRole('heading', { name: 'Damage' }).waitFor();
  await keys.press('ArrowRight');
  await dialog().getByRole('heading', { name: 'Tag' }).waitFor();
  await keys.press('Escape');
  await expect.poll(() => dialog().count()).toBe(0);
});

it('are voided for a reason, come back by undo, and stand in the history', async () => {
  const { keys, page } = shop;
  await keys.tabTo(card().getByRole('button', { name: /^Open photo: Damage/ }));
  await keys.press('Enter');
  await dialog().getByRole('heading', { name: 'Damage' }).waitFor();
  await keys.pressOn('Void');
  await dialog().getByRole('textbox', { name: 'Reason' }).fill('of another animal');
  await keys.press('Enter');
  await expect.poll(photos).toMatchObject([{ kind: 'tag' }]);
  await page.getByText('Photo voided.').waitFor();
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(photos).toMatchObject([{ kind: 'tag' }, { kind: 'damage' }]);
  const history = await shop.call('animals.getHistory', { id: deer.id });
  expect(history.filter(({ what }) => what.startsWith('photo')).map(({ what }) => what)).toEqual(
    expect.arrayContaining(['photographed', 'photo-voided']),
  );
});

it('stand beside what is handed over, and are found from the record book', async () => {
  const { keys, page } = shop;
  await shop.call('animals.setStage', { id: deer.id, stage: 'ready', answer: 'a test', confirmed: true });
  await keys.goTo('pickup', 7);
  await page.getByRole('searchbox').fill('Alder');
  await page.getByRole('button', { name: /^Open photo: Tag/ }).waitFor();
  await looks('pickup');
  await page.evaluate(() => (location.hash = '#/books?tab=records'));
  await page
    .getByRole('button', { name: /details/i })
    .first()
    .click(); // of the one animal
  const link = page.getByRole('link', { name: '2 photos' });
  await link.waitFor();
  await looks('record book');
  await link.focus();
  await keys.press('Enter');
  const first = page.getByRole('button', { name: /^Open photo: Tag/ });
  await expect.poll(() => first.evaluate((one) => one === document.activeElement)).toBe(true);
}, 60_000);

it('are missed in a sentence, and come back from a backup', async () => {
  const { keys, page } = shop;
  await shop.call('shop.backUp', {});
  const [tag] = await photos();
  rmSync(photoPath(photoFolder(shop.bookPath), tag?.digest ?? ''));
  await keys.goTo('shop', 0);
  await page.getByText('The file of 1 photo is missing.').waitFor();
  await looks('missing');
  await keys.pressOn('Check photos');
  await page.getByText('2 photos checked; no file missing; 1 brought back from a backup.').waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Check photos' }).waitFor();
  expect(await page.getByText('The file of 1 photo is missing.').count()).toBe(0);
  expect(shop.complaints).toEqual([]);
}, 60_000);
