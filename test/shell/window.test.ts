/** The window of the built shell: bounds, menu, and failures. */
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import builder from '../../electron/packaging/builder.json';
import { bridgeOf, click, menuItems, note, noteOf, opened, started, windowOf } from './running.ts';

const LEFT = { x: 0, y: 0, width: 1920, height: 1040 };
const RIGHT = { x: 1920, y: 0, width: 1920, height: 1040 };
const PLACE = { x: 2000, y: 100, width: 1500, height: 900, maximized: false };

describe('the bounds of the window', () => {
  it('are restored, on a second screen too', async () => {
    const screens = [LEFT, RIGHT];
    const shell = await opened({ screens, prepare: note('window', PLACE) });
    expect(windowOf(shell).options).toMatchObject({ x: 2000, y: 100, width: 1500, height: 900 });
    windowOf(shell).moved = { x: 2100, y: 90 };
    windowOf(shell).close();
    expect(noteOf(shell, 'window')).toEqual({ ...PLACE, x: 2100, y: 90 });
  });

  it.each([
    ['a screen that is no longer there', PLACE],
    ['above all screens, where it cannot be taken hold of', { ...PLACE, x: 100, y: -500 }],
    ['all but a corner outside', { ...PLACE, x: 1800 }],
    ['below the last line', { ...PLACE, x: 100, y: 1020 }],
  ])('are centered, in the same size, after %s', async (_where, place) => {
    const { options } = windowOf(await opened({ screens: [LEFT], prepare: note('window', place) }));
    expect(options).toMatchObject({ width: 1500, height: 900 });
    expect([options.x, options.y]).toEqual([undefined, undefined]);
  });

  it('may be on a screen left of the first', async () => {
    const screens = [LEFT, { ...LEFT, x: -1920 }];
    const place = { ...PLACE, x: -1900 };
    expect(windowOf(await opened({ screens, prepare: note('window', place) })).options.x).toBe(-1900);
  });
});

describe('the menu', () => {
  it('has an accelerator for every item', async () => {
    const shell = await opened();
    const keys = shell.menu.map(({ label, submenu }) => [
      label,
      (submenu ?? []).flatMap(({ type, submenu, accelerator }) =>
        type === 'separator' || submenu ? [] : [accelerator],
      ),
    ]);
    expect(keys).toEqual([
      [
        '&File',
        [
          'CmdOrCtrl+O',
          'CmdOrCtrl+B',
          'CmdOrCtrl+Shift+S',
          'CmdOrCtrl+P',
          'CmdOrCtrl+Shift+P',
          'CmdOrCtrl+,',
          'CmdOrCtrl+Q',
        ],
      ],
      [
        '&Edit',
        ['CmdOrCtrl+Z', 'CmdOrCtrl+Shift+Z', 'CmdOrCtrl+X', 'CmdOrCtrl+C', 'CmdOrCtrl+V', 'CmdOrCtrl+A'],
      ],
      ['&View', ['CmdOrCtrl+Plus', 'CmdOrCtrl+-', 'CmdOrCtrl+0', 'F11']],
      ['&Window', ['CmdOrCtrl+M', 'CmdOrCtrl+W']],
      ['&Help', ['F1', 'CmdOrCtrl+Shift+N', 'CmdOrCtrl+Shift+L', 'CmdOrCtrl+Shift+A']],
    ]);
    const letters = (items: { label?: string }[]) =>
      items.flatMap(({ label }) => label?.match(/&(\w)/)?.[1] ?? []);
    for (const { label, submenu } of shell.menu)
      expect(new Set(letters(submenu ?? [])).size, label).toBe(letters(submenu ?? []).length);
  });

  it.each([
    ['&Handbook', '#/handbook'],
    ['Se&ttings', '#/shop'],
  ])('leads from %s to its page', async (item, page) => {
    const shell = await opened();
    click(shell, item);
    await expect.poll(() => windowOf(shell).contents.address).toBe(`app://gambrel/${page}`);
  });

  it('shows the page About', async () => {
    const shell = await opened();
    click(shell, '&About Gambrel');
    await expect.poll(() => windowOf(shell).contents.address).toBe('app://gambrel/#/about');
    const licences = (await (await shell.load('app://gambrel/licences.json')).json()) as {
      licence: string;
      text: string;
      packages: { name: string; version: string }[];
    }[];
    const names = licences.flatMap(({ packages }) => packages.map(({ name }) => name));
    // Packages beside the bundles, in the window, in the desk, and the fonts.
    for (const name of [
      'better-sqlite3',
      'highs',
      'vue',
      'valibot',
      '@fontsource-variable/atkinson-hyperlegible-next',
    ])
      expect(names, name).toContain(name);
    const versions = licences.flatMap(({ packages }) =>
      packages.map(({ name, version }) => `${name} ${version}`),
    );
    expect(versions.length).toBe(new Set(versions).size);
    for (const { licence, text, packages } of licences) {
      expect(licence, packages[0]?.name).toMatch(
        /^(MIT|ISC|Apache-2\.0|OFL-1\.1|BSD-\d-Clause|0BSD|Apache-2\.0 AND BSL-1\.0)$/,
      );
      // These packages name their license without including its text; the page says so.
      if (text === '')
        expect(packages.map(({ name }) => name)).toEqual([
          'abstract-logging',
          'csv-stringify',
          'pg-types',
          'pgpass',
        ]);
      else expect(text.length, packages[0]?.name).toBeGreaterThan(400);
    }
  });

  it('can be used after the window was closed', async () => {
    const shell = await opened();
    const { contents } = windowOf(shell);
    const items = menuItems(shell);
    windowOf(shell).close();
    for (const item of items) if (!item.label?.includes('gambrel in')) item.click?.();
    expect([contents.prints, shell.files]).toEqual([[], []]);
  });
});

describe('on other systems', () => {
  /** Makes the shell see another system until the test ends. */
  function pretend(platform: NodeJS.Platform): void {
    const own = process.platform;
    Object.defineProperty(process, 'platform', { value: platform });
    onTestFinished(() => void Object.defineProperty(process, 'platform', { value: own }));
  }

  it('macOS has About, Hide and Quit under the name of the program, first, and only once', async () => {
    pretend('darwin');
    const shell = await opened();
    const [first] = shell.menu;
    expect(first?.label).toBe('Gambrel');
    expect(first?.submenu?.flatMap(({ role, label }) => role ?? label ?? [])).toEqual([
      '&About Gambrel',
      'Se&ttings',
      'services',
      'hide',
      'hideOthers',
      'unhide',
      'quit',
    ]);
    const items = menuItems(shell);
    expect(items.filter(({ role }) => role === 'quit')).toHaveLength(1);
    expect(items.filter(({ label }) => label === '&About Gambrel')).toHaveLength(1);
    expect(shell.appUserModelId).toBe(null);
  });

  it('macOS shows a message on the window, where it blocks nothing', async () => {
    pretend('darwin');
    const shell = await opened();
    windowOf(shell).contents.emit('render-process-gone', {}, { reason: 'crashed' });
    await expect
      .poll(() => shell.dialogs.map(({ message }) => message))
      .toEqual([expect.stringMatching(/^The window stopped/)]);
  });

  it('the Windows taskbar knows the program by the id that its installer gives the shortcuts', async () => {
    pretend('win32');
    const shell = await started({ onlyInstance: false });
    expect(shell.appUserModelId).toBe(builder.appId);
  });
});

describe('a window that stops', () => {
  it('is reopened with a message, and the book is unchanged', async () => {
    const shell = await opened();
    await (await bridgeOf(shell)).call('shop.setUp', { shopName: 'Ridge', unit: 'kg' });
    const { contents } = windowOf(shell);
    contents.emit('render-process-gone', {}, { reason: 'crashed' });
    await expect.poll(() => contents.loads).toBe(2);
    expect(shell.dialogs.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^The window stopped and was reopened\. Everything you saved is there/),
    ]);
    expect(await (await bridgeOf(shell)).call('shop.get', {})).toMatchObject({
      value: { settings: { shopName: 'Ridge' } },
    });
    contents.emit('render-process-gone', {}, { reason: 'clean-exit' });
    expect([contents.loads, shell.desks.length]).toEqual([2, 1]);
  });

  it('repeatedly ends the program, with the book closed', async () => {
    const shell = await opened();
    const { contents } = windowOf(shell);
    for (let n = 1; n <= 3; n += 1) {
      await expect.poll(() => contents.loads).toBe(n);
      contents.emit('render-process-gone', {}, { reason: 'oom' });
    }
    await expect.poll(() => shell.ended).toBe(0);
    expect(shell.dialogs.at(-1)?.message).toMatch(/^The window keeps stopping/);
    expect(shell.desks[0]?.sent.at(-1)).toBe('close');
  });

  it('may stop again after a minute', async () => {
    const shell = await opened();
    const { contents } = windowOf(shell);
    const now = vi.spyOn(Date, 'now');
    for (let n = 1; n <= 4; n += 1) {
      now.mockReturnValue(n * 40_000);
      await expect.poll(() => contents.loads).toBe(n);
      contents.emit('render-process-gone', {}, { reason: 'crashed' });
    }
    now.mockRestore();
    await expect.poll(() => contents.loads).toBe(5);
    expect(shell.ended).toBe(null);
  });

  it('and hangs is left alone or reopened, as the person chooses', async () => {
    const shell = await opened();
    const window = windowOf(shell);
    shell.answers.push(0, 1);
    window.emit('unresponsive');
    await expect.poll(() => shell.dialogs.length).toBe(1);
    expect(shell.dialogs[0]?.buttons).toEqual(['Wait', 'Reopen window']);
    expect(window.contents.loads).toBe(1);
    window.emit('unresponsive');
    await expect.poll(() => window.contents.loads).toBe(2);
  });

  it('and hangs is asked about once at a time', async () => {
    const shell = await opened();
    const window = windowOf(shell);
    shell.boxes.stand = 1;
    window.emit('unresponsive');
    window.emit('unresponsive'); // Each key press meanwhile may raise another event.
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(shell.dialogs).toHaveLength(1);
    shell.answerStanding(0);
    await new Promise((resolve) => setTimeout(resolve, 20));
    shell.answers.push(1);
    window.emit('unresponsive');
    await expect.poll(() => window.contents.loads).toBe(2);
  });

  it('and hangs is ignored if it was closed meanwhile', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const shell = await opened();
    const window = windowOf(shell);
    shell.boxes.stand = 1;
    window.emit('unresponsive');
    window.close();
    shell.answerStanding(1);
    await expect.poll(() => shell.ended).toBe(0);
    expect(told).not.toHaveBeenCalled();
    told.mockRestore();
  });

  it('repeatedly ends the program even if no message can be shown', async () => {
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const rejects: { showMessageBox?: Error } = { showMessageBox: new Error('no display') };
    const shell = await opened({ rejects });
    const { contents } = windowOf(shell);
    for (let n = 1; n <= 3; n += 1) {
      await expect.poll(() => contents.loads).toBe(n);
      contents.emit('render-process-gone', {}, { reason: 'crashed' });
    }
    await expect.poll(() => shell.ended).toBe(0);
    expect(told.mock.calls.map(([what]) => what)).toEqual(Array(3).fill('Gambrel: not-told.'));
    told.mockRestore();
  });
});
