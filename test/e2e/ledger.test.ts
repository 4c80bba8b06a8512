/** Shop, Ledger, by keyboard alone, with a real PostgreSQL: a wrong password, an unprepared database, on, the server gone and back, off. */
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { OWNER, PASSWORD, startServer, SUPERUSER, type RealServer } from '../ledger/server/real-server.ts';
import { endWithRun } from '../run-folder.ts';
import { bringAxe, rulesIn, violations } from './axe-check.ts';
import { looksOf } from './looks/screen-looks.ts';
import { cutOff } from './reach.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Where screenshots go, if anywhere. */
const PICTURES = process.env.LEDGER_PICTURES;
const SHOP_USER = 'north';
let server: RealServer;
let database: string;
let shop: ShopWindow;
let group: Locator;

// A busy computer takes a browser's steps several times as long.
vi.setConfig({ testTimeout: 240_000 });

beforeAll(async () => {
  server = await startServer({ onStarted: endWithRun });
  database = await server.newDatabase();
  shop = await openShop();
  await shop.call('shop.addStaff', { initials: 'MK', name: 'Mary Kelly' });
  group = shop.page.locator('[data-group=ledger]');
}, 60_000);
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(async () => {
  await shop?.close();
  await server?.remove();
});

const says = (words: RegExp | string, where = group): Promise<void> =>
  where.getByText(words).first().waitFor({ timeout: 30_000 });

async function goToLedger(): Promise<void> {
  await shop.keys.press('Alt+0');
  await shop.keys.tabTo(shop.page.getByRole('link', { name: 'Ledger', exact: true }));
  await shop.keys.press('Enter');
}

/** The fields that a shop types, by keyboard. */
async function type(fields: Readonly<Record<string, string>>, where = group): Promise<void> {
  for (const [label, typed] of Object.entries(fields)) {
    await shop.keys.tabTo(where.getByLabel(label, { exact: true }));
    await shop.keys.press('ControlOrMeta+a');
    await shop.keys.type(typed);
  }
}

/** In both themes, on a small laptop and on a large screen. */
async function isWhole(step: string, part = group): Promise<void> {
  const { page } = shop;
  await bringAxe(page);
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page, rulesIn(colorScheme)), colorScheme).toEqual([]);
    for (const size of [
      { width: 1366, height: 768 },
      { width: 1920, height: 1080 },
    ]) {
      // prettier-ignore
      await page.setViewportSize(size);
      await expect.poll(() => cutOff(page), { message: String(size.width) }).toEqual([]);
      if (PICTURES)
        await part.screenshot({ path: join(PICTURES, `${step}-${size.width}-${colorScheme}.png`) });
    }
  }
  expect((await looksOf(page)).wrapped, 'over several lines').toEqual([]);
}

it('says in sentences what is wrong, and prepares an empty database', async () => {
  const { keys, page } = shop;
  await goToLedger();
  await says('Off. Nothing leaves this computer.');
  await keys.pressOn('Test connection');
  await says('This field is required. Fill it in.');
  await type({ Address: '127.0.0.1', Port: String(server.port), Database: database, User: OWNER });
  await keys.pressOn('Test connection');
  await says('Type the password of the database user.');
  await type({ Password: 'wrong' });
  await keys.pressOn('Test connection');
  await says('The database does not offer encryption, so nothing was sent.');
  await keys.tabTo(group.getByLabel('No encryption, for a database on this computer only'));
  await keys.press('Space');
  await keys.pressOn('Test connection');
  await says('The database did not accept this user and password. Check both.');
  await type({ Password: PASSWORD });
  await keys.pressOn('Test connection');
  await says('The database is not prepared for shops.');
  await isWhole('unprepared');
  await keys.pressOn('Prepare database');
  await page.getByText('The database is ready for shops.').waitFor();
});

it('sends the book under the shop’s own login', async () => {
  const { keys } = shop;
  // Row security shows an owner of the database nothing of the shops' own roles.
  const owner = await server.as(database, SUPERUSER);
  await owner.script(`CREATE ROLE ${SHOP_USER} LOGIN PASSWORD '${PASSWORD}' IN ROLE ledger_shop`);
  await type({ User: SHOP_USER });
  await keys.pressOn('Test connection');
  await says('Connected. This book can be sent there.');
  await keys.pressOn('Turn on');
  await says(/^On\. Everything up to .* is in the ledger\.$/);
  const sent = () => owner.rows('SELECT name, role, personal, whole FROM ledger.shop');
  await expect.poll(sent).toEqual([['Cold Creek Locker', SHOP_USER, false, true]]);
  await owner.end();
  expect(await group.getByLabel('Password', { exact: true }).inputValue()).toBe('');
  await isWhole('even');
});

it('shows all shops to a user that reads them all, and no other', async () => {
  const { page, keys } = shop;
  await deerAtDesk(shop, 'Hanging Hana');
  const owner = await server.as(database, SUPERUSER);
  await owner.script(`CREATE ROLE books LOGIN PASSWORD '${PASSWORD}' IN ROLE ledger_reader`);
  await expect.poll(() => owner.rows('SELECT count(*)::int FROM ledger.backlog_by_animal')).toEqual([[1]]);
  await owner.end();
  await page.evaluate(() => (location.hash = '#/season/shops?measure=backlog'));
  await page.getByText(/^This user reads one shop only\./).waitFor();
  await keys.tabTo(page.getByLabel('User', { exact: true }));
  await keys.type('books');
  await keys.tabTo(page.getByLabel('Password', { exact: true }));
  await keys.type(PASSWORD);
  await keys.pressOn('Show all shops');
  await page.getByRole('link', { name: 'Cold Creek Locker' }).waitFor();
  expect(await violations(page)).toEqual([]);
  expect(await cutOff(page)).toEqual([]);
  await keys.tabTo(page.getByRole('link', { name: 'Cold Creek Locker' }));
  await keys.press('Enter');
  await page.getByRole('link', { name: '26-0001' }).waitFor();
  await page.evaluate(() => (location.hash = '#/shop'));
  await group.waitFor();
});

it('tells what waits while the server is gone, goes on by itself, and is switched off', async () => {
  const { keys, call } = shop;
  await server.kill();
  await call('shop.saveSettings', { changes: { lateDays: 5 } });
  await says('On. It will try again automatically.');
  await says(/^Nothing answers at this address and port\./);
  await says(/^\d+ changes? (is|are) waiting to be sent, the oldest since /);
  await isWhole('waiting');
  await server.start();
  await says(/^On\. Everything up to .* is in the ledger\.$/);
  await keys.pressOn('Turn off');
  await says('Off. Nothing leaves this computer.');
}, 120_000);

it('gets the book back from the ledger as on a new computer, and goes on as a new branch', async () => {
  const { keys, page } = shop;
  await keys.pressOn('Get a book back from a ledger');
  const dialog = page.getByRole('dialog');
  await type(
    { Address: '127.0.0.1', Port: String(server.port), Database: database, User: SHOP_USER },
    dialog,
  );
  await type({ Password: PASSWORD }, dialog);
  await keys.tabTo(dialog.getByLabel('No encryption, for a database on this computer only'));
  await keys.press('Space');
  await keys.pressOn('Show its books');
  await says('Cold Creek Locker', dialog);
  await isWhole('books', dialog);
  await keys.tabTo(dialog.getByRole('button', { name: /^Get this book: Cold Creek Locker/ }));
  await keys.press('Enter');
  await says(/^Checked just now and complete: 1 animal/, dialog);
  await says(/^Not in it: photos, PINs/, dialog);
  await says(/were never sent\./, dialog);
  await isWhole('made', dialog);
  await keys.pressOn('Open this book');
  await page.getByText('The book is back.').waitFor();
  await goToLedger();
  await says(/^On\. Everything up to .* is in the ledger\.$/);
  const superuser = await server.as(database, SUPERUSER);
  const branches = () => superuser.rows('SELECT branch, superseded_by IS NULL FROM ledger.shop ORDER BY 1');
  await expect.poll(branches).toEqual([
    [1, false],
    [2, true],
  ]);
  await superuser.end();
  expect(shop.complaints).toEqual([]);
});
