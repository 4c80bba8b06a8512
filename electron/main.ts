/** The desktop program: set-up that must precede the app's ready event; the rest is `desktop.ts`. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app } from 'electron';
import { usualBookPlace } from './book-place.ts';
import { openDesktop, type Desktop } from './desktop.ts';
import { announce } from './dialogs.ts';
import { startLanguage } from './language.ts';
import { logError, logEvent, openLog } from './log.ts';
import { appId } from './packaging/builder.json';
import { whenParentGone } from './parent-watch.ts';
import { makeFolderPrivate, writePrivately } from './private-files.ts';
import { declareScheme, serveScheme } from './protocol.ts';
import { guardDownloads } from './saving.ts';
import { guardSession, guardWindows } from './security.ts';
import { text } from '../src/words/compiled/shell/notices.ts';
import { guardSerial } from './serial.ts';
import { startsUnguarded } from './start-guard.ts';
import { readStartOptions } from './start-options.ts';

const here = import.meta.dirname;
/** The arguments of this start; a second start passes them to the first itself, because Chromium reorders arguments. */
const given = { args: process.argv.slice(1), folder: process.cwd() };

writePrivately();
declareScheme();
guardWindows();
// The installer's shortcuts have the same id, so that the taskbar groups them.
if (process.platform === 'win32') app.setAppUserModelId(appId);

const opened = Promise.withResolvers<Desktop>();
/** The book that macOS opened the program with; the event precedes ready. */
let openedWith: string | null = null;
let starting = false;

// Both may arrive while the first book is still being opened.
app.on('second-instance', (_event, _args, _folder, more) => {
  const { args, folder } = (more ?? { args: [], folder: given.folder }) as typeof given;
  const read = readStartOptions(args, {}, folder, false);
  if (read.ok) void opened.promise.then((desktop) => desktop.comeBack(read.options.book));
  else void announce('error', read.sentence);
});
app.on('open-file', (event, path) => {
  event.preventDefault();
  if (starting) void opened.promise.then((desktop) => desktop.comeBack(path));
  else openedWith = path;
});

// macOS closes a dialog of the same event loop turn immediately (electron/electron#31402).
if (app.requestSingleInstanceLock(given))
  app
    .whenReady()
    .then(() => new Promise<void>((next) => setImmediate(next)))
    .then(start)
    .catch(giveUp);
else app.quit();

async function start(): Promise<void> {
  starting = true;
  const note = (name: string) => join(app.getPath('userData'), `${name}.json`);
  openLog(() => app.getPath('logs'));
  const { electron = '', chrome = '' } = process.versions;
  logEvent('started', { version: app.getVersion(), electron, chrome, system: process.platform });
  startLanguage(note('language'));
  if (startsUnguarded()) return refuse(text.noSandbox({ appImage: Boolean(process.env['APPIMAGE']) }));
  const read = readStartOptions(given.args, process.env, given.folder, false);
  if (!read.ok) return refuse(read.sentence);
  const { book, named, demo } = read.options;
  const usualBook = usualBookPlace(process.platform, process.env, homedir());
  makeFolderPrivate(usualBook);
  guardSession();
  guardSerial(note('scale-port'));
  guardDownloads(note('saving'));
  serveScheme(join(here, '../renderer'));
  const desktop = await openDesktop(
    { desk: join(here, 'desk.js'), preload: join(here, '../preload/preload.cjs'), demo: demoPlace(), note },
    openedWith === null
      ? { book: book ?? usualBook, named, demo }
      : { book: openedWith, named: true, demo: false },
  );
  whenParentGone(process.env, () => app.quit());
  opened.resolve(desktop);
}

async function refuse(sentence: string): Promise<void> {
  logEvent('refused');
  await announce('error', sentence);
  app.exit(1);
}

/** A failed start must not keep running invisibly and block the next one. */
async function giveUp(error: unknown): Promise<void> {
  logError('not-started', error);
  await announce('error', text.notStarted);
  app.exit(1);
}

/** The demo belongs to one build. An installed program's archive is read-only. */
function demoPlace(): string {
  return app.isPackaged
    ? join(app.getPath('userData'), `demo-${app.getVersion()}.gambrel`)
    : join(here, 'demo.gambrel');
}
