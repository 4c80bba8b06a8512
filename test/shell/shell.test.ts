/** The built desktop shell against a strict double of Electron, with the real desk and a real book. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { WINDOW_POLICY } from '../../src/bridge/server/window-files.ts';
import { clear, OUT } from './boot.ts';
import { bridgeOf, click, noteOf, opened, started, windowOf } from './running.ts';

describe('starting', () => {
  it('opens one sandboxed window on its own scheme, with exactly these rights', async () => {
    const shell = await opened();
    expect(shell.schemes).toEqual([
      { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
    const { options, contents } = windowOf(shell);
    expect(options.webPreferences).toEqual({
      preload: join(OUT, 'preload/preload.cjs'),
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false,
    });
    expect(contents.address).toBe('app://gambrel/');
    expect(shell.dialogs).toEqual([]);
  });

  it('gives way to a first instance without side effects', async () => {
    const shell = await started({ onlyInstance: false, bookThere: false });
    expect(shell.ended).toBe(0);
    expect([shell.windows, shell.desks]).toEqual([[], []]);
    expect(existsSync(shell.book)).toBe(false);
  });

  it('brings the window to the front on a second start', async () => {
    const shell = await opened();
    const window = windowOf(shell);
    window.minimized = true;
    shell.startAgain();
    await expect.poll(() => window.focused).toBe(1);
    expect([window.minimized, window.focused]).toEqual([false, 1]);
  });

  it('reports an invalid --book in a sentence, and ends', async () => {
    const shell = await started({ args: ['--no-sandbox-like-switch', '--book'] });
    await expect.poll(() => shell.ended).toBe(1);
    expect(shell.dialogs[0]?.message).toMatch(/^--book needs the path of a book/);
  });

  it('keeps the size of the window, and survives an invalid note', async () => {
    const sized = (text: string) =>
      opened({ prepare: (folder) => writeFileSync(join(folder, 'window.json'), text) });
    const shell = await sized('{"width":1500,"height":900,"maximized":true}');
    expect(windowOf(shell).options).toMatchObject({ width: 1500, height: 900 });
    expect(windowOf(shell).maximized).toBe(true);
    windowOf(shell).maximized = false;
    windowOf(shell).close();
    expect(JSON.parse(readFileSync(join(shell.folder, 'window.json'), 'utf8'))).toEqual({
      width: 1500,
      height: 900,
      x: 0,
      y: 0,
      maximized: false,
    });
    expect(windowOf(await sized('{"width":"wide","height":-1}')).options).toMatchObject({
      width: 1366,
      height: 860,
    });
  });
});

describe('the preload', () => {
  it('is one file that requires only electron and exposes what the contract states', async () => {
    expect(readdirSync(join(OUT, 'preload'))).toEqual(['preload.cjs']);
    const text = readFileSync(join(OUT, 'preload/preload.cjs'), 'utf8');
    expect(text.match(/\brequire\(|\bimport\b/g)).toEqual(['require(']);
    const { page } = windowOf(await opened()).contents;
    expect(page?.required).toEqual(['electron']);
    expect(Object.keys(page?.window['gambrel'] ?? {})).toEqual([
      'askForDesk',
      'printLabels',
      'speak',
      'versions',
    ]);
  });
});

describe('a window’s restrictions', () => {
  it('serve its own files under the strict policy, and nothing else', async () => {
    const shell = await opened();
    const page = await shell.load('app://gambrel/');
    expect(page.headers.get('content-security-policy')).toBe(WINDOW_POLICY);
    expect(await page.text()).toContain('<script type="module"');
    for (const address of [
      'app://gambrel/..%2fmain/main.js',
      'app://gambrel/%2e%2e%2fpreload/preload.cjs',
      'app://elsewhere/index.html',
      'app://gambrel/nothing.js',
    ]) {
      expect((await shell.load(address)).status, address).toBe(404);
    }
  });

  it('forbid leaving, redirects, other windows and embedded pages', async () => {
    const { contents } = windowOf(await opened());
    for (const event of ['will-navigate', 'will-redirect', 'will-frame-navigate'] as const) {
      expect(contents.tries(event, 'app://gambrel/#/rail')).toBe(true);
      for (const url of [
        'https://example.org/',
        'file:///etc/passwd',
        'app://gambrel.example.org/',
        'https://example.org/?app://gambrel/',
        'javascript:alert(1)',
        'nonsense',
      ]) {
        expect(contents.tries(event, url), `${event} ${url}`).toBe(false);
      }
    }
    expect(contents.openHandler?.({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    let prevented = false;
    contents.emit('will-attach-webview', { preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
  });

  it('permit a serial scale and nothing else', async () => {
    const shell = await opened();
    const ours = 'app://gambrel/';
    expect(await shell.requestRights('serial', ours)).toBe(true);
    expect(shell.checkRights('serial', 'app://gambrel')).toBe(true);
    expect(await shell.requestRights('serial', 'https://example.org/')).toBe(false);
    expect(shell.checkRights('serial', 'https://example.org')).toBe(false);
    for (const right of [
      'media',
      'geolocation',
      'notifications',
      'clipboard-read',
      'usb',
      'openExternal',
      'fullscreen',
    ]) {
      expect(await shell.requestRights(right, ours), right).toBe(false);
      expect(shell.checkRights(right, 'app://gambrel'), right).toBe(false);
    }
  });

  it('forbid the network', async () => {
    const shell = await opened();
    const through = [
      'app://gambrel/assets/index.js',
      'blob:app://gambrel/1-2-3',
      'data:image/png;base64,AA==',
    ];
    const stopped = ['https://example.org/', 'http://127.0.0.1/', 'ws://127.0.0.1/', 'file:///etc/passwd', 'blob:https://example.org/1', 'ftp://example.org', 'nonsense']; // prettier-ignore
    for (const url of through) expect(await shell.blocks(url), url).toBe(false);
    for (const url of stopped) expect(await shell.blocks(url), url).toBe(true);
  });

  it('refuse a port to the desk for pages that are not ours, or are gone', async () => {
    const shell = await opened();
    for (const frame of [{ url: 'https://example.org/' }, { url: 'app://elsewhere/' }, null]) {
      shell.frame = frame;
      (windowOf(shell).contents.page?.window['gambrel'] as { askForDesk(): void }).askForDesk();
    }
    expect(shell.desks[0]?.sent).toEqual(['open']);
  });
});

describe('the path to the book', () => {
  it('carries a call from the page to the book on disk and back, and notifications of changes', async () => {
    const shell = await opened();
    const bridge = await bridgeOf(shell);
    const heard: (string | null)[] = [];
    bridge.on('changed', ({ call }) => heard.push(call));
    const look = await bridge.call('shop.setUp', { shopName: 'Ridge Game Processing', unit: 'lb' });
    expect(look).toMatchObject({ ok: true, value: { setUp: true, bookPath: shell.book } });
    await expect.poll(() => heard).toEqual(['shop.setUp']);
    expect(await bridge.call('constructor' as 'shop.get', {})).toMatchObject({
      problem: { code: 'call.unknown' },
    });
    expect(await bridge.call('shop.setUp', { shopName: 7, unit: 'lb' } as never)).toMatchObject({
      ok: false,
      problem: { kind: 'invalid', field: 'shopName' },
    });

    shell.app.emit('window-all-closed');
    await expect.poll(() => shell.ended).toBe(0);
    const book = new Database(shell.book, { readonly: true });
    expect(book.prepare('SELECT count(*) FROM setting').pluck().get()).toBeGreaterThan(0);
    book.close();
  });

  it('closes the book on quit and leaves one file', async () => {
    const shell = await opened();
    await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    windowOf(shell).close();
    await expect.poll(() => shell.ended).toBe(0);
    expect(shell.desks[0]?.sent.at(-1)).toBe('close');
    expect(readdirSync(dirname(shell.book)).filter((name) => name.startsWith('shop.gambrel'))).toEqual([
      'shop.gambrel',
    ]);
  });

  it('restarts a desk that stopped, reports it, and reloads the window', async () => {
    const shell = await opened();
    const bridge = await bridgeOf(shell);
    await bridge.call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    shell.desks[0]?.crash();
    await expect.poll(() => windowOf(shell).contents.loads, { timeout: 10_000 }).toBe(2);
    expect(await bridge.call('shop.get', {})).toMatchObject({
      problem: { kind: 'broken', code: 'desk.gone' },
    });
    expect(await (await bridgeOf(shell)).call('shop.get', {})).toMatchObject({
      ok: true,
      value: { setUp: true },
    });
    expect(shell.dialogs.map(({ message }) => message)).toEqual([
      expect.stringMatching(/stopped, so it was restarted/),
    ]);
    expect(shell.desks).toHaveLength(2);
  });

  it('gives up on a desk that stops repeatedly', async () => {
    const shell = await opened();
    for (let n = 1; n <= 3; n += 1) {
      await expect.poll(() => windowOf(shell).contents.loads, { timeout: 10_000 }).toBe(n);
      shell.desks.at(-1)?.crash();
    }
    await expect.poll(() => shell.ended, { timeout: 10_000 }).toBe(1);
    expect(shell.dialogs.at(-1)?.message).toMatch(/keeps stopping/);
    expect(shell.desks).toHaveLength(3);
  });

  it('opens the demo without creating a book', async () => {
    const shell = await started();
    await clear(shell);
    const demo = await opened({ args: ['--demo', '--book', shell.book] });
    expect(await (await bridgeOf(demo)).call('shop.get', {})).toMatchObject({
      ok: true,
      value: { demo: true },
    });
    expect(existsSync(shell.book)).toBe(false);
  }, 90_000); // The demo's seasons are entered one by one.

  it('stores the demo of an installed program in its own folder, not in its archive', async () => {
    const shell = await opened({ installed: true, args: ['--demo'] });
    expect(existsSync(join(shell.folder, 'demo-0.1.0.gambrel'))).toBe(true);
    // It is not among the shop's books either.
    expect(noteOf(shell, 'recent-books')).toBe(null);
  }, 90_000);
});

describe('a book that does not open', () => {
  const foreign = (folder: string) => {
    const other = new Database(join(folder, 'shop.gambrel'));
    other.exec('CREATE TABLE recipe (name TEXT); PRAGMA user_version = 3');
    other.close();
  };

  it('is reported by the window, not by the shell; the file is unchanged', async () => {
    let before: Buffer | undefined;
    const shell = await opened({
      prepare(folder) {
        foreign(folder);
        before = readFileSync(join(folder, 'shop.gambrel'));
      },
    });
    expect(shell.dialogs).toEqual([]);
    const bridge = await bridgeOf(shell);
    expect(await bridge.call('shop.get', {})).toMatchObject({
      problem: { code: 'book.foreign', with: { path: shell.book } },
    });
    expect(readFileSync(shell.book)).toEqual(before);
    click(shell, '&Back up now');
    await expect.poll(() => shell.dialogs[0]?.message).toMatch(/^No backup could be made/);
  });

  it('is replaced by its newest backup if it is damaged, and the damaged file is kept', async () => {
    const first = await opened();
    const bridge = await bridgeOf(first);
    await bridge.call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    click(first, '&Back up now');
    await expect.poll(() => first.dialogs.length).toBe(1);
    expect(first.dialogs[0]?.message).toMatch(/^A backup was made and checked: /);
    windowOf(first).close();
    await expect.poll(() => first.ended).toBe(0);
    const pages = readFileSync(first.book);
    pages.fill('overwritten ', 8192, 40_960);
    writeFileSync(first.book, pages);

    const shell = await opened({ book: first.book });
    const again = await bridgeOf(shell);
    const look = await again.call('shop.listBackups', {});
    if (!look.ok) throw new Error(look.problem.code);
    expect(look.value.trouble).toMatchObject({ code: 'book.damaged' });
    const restored = await again.call('shop.restore', { path: look.value.rows[0]?.path ?? '' });
    if (!restored.ok) throw new Error(restored.problem.code);
    expect(await again.call('shop.get', {})).toMatchObject({ ok: true, value: { setUp: true } });
    expect(readFileSync(restored.value.setAside ?? '').equals(pages)).toBe(true);
  });
});

describe('the menu', () => {
  it('prints the window, reports failures, and is silent when the person cancels', async () => {
    const shell = await opened();
    const { contents } = windowOf(shell);
    click(shell, '&Print…');
    contents.printResult = [false, 'Print job canceled'];
    click(shell, '&Print…');
    contents.printResult = [false, 'Invalid printer settings'];
    click(shell, '&Print…');
    await expect.poll(() => shell.dialogs.length).toBe(1);
    expect(contents.prints).toHaveLength(3);
    expect(shell.dialogs[0]?.message).toBe(
      'Nothing was printed: Invalid printer settings. Check the printer and try again.',
    );
  });

  it('can be used after the window was closed', async () => {
    const shell = await opened();
    const { contents } = windowOf(shell);
    windowOf(shell).close();
    click(shell, '&Print…');
    expect(contents.prints).toEqual([]);
  });
});
