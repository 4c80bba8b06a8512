/** Photographs at a cutting table over TLS: from a camera with a place in its file, away from the desk, once, and by place. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { photoFolder } from '../../../src/book/file/photos/files.ts';
import { encodeJpeg } from '../../../src/demo/pictures/encode.ts';
import { exifWithPlace, withSegment } from '../../photo-of.ts';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { deerAtDesk } from '../shop-window.ts';
import { listening, openStationShop, pairStation, type StationShop } from './station-shop.ts';

/** What a gloved hand presses, px. */
const SMALLEST = 56;
const PICTURES = process.env.STATION_PICTURES;
let shop: StationShop;
let device: BrowserContext;
let page: Page;
let animal: { id: number; ticket: string };
beforeAll(async () => {
  shop = await openStationShop();
  animal = await deerAtDesk(shop, 'Ana Ruiz');
  await open();
  await pairStation(shop, page, 'Table 2', 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
});
afterAll(() => shop.end());

async function open(): Promise<void> {
  device = await shop.device('table', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  page.setDefaultTimeout(15_000);
}

/** As a camera that was held upright writes it: the picture lies on its side, red toward the top, with a place. */
function fromCamera(width: number, height: number, blue = 40): Buffer {
  const rgb = new Uint8ClampedArray(width * height * 3);
  for (let i = 0; i < width * height; i += 1) rgb.set(i % width < width / 2 ? [200, 30, 30] : [30, 30, blue], i * 3);
  return Buffer.from(withSegment(encodeJpeg({ width, height, rgb }), exifWithPlace()));
} // prettier-ignore

const photos = () => shop.call('photos.list', { animalId: animal.id });
const card = () => page.locator('.photos-card');
const take = (kind: string, buffer: Buffer, mimeType = 'image/jpeg') =>
  page.getByLabel(`Photograph ${kind}`).setInputFiles({ name: 'camera.jpg', mimeType, buffer });

async function openAnimal(): Promise<void> {
  const pad = page.getByRole('group', { name: 'Number keys' });
  await pad.getByRole('button', { name: String(Number(animal.ticket.split('-').at(-1))), exact: true }).tap();
  await page.getByRole('button', { name: 'Open', exact: true }).tap();
  await page.getByRole('heading', { name: animal.ticket }).waitFor();
  const hide = page.locator('[data-cautions]').getByRole('button', { name: 'Hide' });
  if (await hide.isVisible()) await hide.tap();
}

async function picture(name: string): Promise<void> {
  if (PICTURES) await page.screenshot({ path: join(PICTURES, `photos ${name}.png`) });
}

it('makes an upright, small photograph of what the camera took, without the place', async () => {
  await openAnimal();
  const camera = fromCamera(3200, 1600);
  expect(camera.includes('Exif')).toBe(true);
  await take('the damage', camera);
  await expect.poll(photos, { timeout: 20_000 }).toMatchObject([
    { kind: 'damage', width: 800, height: 1600, by: 'MK', station: 'Table 2' },
  ]);
  const [photo] = await photos();
  const { base64 } = await shop.call('photos.read', { digest: photo?.digest ?? '' });
  const file = Buffer.from(base64, 'base64');
  expect(file.includes('Exif')).toBe(false);
  expect(file.length).toBeLessThan(camera.length);
}, 60_000); // prettier-ignore

it('shows it small and large, for gloves, light and dark, upright and lying', async () => {
  await bringAxe(page);
  const small = card().locator('.photos button');
  await expect.poll(() => small.first().locator('img').evaluate((img) => (img as HTMLImageElement).naturalHeight)).toBe(1600);
  const [top, bottom] = await small.first().locator('img').evaluate((img) => {
    const { naturalWidth: width, naturalHeight: height } = img as HTMLImageElement;
    const canvas = Object.assign(document.createElement('canvas'), { width, height });
    const pen = canvas.getContext('2d');
    pen?.drawImage(img as HTMLImageElement, 0, 0);
    return [20, height - 20].map((y) => pen?.getImageData(width / 2, y, 1, 1).data[0] ?? 0);
  });
  expect(top).toBeGreaterThan(150);
  expect(bottom).toBeLessThan(90);
  for (const colorScheme of ['light', 'dark'] as const)
    for (const [shape, size] of Object.entries({ upright: { width: 810, height: 1080 }, lying: { width: 1080, height: 810 } })) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize(size);
      await card().scrollIntoViewIfNeeded();
      if (shape === 'upright') expect(await violations(page, rulesIn(colorScheme))).toEqual([]);
      for (const target of await card().locator('button, label').all())
        expect((await target.boundingBox())?.height ?? SMALLEST).toBeGreaterThanOrEqual(SMALLEST);
      await picture(`card ${colorScheme} ${shape}`);
      await small.first().tap();
      await page.getByRole('dialog').getByText(/Damage, .*by MK.*Table 2/).waitFor();
      if (shape === 'upright') expect(await violations(page, rulesIn(colorScheme))).toEqual([]);
      await picture(`large ${colorScheme} ${shape}`);
      await page.getByRole('dialog').getByRole('button', { name: 'Close' }).tap();
    }
}, 90_000); // prettier-ignore

it('says so of what is no picture, and sends nothing', async () => {
  await take('the damage', Buffer.from('<html><script>alert(1)</script></html>'));
  await card().getByText('This cannot be read as a picture.').waitFor();
  expect(await photos()).toHaveLength(1);
});

it('keeps one on the device while the desk is away and the browser is closed, and sends it once with its entry', async () => {
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  await take('the animal', fromCamera(640, 320, 200));
  await card().getByText('not saved yet').waitFor();
  await card().locator('.photos img').nth(1).waitFor();
  await device.close();

  await open();
  await page.goto(`${shop.origin}/`); // the desk is still away: the page comes from the device
  await page.locator('h1', { hasText: 'Table 2' }).waitFor();
  await openAnimal();
  await card().getByText('not saved yet').waitFor();
  await expect.poll(() => card().locator('.photos img').count()).toBeGreaterThanOrEqual(1);

  await shop.start();
  await listening(shop);
  await expect.poll(async () => (await photos()).map(({ kind }) => kind), { timeout: 30_000 }).toEqual(['damage', 'animal']);
  await expect.poll(() => card().getByText('not saved yet').count()).toBe(0);
  const files = (readdirSync(photoFolder(shop.bookPath), { recursive: true }) as string[]).filter((name) => name.endsWith('.jpg'));
  expect(files).toHaveLength(2);
  for (const name of files) expect(readFileSync(join(photoFolder(shop.bookPath), name)).includes('Exif')).toBe(false);
}, 120_000); // prettier-ignore

it('is voided for a reason, with a press', async () => {
  await expect.poll(() => card().locator('.photos button').count()).toBe(2);
  await card().locator('.photos button').last().tap();
  await page.getByRole('dialog').getByRole('button', { name: 'Void', exact: true }).tap();
  await page.getByRole('dialog').getByRole('button', { name: 'Not clear enough' }).tap();
  await expect.poll(async () => (await photos()).map(({ kind }) => kind)).toEqual(['damage']);
});

it('shows of papers only that they were photographed', async () => {
  const tag = Buffer.from(encodeJpeg({ width: 16, height: 16, rgb: new Uint8ClampedArray(768).fill(90) }));
  const { digest } = await shop.call('photos.store', { base64: tag.toString('base64') });
  await shop.call('photos.add', { animalId: animal.id, kind: 'tag', digest, by: 'MK' });
  await card().getByText('seen in the office').waitFor();
  expect(await card().locator('.photos button').count()).toBe(1);
  await picture('tag');
});
