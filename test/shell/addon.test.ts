/** The built desk with an unusable SQLite library: blocked by a virus scanner, truncated, or for another system. */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { OUT } from './boot.ts';
import { DeskThread } from './double/desk-thread.ts';
import { MessageChannelMain } from './double/ports.ts';

const PACKAGES = resolve(import.meta.dirname, '../../node_modules');
const folder = mkdtempSync(join(tmpdir(), 'gambrel-addon-'));
let desk: DeskThread | null = null;
afterEach(() => {
  desk?.kill();
  rmSync(folder, { recursive: true, force: true });
});

/** The built desk beside an invalid library; the path of its program. */
function withBrokenLibrary(): string {
  cpSync(join(OUT, 'main'), join(folder, 'out/main'), { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(join(PACKAGES, 'highs'), join(folder, 'node_modules/highs'), 'junction');
  const library = join(folder, 'node_modules/better-sqlite3');
  cpSync(join(PACKAGES, 'better-sqlite3'), library, {
    recursive: true,
    filter: (from) => !/better-sqlite3[\\/](deps|src|build)\b/.test(from),
  });
  for (const name of readdirSync(join(library, 'prebuilds')))
    writeFileSync(join(library, 'prebuilds', name), 'cut short');
  return join(folder, 'out/main/desk.js');
}

it('is reported as a problem of the program, not as a damaged book, and the book is unchanged', async () => {
  const path = join(folder, 'shop/shop.gambrel');
  mkdirSync(dirname(path));
  writeFileSync(path, 'whatever stands in the book');
  desk = new DeskThread(withBrokenLibrary());
  const answers: unknown[] = [];
  const { port1, port2 } = new MessageChannelMain();
  port2.raw.on('message', (answer) => answers.push(answer));
  desk.postMessage({ kind: 'open', bookPath: path, named: false, demo: false, demoKeptAt: '' } as never);
  desk.postMessage({ kind: 'window' }, [port1]);
  port2.raw.postMessage({ id: 1, name: 'shop.get', input: {}, opening: null });
  await expect
    .poll(() => answers, { timeout: 10_000 })
    .toMatchObject([{ id: 1, answer: { ok: false, problem: { code: 'book.addon', with: { path } } } }]);
  port2.raw.postMessage({ id: 2, name: 'shop.listBackups', input: { folder: '' }, opening: null });
  await expect.poll(() => answers[1]).toMatchObject({ answer: { ok: true } });
  expect(readFileSync(path, 'utf8')).toBe('whatever stands in the book');
  expect(readdirSync(dirname(path))).toEqual(['shop.gambrel']);
  port2.raw.close();
});
