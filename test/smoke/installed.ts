/**
 * Looks at an installed program, for whoever has just installed it:
 * `node test/smoke/installed.ts run PROGRAM [FILE]`: its fuses (or those of FILE, for a program that is packed up), and a
 * run with a book as argument, as a path and as an address;
 * `node test/smoke/installed.ts refused PROGRAM`: that it refuses to run where it would have no sandbox;
 * `node test/smoke/installed.ts kept`: after it was removed, that the book of the run is still there.
 * The book lies where the shop's own would lie. `GAMBREL_SMOKE_DISPLAY` as in `packed.ts`.
 */
import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { usualBookPlace } from '../../electron/book-place.ts';
import { fusesOf, SHIPPED_FUSES } from './fuses.ts';
import { watchRefusal, watchRun, type Watched } from './installed-run.ts';
import { displayWords } from './display.ts';
import { isBook } from './traces.ts';

const [task = '', named = '', holdsFuses = named] = process.argv.slice(2);
const program = named && resolve(named);
const book = join(
  dirname(usualBookPlace(process.platform, process.env, homedir())),
  'installed program.gambrel',
);
const own = (name: string) => resolve(import.meta.dirname, '../../test-results/installed', name);

function tell({ faults, events }: Watched, name: string): void {
  console.log(`${name}: ${faults.length === 0 ? 'well' : faults.join(' ')} (log: ${events.join(', ')})`);
  if (faults.length > 0) process.exitCode = 1;
}

/** An empty file is a new book: a name without a file would not be made into one. */
function layEmptyBook(): void {
  mkdirSync(dirname(book), { recursive: true });
  rmSync(book, { force: true });
  writeFileSync(book, '');
}

switch (task) {
  case 'run': {
    const fuses = fusesOf(resolve(holdsFuses));
    tell({ faults: fuses === SHIPPED_FUSES ? [] : [`They stand at ${fuses}.`], events: [] }, 'fuses');
    layEmptyBook();
    tell(await watchRun(program, [...displayWords(), book], book, own('path')), 'started with a path');
    layEmptyBook();
    const address = pathToFileURL(book).href;
    tell(
      await watchRun(program, [...displayWords(), address], book, own('address')),
      'started with an address',
    );
    break;
  }
  case 'refused':
    layEmptyBook();
    tell(
      await watchRefusal(program, [...displayWords(), book], book, own('refused')),
      'started without a sandbox',
    );
    break;
  case 'kept':
    tell({ faults: existsSync(book) && isBook(book) ? [] : [`${book} is gone.`], events: [] }, 'the book');
    break;
  default:
    throw new Error('Say run PROGRAM, refused PROGRAM, or kept.');
}
