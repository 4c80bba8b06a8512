/** The desk as a process of its own under the desktop shell: opens the book and serves one port per window. */
import type { MessagePortMain } from 'electron';
import { BookTrouble } from '../src/book/trouble.ts';
import { servePort } from '../src/bridge/server/port.ts';
import { openDesk, type Desk } from '../src/desk/desk.ts';
import type { FromDesk, ToDesk } from './desk-messages.ts';
import { newestGoodBackup, restoreBackup } from './restore-backup.ts';
import { backupHelps } from './sentences.ts';

let bookPath = '';
let desk: Desk | null = null;

process.parentPort.on('message', ({ data, ports }) => void handle(data as ToDesk, ports[0]));

async function handle(message: ToDesk, port: MessagePortMain | undefined): Promise<void> {
  switch (message.kind) {
    case 'open':
      bookPath = message.bookPath;
      await open(message.demo);
      break;
    case 'restore': {
      const backup = newestGoodBackup(bookPath);
      if (backup) restoreBackup(bookPath, backup, new Date());
      await open(false);
      break;
    }
    case 'window':
      if (desk && port) servePort(desk, port);
      break;
    case 'back up':
      say({ kind: 'backed up', path: desk ? await backUp(desk) : null });
      break;
    case 'close':
      desk?.close();
      say({ kind: 'closed' });
      break;
  }
}

async function open(demo: boolean): Promise<void> {
  try {
    desk = await openDesk({ bookPath, demo, onBroken: (error) => console.error('Gambrel:', error) });
    say({ kind: 'ready' });
  } catch (error) {
    if (!(error instanceof BookTrouble)) throw error; // ours: the process ends and the shell says so
    const backup = backupHelps(error.code) ? newestGoodBackup(bookPath) : null;
    say({
      kind: 'trouble',
      trouble: { code: error.code, path: error.path },
      backup: backup && { path: backup.path, at: backup.at },
    });
  }
}

async function backUp(open: Desk): Promise<string | null> {
  const answer = await open.call('shop.backUp', {});
  return answer.ok ? (answer.value as { path: string }).path : null;
}

function say(message: FromDesk): void {
  process.parentPort.postMessage(message);
}
