/** The desk as a process of its own under the desktop shell: opens the book and serves one port per window. */
import type { MessagePortMain } from 'electron';
import { servePort } from '../src/bridge/server/port.ts';
import { demoBook } from '../src/desk/demo/copy.ts';
import { openDesk, type Desk } from '../src/desk/desk.ts';
import { USUAL_TIMES } from '../src/desk/upkeep.ts';
import type { FromDesk, ToDesk } from './desk-messages.ts';
import { markOf } from './log-lines.ts';

let desk: Desk | null = null;

process.parentPort.on('message', ({ data, ports }) => void handle(data as ToDesk, ports[0]));

async function handle(message: ToDesk, port: MessagePortMain | undefined): Promise<void> {
  switch (message.kind) {
    case 'open': {
      const { bookPath, demo, demoKeptAt } = message;
      const onBroken = (error: unknown) => {
        console.error('Gambrel:', error);
        say({ kind: 'broken', mark: markOf(error) });
      };
      desk = await openDesk({
        bookPath,
        demo,
        onBroken,
        upkeep: USUAL_TIMES,
        demoBook: demoBook(demoKeptAt),
      });
      say({ kind: 'ready' });
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

async function backUp(open: Desk): Promise<string | null> {
  const answer = await open.call('shop.backUp', {});
  return answer.ok ? (answer.value as { path: string }).path : null;
}

function say(message: FromDesk): void {
  process.parentPort.postMessage(message);
}
