/** Opening another book: from the menu, from the list of recent ones, and by starting the program again. */
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { Booted } from './boot.ts';
import { bridgeOf, click, menuItems, note, noteOf, opened, started, windowOf } from './running.ts';

/** Creates a second book beside the first, with its own shell; its path. */
async function secondBook(shell: Booted, name = 'cabin.gambrel'): Promise<string> {
  const path = join(shell.folder, name);
  const other = await opened({ book: path });
  await (await bridgeOf(other)).call('shop.setUp', { shopName: 'Cabin', unit: 'kg' });
  windowOf(other).close();
  await expect.poll(() => other.ended).toBe(0);
  return path;
}

const loaded = (shell: Booted, times: number) =>
  expect.poll(() => windowOf(shell).contents.loads, { timeout: 10_000 }).toBe(times);

async function nameOf(shell: Booted): Promise<string> {
  const look = await (await bridgeOf(shell)).call('shop.get', {});
  if (!look.ok) throw new Error(look.problem.code);
  return look.value.settings.shopName;
}

describe('another book', () => {
  it('is selected in a dialog and opened in the same window; the first one is closed cleanly', async () => {
    const shell = await opened();
    await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    const path = await secondBook(shell);
    shell.picks.push(path);
    click(shell, '&Open another book…');
    await loaded(shell, 2);
    expect(shell.files).toEqual([
      {
        kind: 'open',
        title: 'Open another book',
        defaultPath: shell.folder,
        filters: [{ name: 'Gambrel books', extensions: ['gambrel'] }],
        properties: ['openFile'],
      },
    ]);
    expect(await nameOf(shell)).toBe('Cabin');
    expect(shell.desks[0]?.sent.at(-1)).toBe('close');
    expect(readdirSync(shell.folder).filter((name) => name.startsWith('shop.gambrel-'))).toEqual([]);
  });

  it('is not opened when the person cancels', async () => {
    const shell = await opened();
    shell.picks.push(null);
    click(shell, '&Open another book…');
    await expect.poll(() => shell.files.length).toBe(1);
    expect([shell.desks.length, windowOf(shell).contents.loads]).toEqual([1, 1]);
  });

  it('is opened by a second start, relative to its own folder, and the window comes to the front', async () => {
    const shell = await opened();
    const path = await secondBook(shell);
    shell.startAgain('--book', path.slice(1));
    await loaded(shell, 2);
    expect(await nameOf(shell)).toBe('Cabin');
    expect(windowOf(shell).focused).toBe(1);
  });

  it('is opened from the file manager: by path, and by the event of macOS', async () => {
    const shell = await opened();
    const path = await secondBook(shell);
    shell.startAgain(path);
    await loaded(shell, 2);
    const event = { prevented: false, preventDefault: () => (event.prevented = true) };
    shell.app.emit('open-file', event, shell.book);
    await loaded(shell, 3);
    expect(event.prevented).toBe(true);
    expect(await nameOf(shell)).toBe('');
  });

  it('stays open if it already is', async () => {
    const shell = await opened();
    shell.startAgain('--book', shell.book);
    await expect.poll(() => windowOf(shell).focused).toBe(1);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect([shell.desks.length, windowOf(shell).contents.loads]).toEqual([1, 1]);
  });

  it('is reported by the first instance if a second start names an invalid one', async () => {
    const shell = await opened();
    shell.startAgain('--book');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^--book needs the path/);
  });

  it('is passed to the first instance, with the folder of the second start', async () => {
    const shell = await started({ onlyInstance: false, args: ['--book', 'cabin.gambrel'] });
    expect(shell.handedOver).toEqual({ args: ['.', '--book', 'cabin.gambrel'], folder: process.cwd() });
  });
});

describe('the list of recent books', () => {
  const recent = (shell: Booted) =>
    menuItems(shell).find(({ label }) => label === 'Open &recent')?.submenu ?? [];

  it('keeps opened books, newest first, each once, across starts', async () => {
    const shell = await opened();
    const path = await secondBook(shell);
    shell.startAgain(path);
    await loaded(shell, 2);
    expect(noteOf(shell, 'recent-books')).toEqual([{ path }, { path: shell.book }]);
    expect(recent(shell).map(({ label }) => label)).toEqual([
      `&1 cabin.gambrel in ${shell.folder}`,
      `&2 shop.gambrel in ${shell.folder}`,
    ]);
    recent(shell)[1]?.click?.();
    await loaded(shell, 3);
    expect(noteOf(shell, 'recent-books')).toEqual([{ path: shell.book }, { path }]);
  });

  it('reports a missing book, and keeps it in the list', async () => {
    let away = '';
    const shell = await opened({
      prepare(folder) {
        away = join(folder, 'stick', 'Smith & Sons.gambrel');
        note('recent-books', [{ path: away }])(folder);
      },
    });
    expect(recent(shell)[1]?.label).toBe(`&2 Smith && Sons.gambrel in ${join(shell.folder, 'stick')}`);
    recent(shell)[1]?.click?.();
    await expect
      .poll(() => shell.dialogs[0]?.message)
      .toMatch(/^The book .*Smith & Sons\.gambrel is not there\./);
    expect([shell.desks.length, existsSync(away)]).toEqual([1, false]);
    expect(noteOf(shell, 'recent-books')).toEqual([{ path: shell.book }, { path: away }]);
  });

  it('has at most eight books, and survives an invalid note', async () => {
    const ten = Array.from({ length: 10 }, (_, at) => ({ path: `/books/${at}.gambrel` }));
    expect(recent(await opened({ prepare: note('recent-books', ten) }))).toHaveLength(8);
    const odd = [7, null, { path: '' }, { path: 7 }, 'x'];
    expect(recent(await opened({ prepare: note('recent-books', odd) }))).toHaveLength(1);
    expect(recent(await opened({ prepare: note('recent-books', { path: 'x' }) }))).toHaveLength(1);
  });

  it('may fail to be written without other effects', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened({ prepare: (folder) => mkdirSync(join(folder, 'recent-books.json')) });
    expect(told.mock.calls.map(([what]) => what)).toEqual(['Gambrel: note-not-kept.']);
    expect(recent(shell)).toHaveLength(1);
    expect(readFileSync(join(shell.folder, 'logs', 'gambrel.log'), 'utf8')).toMatch(
      /note-not-kept error=Error code=EISDIR/,
    );
    told.mockRestore();
  });
});
