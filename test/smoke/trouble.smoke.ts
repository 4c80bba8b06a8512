/** What becomes of crashes and of books and demos that do not open, with the real runtime. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { DESK_NAME } from '../../electron/desk-messages.ts';
import { text } from '../../src/words/compiled/shell/notices.ts';
import { answerDialogs, crashWindow, dialogsTold, folders, utilityPid, windowText } from './in-main.ts';
import { SOON, startWords } from './packed.ts';
import { smokeRoom } from './room.ts';
import { demosLeft, eventsIn } from './traces.ts';

const room = smokeRoom();

it('opens a window again that crashed, and says so', async () => {
  const { app, page } = await room.open();
  await page.getByText('Your own book').waitFor();
  await app.evaluate(answerDialogs);
  await app.evaluate(crashWindow);
  await expect.poll(() => app.evaluate(windowText), { timeout: SOON }).toContain('Your own book');
  expect(await app.evaluate(dialogsTold)).toEqual([text.windowStopped]);
  expect(eventsIn((await app.evaluate(folders)).logs)).toContain('window-stopped');
});

it('starts a desk again that was killed, and the window shows the same book', async () => {
  const { app, page } = await room.open();
  await page.getByText('Your own book').waitFor();
  await app.evaluate(answerDialogs);
  const first = await app.evaluate(utilityPid, DESK_NAME);
  expect(first).toBeGreaterThan(0);
  process.kill(first, 'SIGKILL');
  await expect.poll(() => app.evaluate(dialogsTold), { timeout: SOON }).toEqual([text.deskStopped]);
  await expect.poll(() => app.evaluate(windowText), { timeout: SOON }).toContain('Your own book');
  expect(await app.evaluate(utilityPid, DESK_NAME)).not.toBe(first);
});

it('shows why a book does not open, where its folder is a file', async () => {
  writeFileSync(join(room.folder, 'blocked'), 'no folder');
  const { page } = await room.startWith(
    startWords(room.folder, join(room.folder, 'blocked', 'shop.gambrel')),
  );
  await page.getByRole('button', { name: 'Try again' }).waitFor();
});

it('makes no book that a start names and that is not there, and says so', async () => {
  const book = join(room.folder, 'moved away', 'shop.gambrel');
  const { page } = await room.startWith(startWords(room.folder, book));
  await page.getByRole('button', { name: 'Try again' }).waitFor();
  expect(existsSync(book)).toBe(false);
});

it('shows a window that says so when the demo cannot be set up, and quits', async () => {
  const { app } = await room.open();
  const { userData, version } = await app.evaluate(folders);
  await room.quit();
  mkdirSync(join(userData, `demo-${version}.gambrel`)); // a folder in the place of the kept demo
  const { page, visibleAfter } = await room.startWith([...startWords(room.folder, room.book), '--demo']);
  expect(visibleAfter).toBeLessThan(SOON);
  await page.getByRole('button', { name: 'Try again' }).waitFor();
  expect(eventsIn(await room.quit()).at(-1)).toBe('ended');
});

it('leaves nothing of the demo when it quits', async () => {
  const before = demosLeft(tmpdir());
  const { page } = await room.startWith([...startWords(room.folder, room.book), '--demo']);
  await page.getByText(/demo/i).first().waitFor();
  const began = Date.now();
  const logs = await room.quit();
  expect(Date.now() - began).toBeLessThan(SOON);
  expect(eventsIn(logs).at(-1)).toBe('ended');
  expect(demosLeft(tmpdir()).filter((name) => !before.includes(name))).toEqual([]);
});
