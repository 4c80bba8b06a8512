/** What only the real runtime can show of an ordinary run. Everything else about the shell is in test/shell. */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { saveNextTo, windowPid } from './in-main.ts';
import { ownWords, SOON, startWords } from './packed.ts';
import { faultOfRecords, planFat, saveRecords } from './page-steps.ts';
import { smokeRoom } from './room.ts';
import { eventsIn, isBook, isSandboxed, openBookFiles } from './traces.ts';

const room = smokeRoom();

it('stands on the screen within ten seconds', async () => {
  const { visibleAfter, page } = await room.open();
  expect(visibleAfter).toBeLessThan(SOON);
  expect(await page.evaluate(() => document.visibilityState)).toBe('visible');
});

it('runs with its sandbox', async () => {
  const { app } = await room.open();
  expect(await app.evaluate(() => process.argv)).not.toContain('--no-sandbox');
  if (process.platform !== 'linux') {
    const metrics = await app.evaluate(({ app: inMain }) => inMain.getAppMetrics());
    const windows = metrics.filter(({ type }) => type === 'Tab');
    expect(windows.map(({ sandboxed }) => sandboxed)).toEqual([true]);
    return;
  }
  const status = readFileSync(`/proc/${await app.evaluate(windowPid)}/status`, 'utf8');
  expect(isSandboxed(status), status).toBe(true);
});

it('loads the preload into a window that has nothing of Node', async () => {
  const { page } = await room.open();
  const seen = await page.evaluate(() => ({
    given: Object.keys(window.gambrel ?? {}).toSorted(),
    node: [
      typeof (globalThis as { require?: unknown }).require,
      typeof (globalThis as { process?: unknown }).process,
    ],
  }));
  expect(seen).toEqual({
    given: ['askForDesk', 'printLabels', 'versions'],
    node: ['undefined', 'undefined'],
  });
});

it('serves the window from its own scheme and lets nothing out', async () => {
  const { page } = await room.open();
  expect(page.url()).toMatch(/^app:\/\/gambrel\//);
  const reached = await page.evaluate(async () => [
    (await fetch('./licences.json')).status,
    await fetch('https://example.org/').then(
      () => 'reached',
      () => 'stopped',
    ),
  ]);
  expect(reached).toEqual([200, 'stopped']);
});

it('lets the window ask for serial ports, and knows none that nobody chose', async () => {
  const { page } = await room.open();
  const ports = await page.evaluate(async () => {
    const { serial } = navigator as unknown as { serial?: { getPorts(): Promise<unknown[]> } };
    return serial ? (await serial.getPorts()).length : 'no serial';
  });
  expect(ports).toBe(0);
});

it('runs from its archive, with the addon beside it: a new book is made', async () => {
  const { app, page } = await room.open();
  expect(await app.evaluate(({ app: inMain }) => inMain.getAppPath())).toMatch(/app\.asar$/);
  await page.getByText('Your own book').waitFor();
  expect(isBook(room.book)).toBe(true);
});

it('solves a plan inside the archive, and saves a file', async () => {
  const { app, page } = await room.startWith([...startWords(room.folder, room.book), '--demo']);
  await planFat(page);
  const table = join(room.folder, 'book.csv');
  await app.evaluate(saveNextTo, table);
  await saveRecords(page);
  const content = () => (existsSync(table) ? readFileSync(table, 'utf8') : '');
  await expect.poll(() => faultOfRecords(content()), { timeout: SOON }).toBe('');
});

it('comes to the front when it is started again, and the second start ends', async () => {
  const { app } = await room.open();
  const heard = app.evaluate(
    ({ app: inMain }) => new Promise<boolean>((done) => inMain.once('second-instance', () => done(true))),
  );
  const second = spawn(room.program, startWords(room.folder, room.book));
  const code = await new Promise((done) => second.once('exit', done));
  expect([code, await heard, app.windows().length]).toEqual([0, true, 1]);
});

it('closes the book when it quits: one file, and a log whose last line says so', async () => {
  const { page } = await room.open();
  await page.getByText('Your own book').waitFor();
  const logs = await room.quit();
  expect(openBookFiles(room.folder)).toEqual([]);
  expect(eventsIn(logs)[0]).toBe('started');
  expect(eventsIn(logs).at(-1)).toBe('ended');
});

it('opens another book that a second start names, as a path and as the address that a list of files gives', async () => {
  const { page } = await room.open();
  mkdirSync(join(room.folder, 'hunting cabin'));
  const cabin = join(room.folder, 'hunting cabin', 'cabin.gambrel');
  const lodge = join(room.folder, 'hunting cabin', 'lodge.gambrel');
  for (const [book, word] of [
    [cabin, cabin],
    [lodge, pathToFileURL(lodge).href],
  ] as const) {
    writeFileSync(book, ''); // an empty file is a new book
    const loaded = page.waitForEvent('load');
    spawn(room.program, [...ownWords(room.folder), word]);
    await loaded;
    await page.getByText('Your own book').waitFor();
    expect(isBook(book)).toBe(true);
  }
});

it('makes a PDF of the page', async () => {
  const { app, page } = await room.open();
  await page.getByText('Your own book').waitFor();
  const head = await app.evaluate(async ({ BrowserWindow }) => {
    const pdf = await BrowserWindow.getAllWindows()[0]?.webContents.printToPDF({ preferCSSPageSize: true });
    return pdf?.toString('latin1', 0, 5);
  });
  expect(head).toBe('%PDF-');
});
