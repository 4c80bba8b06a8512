/** The desktop program. What must be said before the app is ready is said here; the rest is `desktop.ts`. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app } from 'electron';
import { usualBookPlace } from './book-place.ts';
import { openDesktop, type Desktop } from './desktop.ts';
import { tell } from './dialogs.ts';
import { logEvent, openLog } from './log.ts';
import { declareScheme, serveScheme } from './protocol.ts';
import { guardDownloads } from './saving.ts';
import { guardSession, guardWindows } from './security.ts';
import { guardSerial } from './serial.ts';
import { readStartOptions } from './start-options.ts';

const here = import.meta.dirname;
/** What this start was given; a second start hands it to the first, because Chromium sorts arguments anew. */
const given = { args: process.argv.slice(1), folder: process.cwd() };

app.enableSandbox();
declareScheme();
guardWindows();

const opened = Promise.withResolvers<Desktop>();

// Both may come while the first book is still being opened.
app.on('second-instance', (_event, _args, _folder, more) => {
  const { args, folder } = more as typeof given;
  const read = readStartOptions(args, {}, folder, false);
  if (read.ok) void opened.promise.then((desktop) => desktop.comeBack(read.options.book));
  else void tell('error', read.sentence);
});
app.on('open-file', (event, path) => {
  event.preventDefault();
  void opened.promise.then((desktop) => desktop.comeBack(path));
});

if (app.requestSingleInstanceLock(given)) void app.whenReady().then(start);
else app.quit();

async function start(): Promise<void> {
  const note = (name: string) => join(app.getPath('userData'), `${name}.json`);
  openLog(app.getPath('logs'));
  const { electron = '', chrome = '' } = process.versions;
  logEvent('started', { version: app.getVersion(), electron, chrome, system: process.platform });
  const read = readStartOptions(given.args, process.env, given.folder, false);
  if (!read.ok) {
    await tell('error', read.sentence);
    app.exit(1);
    return;
  }
  const { book, demo } = read.options;
  guardSession();
  guardSerial(note('scale-port'));
  guardDownloads(note('saving'));
  serveScheme(join(here, '../renderer'));
  const desktop = await openDesktop(
    { desk: join(here, 'desk.js'), preload: join(here, '../preload/preload.cjs'), demo: demoPlace(), note },
    book ?? usualBookPlace(process.platform, process.env, homedir()),
    demo,
  );
  opened.resolve(desktop);
}

/** The demo belongs to one build. An installed program lies in an archive that cannot be written. */
function demoPlace(): string {
  return app.isPackaged
    ? join(app.getPath('userData'), `demo-${app.getVersion()}.gambrel`)
    : join(here, 'demo.gambrel');
}
