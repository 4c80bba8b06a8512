/** What only the real runtime can show. Everything else about the shell is in test/shell. */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { packReal, start, startWords, type Running } from './packed.ts';

const build = mkdtempSync(join(tmpdir(), 'gambrel-smoke-build-'));
let program: string;
let folder: string;
let running: Running | null = null;

beforeAll(async () => {
  program = await packReal(build);
});
afterAll(() => rmSync(build, { recursive: true, force: true }));
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gambrel-smoke-'));
});
afterEach(async () => {
  await running?.app.close();
  running = null;
  rmSync(folder, { recursive: true, force: true });
});

const bookPath = () => join(folder, 'shop.gambrel');
async function open(): Promise<Running> {
  return (running = await start(program, folder, bookPath()));
}

it('loads the preload into a window that has nothing of Node', async () => {
  const { page } = await open();
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
  const { page } = await open();
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

it('runs from its archive, with the addon beside it: a new book is made', async () => {
  const { app, page } = await open();
  expect(await app.evaluate(({ app: inMain }) => inMain.getAppPath())).toMatch(/app\.asar$/);
  await page.getByText('Your own book').waitFor();
  expect(readFileSync(bookPath()).toString('latin1', 0, 15)).toBe('SQLite format 3');
});

it('comes to the front when it is started again, and the second start ends', async () => {
  const { app } = await open();
  const heard = app.evaluate(
    ({ app: inMain }) => new Promise<boolean>((done) => inMain.once('second-instance', () => done(true))),
  );
  const second = spawn(program, startWords(folder, bookPath()));
  const code = await new Promise((done) => second.once('exit', done));
  expect([code, await heard, app.windows().length]).toEqual([0, true, 1]);
});

it('closes the book when it quits: one file, and a log that says so', async () => {
  const { app, page } = await open();
  await page.getByText('Your own book').waitFor();
  await app.close();
  running = null;
  expect(readdirSync(folder).filter((name) => /-(wal|shm)$/.test(name))).toEqual([]);
});

it('shows why a book does not open, where its folder is a file', async () => {
  writeFileSync(join(folder, 'blocked'), 'no folder');
  running = await start(program, folder, join(folder, 'blocked', 'shop.gambrel'));
  await running.page.getByRole('button', { name: 'Try again' }).waitFor();
});

it('opens another book that a second start names', async () => {
  const { page } = await open();
  mkdirSync(join(folder, 'cabin'));
  const cabin = join(folder, 'cabin', 'cabin.gambrel');
  writeFileSync(cabin, ''); // an empty file is a new book
  const loaded = page.waitForEvent('load');
  spawn(program, startWords(folder, cabin));
  await loaded;
  await page.getByText('Your own book').waitFor();
  expect(readFileSync(cabin).toString('latin1', 0, 15)).toBe('SQLite format 3');
});

it('makes a PDF of the page', async () => {
  const { app, page } = await open();
  await page.getByText('Your own book').waitFor();
  const head = await app.evaluate(async ({ BrowserWindow }) => {
    const pdf = await BrowserWindow.getAllWindows()[0]?.webContents.printToPDF({ preferCSSPageSize: true });
    return pdf?.toString('latin1', 0, 5);
  });
  expect(head).toBe('%PDF-');
});
