/** A tag's code is read by the camera of a tablet, here a film, over TLS in a real browser. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { tempBookPath } from '../../book/temp-book.ts';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { deerAtDesk } from '../shop-window.ts';
import { filmCode } from './camera-film.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

const PICTURES = process.env.STATION_PICTURES;
let shop: StationShop;
let ticket: string;
beforeAll(async () => {
  shop = await openStationShop();
  ({ ticket } = await deerAtDesk(shop, 'Ana Ruiz'));
});
afterAll(() => shop.end());

/** A table whose camera sees this code. */
async function table(
  kind: 'qrcode' | 'code128',
  text: string,
): Promise<{ device: BrowserContext; page: Page }> {
  const film = tempBookPath(`${kind}.y4m`);
  filmCode(film, kind, text);
  const camera = [
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ];
  const device = await shop.device(`table ${kind} ${text}`, { hasTouch: true }, camera);
  const page = device.pages()[0] ?? (await device.newPage());
  await pairStation(shop, page, `Table ${kind} ${text}`, 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
  return { device, page };
}

it.each(['qrcode', 'code128'] as const)(
  'opens the animal of a ticket in a %s',
  async (kind) => {
    const { device, page } = await table(kind, ticket);
    await page.getByRole('button', { name: 'Scan with the camera' }).tap();
    await page.getByRole('heading', { name: ticket }).waitFor();
    await device.close();
  },
  60_000,
);

it('shows what the camera sees until it is closed, and says of another code that it is no ticket', async () => {
  const { device, page } = await table('qrcode', 'NOT A TICKET');
  // It reads nothing while the picture is looked at.
  await page.evaluate(() => (CanvasRenderingContext2D.prototype.drawImage = () => undefined));
  await page.getByRole('button', { name: 'Scan with the camera' }).tap();
  await expect
    .poll(() => page.locator('video').evaluate((one: HTMLVideoElement) => one.videoWidth))
    .toBe(640);
  await bringAxe(page);
  for (const [width, height] of [[810, 1080], [1080, 810]] as const)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/camera-${width}-${colorScheme}.png` });
      if (width === 810) expect(await violations(page, rulesIn(colorScheme))).toEqual([]);
    } // prettier-ignore
  await page.getByRole('button', { name: 'Close camera' }).tap();
  expect(await page.locator('video').count()).toBe(0);
  await page.reload();
  await page.getByRole('button', { name: 'Scan with the camera' }).tap();
  await page.getByText('That is not a ticket number.').waitFor();
  await device.close();
}, 60_000);
