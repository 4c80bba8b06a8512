/** Shop, Stations, by keyboard alone: on, a device paired and compared, renamed, paused, removed; PINs; off. The device speaks over TLS. */
import { connect } from 'node:net';
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { tempBookPath } from '../book/temp-book.ts';
import { freePort } from '../bridge/stations/open-line.ts';
import { rootBeside, signerBeside } from '../torture/line/running-desk.ts';
import { post, type DeskPlace } from '../torture/line/station.ts';
import { bringAxe, rulesIn, violations } from './axe-check.ts';
import { launchProfile } from './browser.ts';
import { strayBlaze } from './looks/blaze-meanings.ts';
import { looksOf } from './looks/screen-looks.ts';
import { cutOff } from './reach.ts';
import { openShop, type ShopWindow } from './shop-window.ts';
import { trust } from './station/station-shop.ts';

let shop: ShopWindow;
let group: Locator;
let place: DeskPlace;
let secret: string;

beforeAll(async () => {
  shop = await openShop();
  await shop.call('shop.addStaff', { initials: 'MK', name: 'Mary Kelly' });
  // Of the book, so that no other test's line is in the way; a shop never types it.
  const port = await freePort();
  await shop.call('stations.setUp', { on: false, address: '127.0.0.1', port, pins: false });
  place = { port, host: `127.0.0.1:${port}`, root: '' };
  group = shop.page.locator('[data-group=stations]');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const isListening = (): Promise<boolean> =>
  new Promise((resolve) => {
    const socket = connect(place.port, '127.0.0.1', () => {
      socket.destroy();
      resolve(true);
    });
    socket.on('error', () => resolve(false));
  });
const row = (name: string): Locator => group.getByRole('row').filter({ hasText: name });
const heard = (): Promise<unknown> => post(place, '/station', {}, { secret });

/** In both themes, on a small laptop and on a tablet. */
async function isWhole(): Promise<void> {
  const { page } = shop;
  await bringAxe(page);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page, rulesIn(colorScheme)), colorScheme).toEqual([]);
  }
  const { filled, wrapped, blaze } = await looksOf(page);
  for (const screen of filled) expect(screen.length, `filled: ${screen.join(', ')}`).toBeLessThan(2);
  expect(wrapped, 'over several lines').toEqual([]);
  expect(strayBlaze(blaze), 'blaze').toEqual([]);
  for (const size of [
    { width: 810, height: 1080 },
    { width: 1366, height: 768 },
  ]) {
    await page.setViewportSize(size);
    await expect.poll(() => cutOff(page), { message: String(size.width) }).toEqual([]);
  }
}

it('opens the line at the press of a key, and shows how a device is paired', async () => {
  const { page, keys } = shop;
  await keys.press('Alt+0');
  await keys.tabTo(page.getByRole('link', { name: 'Stations', exact: true }));
  await keys.press('Enter');
  expect(await isListening()).toBe(false);
  await keys.pressOn('Turn stations on');
  await group.getByText(`On. Stations reach this computer at http://127.0.0.1:${place.port}/.`).waitFor();
  expect(await isListening()).toBe(true);
  place = { ...place, root: rootBeside(shop.bookPath) };
  await keys.pressOn('Pair a station');
  await group.locator('[data-code]').waitFor();
  const { line } = await shop.call('stations.get', {});
  const { sha256 } = line.state === 'open' ? line.fingerprints : { sha256: '' };
  const shown = (await group.locator('dd').first().innerText()).replace(/\s+/g, ':');
  expect(shown).toBe(sha256);
  await isWhole();
});

it('lets a device in once its number was compared', async () => {
  const { page, keys } = shop;
  const code = (await group.locator('[data-code]').innerText()).replace(' ', '');
  const asked = (await post(place, '/pairing', { code })) as { value: { request: string; number: string } };
  const { request, number } = asked.value;
  await group.getByText(number, { exact: true }).waitFor();
  expect(await group.locator('[data-code]').count(), 'a code works once').toBe(0);
  await isWhole();
  await keys.tabTo(group.getByLabel('Name', { exact: true }));
  await keys.type('Table 2');
  await keys.choose('Place', 'Cutting table');
  await keys.pressOn('Allow');
  await row('Table 2').waitFor();
  expect(await page.getByText('Table 2 is now a station.').count()).toBe(1);
  const outcome = (await post(place, '/pairing/outcome', { request })) as { value: { secret: string } };
  secret = outcome.value.secret;
  expect(await heard()).toMatchObject({ value: { station: { name: 'Table 2', place: 'table' } } });
});

it('renames, pauses and resumes it while it is connected', async () => {
  const { page, keys } = shop;
  await keys.pressOn('Edit Table 2');
  await page.getByRole('dialog').waitFor();
  await isWhole();
  await keys.fill('Name', 'Table by the door');
  await keys.press('Enter');
  await row('Table by the door').waitFor();
  expect(await heard()).toMatchObject({ value: { station: { name: 'Table by the door' } } });
  await keys.pressOn('Pause Table by the door');
  await row('Table by the door').getByText('Paused', { exact: true }).waitFor();
  await expect(heard()).rejects.toThrow(/401.*station\.paused/);
  await keys.pressOn('Resume Table by the door');
  await expect.poll(heard).toMatchObject({ value: { state: 'open' } });
});

it('gives somebody a PIN and takes it away, and asks for it at stations', async () => {
  const { page, keys } = shop;
  await keys.pressOn('Set PIN: MK');
  await page.getByRole('dialog').waitFor();
  await keys.fill('PIN', '12');
  await keys.press('Enter');
  await page.getByText(/^A PIN (has|is) /).waitFor();
  await keys.fill('PIN', '2480');
  await keys.press('Enter');
  await row('Mary Kelly').getByText('Set', { exact: true }).waitFor();
  await keys.tabTo(group.getByLabel('Ask people at stations to sign in with initials and PIN'));
  await keys.press('Space');
  await expect.poll(heard).toMatchObject({ value: { signIn: true } });
  const signIn = (pin: string) => post(place, '/person', { initials: 'MK', pin }, { secret });
  expect(await signIn('2480')).toMatchObject({ ok: true, value: { initials: 'MK' } });
  await keys.pressOn('Clear PIN: MK');
  await row('Mary Kelly').getByText('Not set').waitFor();
  expect(await signIn('2480')).toMatchObject({ ok: false, problem: { code: 'person.wrong-pin' } });
});

it('pairs a tablet by its own page, sees it come and go, and shuts it out at once', async () => {
  const { keys } = shop;
  const trusted = trust(signerBeside(shop.bookPath));
  const tablet = await launchProfile(tempBookPath('tablet'), trusted, {
    viewport: { width: 810, height: 1080 },
    locale: 'en-US',
  });
  const page = tablet.pages()[0] ?? (await tablet.newPage());
  await keys.pressOn('New code');
  const square = group.getByRole('img', { name: /#p=/ });
  await square.waitFor();
  await page.goto((await square.getAttribute('aria-label')) ?? '');
  const number = await page.getByRole('status').innerText();
  await group.getByText(number, { exact: true }).waitFor();
  await keys.tabTo(group.getByLabel('Name', { exact: true }));
  await keys.type('Cooler door');
  await keys.choose('Place', 'Cooler');
  await keys.pressOn('Allow');
  await page.locator('h1', { hasText: 'Cooler door' }).waitFor();
  await row('Cooler door').getByText('Connected').waitFor();
  await keys.pressOn('Pause Cooler door');
  await page.getByRole('heading', { name: 'This station is paused' }).waitFor();
  await keys.pressOn('Resume Cooler door');
  await row('Cooler door').getByText('Connected').waitFor({ timeout: 30_000 });
  await page.goto('about:blank');
  await row('Cooler door')
    .getByText(/^Away since /)
    .waitFor({ timeout: 30_000 });
  await page.goto(`https://${place.host}/`);
  await row('Cooler door').getByText('Connected').waitFor();
  await keys.pressOn('Remove Cooler door');
  await keys.fill('Reason', 'broken');
  await keys.press('Enter');
  await page.getByRole('heading', { name: 'This station was removed' }).waitFor();
  await tablet.close();
}, 120_000);

it('removes it at once, says that there is no way back, and switches everything off', async () => {
  const { page, keys } = shop;
  await keys.pressOn('Remove Table by the door');
  await page.getByText('You cannot undo this').waitFor();
  await isWhole();
  await keys.fill('Reason', 'lost');
  await keys.press('Enter');
  await row('Table by the door').waitFor({ state: 'detached' });
  await expect(heard()).rejects.toThrow(/401.*station\.removed/);
  await keys.pressOn('Turn stations off');
  await group.getByText('Off. No other device can reach Gambrel.').waitFor();
  expect(await isListening()).toBe(false);
  expect(shop.complaints).toEqual([]);
});
