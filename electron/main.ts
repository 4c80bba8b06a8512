/** The desktop program. What must be said before the app is ready is said here; the rest is `desktop.ts`. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app } from 'electron';
import { usualBookPlace } from './book-place.ts';
import { openDesktop } from './desktop.ts';
import { tell } from './dialogs.ts';
import { declareScheme, serveScheme } from './protocol.ts';
import { guardSession, guardWindows } from './security.ts';
import { guardSerial } from './serial.ts';
import { readStartOptions } from './start-options.ts';

const here = import.meta.dirname;

app.enableSandbox();
declareScheme();
guardWindows();

if (app.requestSingleInstanceLock()) void app.whenReady().then(start);
else app.quit();

async function start(): Promise<void> {
  const read = readStartOptions(process.argv.slice(1), process.env, process.cwd(), false);
  if (!read.ok) {
    await tell('error', read.sentence);
    app.exit(1);
    return;
  }
  const { book, demo } = read.options;
  guardSession();
  guardSerial(join(app.getPath('userData'), 'scale-port.json'));
  serveScheme(join(here, '../renderer'));
  await openDesktop(
    {
      desk: join(here, 'desk.js'),
      preload: join(here, '../preload/preload.cjs'),
      sizeFile: join(app.getPath('userData'), 'window.json'),
      book: book ?? usualBookPlace(process.platform, process.env, homedir()),
    },
    demo,
  );
}
