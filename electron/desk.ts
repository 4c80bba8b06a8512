/** The desk as a separate process under the desktop shell: opens the book and serves one port per window. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { MessagePortMain } from 'electron';
import { servePort } from '../src/bridge/server/port.ts';
import { demoBook } from '../src/demo/copy.ts';
import { openDesk, type Desk } from '../src/desk/desk.ts';
import { USUAL_TIMES } from '../src/desk/upkeep.ts';
import { DESK_FAILED, type FromDesk, type ToDesk } from './desk-messages.ts';
import { vaultByMessage } from './desk-vault.ts';
import { markOf } from './log-lines.ts';
import { writePrivately } from './private-files.ts';
import { followStations } from './stations.ts';

/** Beside this file in a build, as no file of `chunks` is. */
const windowFolder = join(import.meta.dirname, '../renderer');

writePrivately();
const { vault, answer } = vaultByMessage(post);
let desk: Desk | null = null;
let endStations: (() => Promise<void>) | null = null;
/** Ports of windows that connected before the book was open. */
const early: MessagePortMain[] = [];

// Electron only warns of an unhandled rejection, and the process would keep the book open without serving it.
process.on('unhandledRejection', fail);
process.on('uncaughtException', fail);
process.parentPort.on('message', ({ data, ports }) => {
  handle(data as ToDesk, ports[0]).catch(fail);
});

/** Carries out one message and answers it; rejects on failure. */
async function handle(message: ToDesk, port: MessagePortMain | undefined): Promise<void> {
  switch (message.kind) {
    case 'open': {
      const { bookPath, named, demo, demoKeptAt } = message;
      const opened = await openDesk({
        worker: new URL('./worker.js', import.meta.url),
        vault,
        ledgerProgram: new URL('./ledger.js', import.meta.url),
        bookPath,
        named,
        demo,
        onBroken: report,
        upkeep: USUAL_TIMES,
        demoBook: demoBook(demoKeptAt),
      });
      desk = opened;
      endStations = followStations(opened, windowFolder, (on) => post({ kind: 'stations', on }));
      for (const one of early.splice(0)) servePort(opened, one);
      post({ kind: 'ready' });
      break;
    }
    case 'window':
      if (!port) break;
      if (desk) servePort(desk, port);
      else early.push(port);
      break;
    case 'key store says':
      answer(message.id, message.text);
      break;
    case 'back up':
      post({ kind: 'backed up', path: desk ? await backUp(desk) : null });
      break;
    case 'close':
      await endStations?.();
      desk?.close({ backUp: message.backUp });
      if (message.doneFile !== null) writeFileSync(message.doneFile, '');
      post({ kind: 'closed' });
      break;
  }
}

async function backUp(open: Desk): Promise<string | null> {
  const answer = await open.call('shop.backUp', {});
  return answer.ok ? (answer.value as { path: string }).path : null;
}

function report(error: unknown): void {
  console.error('Gambrel:', error);
  post({ kind: 'broken', mark: markOf(error) });
}

/** Ends the process: the shell starts another and reports it. Saved data is on the disk. */
function fail(error: unknown): never {
  report(error);
  process.exit(DESK_FAILED);
}

function post(message: FromDesk): void {
  process.parentPort.postMessage(message);
}
