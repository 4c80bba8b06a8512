/** Command line options, and the path of the book. */
import { describe, expect, it } from 'vitest';
import { usualBookPlace } from '../../electron/book-place.ts';
import { browserCommand } from '../../electron/open-browser.ts';
import { readStartOptions } from '../../electron/start-options.ts';

describe('the options', () => {
  const read = (args: string[], env: Record<string, string> = {}, strict = true) =>
    readStartOptions(args, env, '/home/ann', strict);

  it('are read in any order, joined or separate', () => {
    const usual = { named: false, demo: false, port: 4747, openBrowser: true };
    expect(read([])).toEqual({ ok: true, options: usual });
    expect(read(['--demo', '--port', '4000', '--no-open'])).toEqual({
      ok: true,
      options: { named: false, demo: true, port: 4000, openBrowser: false },
    });
    expect(read(['--port=0', '--book=a=b.gambrel'])).toEqual({
      ok: true,
      options: { ...usual, named: true, port: 0, book: '/home/ann/a=b.gambrel' },
    });
  });

  it('are read from the environment, and overridden by the command line', () => {
    const env = { GAMBREL_BOOK: '/env.gambrel', GAMBREL_NO_OPEN: '1' };
    expect(read([], env)).toMatchObject({ options: { book: '/env.gambrel', openBrowser: false } });
    expect(read(['--book', '/arg.gambrel'], env)).toMatchObject({ options: { book: '/arg.gambrel' } });
  });

  it.each([
    [['--port']],
    [['--port', '65536']],
    [['--port', '-1']],
    [['--port=4e3']],
    [['--book']],
    [['--help']],
    [['x']],
  ])('answers %j with a sentence', (args) => {
    const result = read(args);
    expect(result.ok).toBe(false);
    expect(!result.ok && result.sentence).toMatch(/^[^\n]+\.$/);
  });

  it('include the bare path of a book, as the file manager passes it', () => {
    expect(read(['--demo', 'cabin.gambrel'])).toMatchObject({ options: { book: '/home/ann/cabin.gambrel' } });
    expect(read(['.', '--x=a.gambrel'], {}, false)).toEqual(read([]));
  });

  it('resolve file addresses', () => {
    const book = '/home/ann/My shop.gambrel';
    for (const args of [
      ['file:///home/ann/My%20shop.gambrel'],
      ['FILE:///home/ann/My%20shop.gambrel'],
      ['--book', 'file:///home/ann/My%20shop.gambrel'],
      ['--book=file://localhost/home/ann/My%20shop.gambrel'],
    ])
      expect(read(args), args[0]).toMatchObject({ ok: true, options: { book, named: true } });
    expect(read(['SHOP.GAMBREL'])).toMatchObject({
      options: { book: '/home/ann/SHOP.GAMBREL', named: true },
    });
    for (const address of ['file://other/share/shop.gambrel', 'file:///a%2Fb.gambrel'])
      expect(read([address])).toEqual({ ok: false, sentence: `${address} is not a file on this computer. Copy the book here, then open the copy.` }); // prettier-ignore
  });

  it('distinguish a named book from the default path', () => {
    expect(read([], { GAMBREL_BOOK: '/env.gambrel' })).toMatchObject({ options: { named: false } });
    expect(read(['--book', '/arg.gambrel'])).toMatchObject({ options: { named: true } });
    expect(read(['arg.gambrel'])).toMatchObject({ options: { named: true } });
  });

  it("ignore Chromium's own switches in the desktop app", () => {
    expect(read(['.', '--inspect=0', '--demo'], {}, false)).toMatchObject({
      ok: true,
      options: { demo: true },
    });
  });
});

it.each([
  ['linux', {}, '/home/ann', '/home/ann/.local/share/Gambrel/shop.gambrel'],
  ['linux', { XDG_DATA_HOME: '/data' }, '/home/ann', '/data/Gambrel/shop.gambrel'],
  ['linux', { XDG_DATA_HOME: 'not/whole' }, '/home/ann', '/home/ann/.local/share/Gambrel/shop.gambrel'],
  ['darwin', {}, '/Users/ann', '/Users/ann/Library/Application Support/Gambrel/shop.gambrel'],
  ['win32', { APPDATA: 'C:\\Users\\ann\\AppData\\Roaming' }, 'C:\\Users\\ann', 'C:\\Users\\ann\\AppData\\Roaming\\Gambrel\\shop.gambrel'],
  ['win32', {}, 'C:\\Users\\ann', 'C:\\Users\\ann\\AppData\\Roaming\\Gambrel\\shop.gambrel'],
] as const)('keeps the book on %s %j at %s in its own folder', (platform, env, home, place) => {
  expect(usualBookPlace(platform, env, home)).toBe(place);
}); // prettier-ignore

it('passes an address to the system unchanged, never through a shell, and on macOS not as an argument', () => {
  const address = 'http://127.0.0.1:4747/#code=a_b-c';
  for (const platform of ['linux', 'win32'] as const) {
    const { command, args, input } = browserCommand(platform, address);
    expect([args.at(-1), input]).toEqual([address, '']);
    expect(command).not.toMatch(/cmd|sh$/);
  }
  expect(browserCommand('darwin', address)).toEqual({
    command: 'osascript',
    args: [],
    input: `open location "${address}"`,
  });
});
