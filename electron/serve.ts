/** The same desk and window under plain Node: serves them on 127.0.0.1 for an ordinary browser. */
import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { serveOverHttp } from '../src/bridge/server/http.ts';
import { demoBook } from '../src/demo/copy.ts';
import { openDesk } from '../src/desk/desk.ts';
import { USUAL_TIMES } from '../src/desk/upkeep.ts';
import { usualBookPlace } from './book-place.ts';
import { openBrowser } from './open-browser.ts';
import { whenParentGone } from './parent-watch.ts';
import { makeFolderPrivate, writePrivately } from './private-files.ts';
import { text } from '../src/words/compiled/shell/terminal.ts';
import { nodeSentence } from './start/node.mjs';
import { readStartOptions, type StartOptions } from './start-options.ts';
import { followStations } from './stations.ts';

const windowFolder = join(import.meta.dirname, '../renderer');
const demoKeptAt = join(import.meta.dirname, 'demo.gambrel');

writePrivately();
const tooOld = nodeSentence(process.versions);
if (tooOld) giveUp(tooOld);
const read = readStartOptions(process.argv.slice(2), process.env, process.cwd());
if (!read.ok) giveUp(read.sentence);
if (!existsSync(join(windowFolder, 'index.html'))) giveUp(text.windowMissing);
await serve(read.options);

async function serve(options: StartOptions): Promise<void> {
  if (options.demo && !existsSync(demoKeptAt)) {
    console.log(text.settingUpDemo);
  }
  const usualBook = usualBookPlace(process.platform, process.env, homedir());
  makeFolderPrivate(usualBook);
  const bookPath = options.book ?? usualBook;
  const onBroken = (error: unknown) => console.error('Gambrel:', error);
  const { named, demo } = options;
  const desk = await openDesk({
    worker: new URL('./worker.js', import.meta.url),
    ledgerProgram: new URL('./ledger.js', import.meta.url),
    bookPath,
    named,
    demo,
    onBroken,
    upkeep: USUAL_TIMES,
    demoBook: demoBook(demoKeptAt),
  });
  if (desk.trouble()) console.error(text.bookNotOpen({ path: bookPath }));
  const carrier = await serveOverHttp({ desk, windowFolder, port: options.port });
  if (options.port !== 0 && carrier.port !== options.port) {
    console.log(text.portTaken({ port: String(options.port), used: String(carrier.port) }));
  }
  const endStations = followStations(desk, windowFolder);
  const openWindow = () => {
    const address = carrier.newAddress();
    console.log(text.isOpen({ address }));
    if (options.openBrowser) openBrowser(address);
  };
  openWindow();
  console.log(text.pressEnter);
  onEnter(openWindow);

  let closing = false;
  const close = () => {
    if (closing) return;
    closing = true;
    void Promise.all([carrier.close(), endStations()]).then(() => {
      desk.close();
      process.exit(0);
    });
  };
  process.on('SIGINT', close);
  process.on('SIGTERM', close);
  process.on('SIGHUP', close); // the terminal window was closed
  whenParentGone(process.env, close);
}

/** Calls `act` when Enter is pressed in the terminal, if there is one. */
function onEnter(act: () => void): void {
  process.stdin.on('data', act);
  process.stdin.on('error', () => process.stdin.pause()); // the terminal is gone
}

function giveUp(sentence: string): never {
  console.error(sentence);
  process.exit(1);
}
