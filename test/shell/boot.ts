/** Loads the built shell, `out/main/main.js`, as Node loads it, with the double instead of `electron`. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { constants, Script } from 'node:vm';
import { electronDouble, type DoubleOptions, type Electron, type ElectronRecord } from './double/electron.ts';

export const OUT = resolve(import.meta.dirname, '../../out');

/** The doubles of this process, by the number of their boot. */
const doubles = ((globalThis as { electronDoubles?: Map<string, Electron> }).electronDoubles ??= new Map());

registerHooks({
  resolve(specifier, context, next) {
    if (specifier !== 'electron') return next(specifier, context);
    const boot = new URL(context.parentURL ?? '').searchParams.get('boot');
    if (boot === null) throw new Error(`electron is imported by a shared file: ${context.parentURL}`);
    return { url: `electron-double:${boot}`, shortCircuit: true };
  },
  load(url, context, next) {
    if (!url.startsWith('electron-double:')) return next(url, context);
    const boot = url.slice('electron-double:'.length);
    const names = Object.keys(doubles.get(boot) ?? {});
    const source = `const e = globalThis.electronDoubles.get(${JSON.stringify(boot)});
      ${names.map((name) => `export const ${name} = e.${name};`).join('\n')}`;
    return { format: 'module', source, shortCircuit: true };
  },
});

/** Node's own import, which bypasses the test runner's transformation, so that the built file itself runs. */
const importAsNodeDoes = new Script('(address) => import(address)', {
  importModuleDynamically: constants.USE_MAIN_CONTEXT_DEFAULT_LOADER,
}).runInThisContext() as (address: string) => Promise<unknown>;

export interface Booted extends ElectronRecord {
  book: string;
  folder: string;
}

let boots = 0;

/** Starts the shell on a book in a temporary folder (or `book`), like `electron . --book …`. */
export async function boot(
  more: {
    book?: string;
    args?: string[];
    onlyInstance?: boolean;
    installed?: boolean;
    prepare?: (folder: string) => void;
    /** Whether the book exists before; an empty file is a new book. */
    bookThere?: boolean;
  } & Pick<DoubleOptions, 'screens' | 'switches' | 'withheld' | 'openedWith' | 'rejects' | 'noFolder'> = {},
): Promise<Booted> {
  const built = join(OUT, 'main/main.js');
  if (!existsSync(built)) throw new Error('The shell is not built: run "npm run build" first.');
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-shell-'));
  more.prepare?.(folder);
  const book = more.book ?? join(folder, 'shop.gambrel');
  if (more.bookThere !== false && !existsSync(book)) writeFileSync(book, '');
  const { electron, record } = electronDouble({
    folders: { userData: folder, logs: join(folder, 'logs'), documents: join(folder, 'documents') },
    ...more,
  });
  const number = String((boots += 1));
  doubles.set(number, electron);
  const argv = process.argv;
  process.argv = ['electron', '.', ...(more.args ?? ['--book', book])];
  await importAsNodeDoes(`${pathToFileURL(built).href}?boot=${number}`);
  // The arguments are read once the app is ready.
  while (!record.ready && more.onlyInstance !== false) await new Promise((resolve) => setImmediate(resolve));
  await new Promise((resolve) => setImmediate(resolve));
  process.argv = argv;
  return Object.assign(record, { book, folder });
}

/** Ends all shells that a test left running. */
export async function clear(shell: Booted): Promise<void> {
  for (const desk of shell.desks) desk.removeAllListeners('exit').kill();
  rmSync(shell.folder, { recursive: true, force: true });
}
