/**
 * Starts the built shell with a book opened from the file manager: by path, by file address, by the event of macOS.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { bridgeOf, noteOf, opened, started, windowOf } from './running.ts';
import type { Booted } from './boot.ts';

/** Creates a book in its own folder and closes it; its path contains a space. */
async function clicked(): Promise<string> {
  const path = join((await started({ onlyInstance: false, bookThere: false })).folder, 'My shop.gambrel');
  const first = await opened({ book: path });
  await (await bridgeOf(first)).call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
  windowOf(first).close();
  await expect.poll(() => first.ended).toBe(0);
  return path;
}

async function nameOf(shell: Booted): Promise<string> {
  const look = await (await bridgeOf(shell)).call('shop.get', {});
  if (!look.ok) throw new Error(look.problem.code);
  return look.value.settings.shopName;
}

describe('a book opened from the file manager', () => {
  it('is opened by its address, as Linux passes it, and no empty one is created', async () => {
    const path = await clicked();
    const address = pathToFileURL(path).href;
    expect(address).toMatch(/^file:\/\/\/.*My%20shop\.gambrel$/);
    const shell = await opened({ args: [address] });
    expect(await nameOf(shell)).toBe('Ridge');
    expect(readdirSync(process.cwd())).not.toContain('file:');
    shell.startAgain(address);
    await expect.poll(() => windowOf(shell).focused).toBe(1);
    expect(shell.dialogs).toEqual([]);
    expect(shell.desks).toHaveLength(1); // It is the open one.
  });

  it('is the first one opened when macOS starts the program with it, instead of the default one', async () => {
    const path = await clicked();
    const shell = await opened({ args: [], openedWith: path });
    expect(await nameOf(shell)).toBe('Ridge');
    expect([shell.desks.length, windowOf(shell).contents.loads]).toEqual([1, 1]);
    expect(noteOf(shell, 'recent-books')).toEqual([{ path }]);
  });

  it('is rejected with a sentence if it is on another computer', async () => {
    const shell = await started({ args: ['file://other/share/shop.gambrel'] });
    await expect.poll(() => shell.ended).toBe(1);
    expect(shell.dialogs[0]?.message).toMatch(
      /^file:\/\/other\/share\/shop\.gambrel is not a file on this computer/,
    );
  });
});

describe('a named book that is missing', () => {
  it('is not created, nor its folder, until the window requests it', async () => {
    const away = join((await started({ onlyInstance: false })).folder, 'stick', 'shop.gambrel');
    const shell = await opened({ book: away, bookThere: false });
    const bridge = await bridgeOf(shell);
    expect(await bridge.call('shop.get', {})).toMatchObject({
      problem: { code: 'book.absent', with: { path: away } },
    });
    expect(existsSync(join(away, '..'))).toBe(false);
    expect(noteOf(shell, 'recent-books')).toBe(null);
    expect(await bridge.call('shop.tryAgain', {})).toMatchObject({ value: { open: false } });
    expect(await bridge.call('shop.beginAnew', {})).toMatchObject({ value: { open: true } });
    expect(existsSync(away)).toBe(true);
  });
});
