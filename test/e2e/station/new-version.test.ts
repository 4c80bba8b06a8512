/** A new version of the desk reaches a station's page between entries, never within one. */
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import type { StationInfo } from '../../../src/desk/contract/stations.ts';
import { CODE, echoDoor, SECRET } from '../../bridge/stations/echo-door.ts';
import { HOST, openLine, type OpenLine } from '../../bridge/stations/open-line.ts';
import { launchProfile } from '../browser.ts';
import { trust } from './station-shop.ts';

/** Without a screen of its own: what is tested is the frame. */
const STATION: StationInfo = { id: 1, name: 'Check-in', place: 'hunter', language: 'en-US' };
const BUILT = join(import.meta.dirname, '../../../out/renderer');

let line: OpenLine;
let page: Page;
let windowFolder: string;
let close: () => Promise<void>;
beforeAll(async () => {
  const folder = mkdtempSync(`${inject('runFolder')}-test-`);
  windowFolder = join(folder, 'window');
  cpSync(BUILT, windowFolder, { recursive: true });
  const echo = echoDoor();
  line = await openLine({
    windowFolder,
    door: {
      ...echo,
      outcome: () => ({ state: 'allowed', station: STATION, secret: SECRET }),
      enter: (secret) => ({ ...echo.enter(secret), station: STATION, now: new Date().toISOString() }) as ReturnType<typeof echo.enter>,
      call: async () => ({ ok: false, problem: { kind: 'missing', code: 'animal.unknown' } }),
    },
  }); // prettier-ignore
  const { cert } = await line.authority.leafFor({ host: HOST, addresses: [line.address] }, new Date());
  const signer = cert.slice(cert.lastIndexOf('-----BEGIN'));
  const device = await launchProfile(join(folder, 'profile'), trust(signer), { reducedMotion: 'reduce' });
  close = () => device.close();
  page = device.pages()[0] ?? (await device.newPage());
});
afterAll(async () => {
  await close();
  line.close();
});

/** Puts another version of the page where the desk serves it from. */
function release(version: string): void {
  const worker = join(windowFolder, 'station-worker.js');
  const text = readFileSync(worker, 'utf8');
  const other = text.replace(/\b[\da-f]{16}\b/, version);
  expect(other).not.toBe(text);
  writeFileSync(worker, other);
  const html = join(windowFolder, 'station.html');
  writeFileSync(html, readFileSync(html, 'utf8').replace('<body>', `<body data-version="${version}">`));
}

const version = () => page.evaluate(() => document.body.dataset.version);
/** As when a tablet wakes up. */
const wake = () => page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));

it('waits while something is half typed, and is loaded once it is not', async () => {
  await page.goto(`${line.origin}/`);
  await page.getByLabel('Code', { exact: true }).fill(CODE);
  await page.getByRole('button', { name: 'Connect' }).click();
  await page.locator('h1', { hasText: 'Check-in' }).waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  await page.evaluate(() => {
    const field = document.createElement('input');
    field.id = 'weight';
    document.body.append(field);
  });
  await page.locator('#weight').fill('84.6');

  release('2');
  await wake();
  await page.getByText('A new version is ready').waitFor();
  // Longer than the stillness after which a version is loaded.
  await new Promise((resolve) => setTimeout(resolve, 8_000));
  expect(await page.locator('#weight').inputValue()).toBe('84.6');
  expect(await version()).toBeUndefined();

  await page.locator('#weight').fill('');
  await expect.poll(version, { timeout: 20_000 }).toBe('2');
  await expect.poll(() => page.evaluate(() => caches.keys())).toHaveLength(1);
}, 60_000);
