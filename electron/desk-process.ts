/** The shell's hold on the desk process: starting it, giving windows their ports, closing it cleanly. */
import { MessageChannelMain, utilityProcess, type UtilityProcess, type WebContents } from 'electron';
import { DESK_PORT_CHANNEL } from '../src/bridge/wire.ts';
import type { FromDesk, ToDesk } from './desk-messages.ts';

/** How long the desk may take to close its book before it is ended, ms. */
const CLOSING_TIME = 10_000;

export interface DeskProcess {
  /** Opens a book; one that cannot be opened is told by the window. */
  open(bookPath: string, demo: boolean): Promise<void>;
  /** Makes a backup now; its path, or null if none could be made. */
  backUp(): Promise<string | null>;
  /** Gives a window its own port to the desk. */
  connectWindow(contents: WebContents): void;
  /** Has the book closed and the process ended. */
  close(): Promise<void>;
}

/**
 * Starts the built desk program `file`.
 * @param onStopped called when it ends without having been asked to
 */
export function startDeskProcess(file: string, onStopped: () => void): DeskProcess {
  const child = utilityProcess.fork(file, [], { serviceName: 'Gambrel desk' });
  let closing = false;
  child.on('exit', () => {
    if (!closing) onStopped();
  });
  const send = (message: ToDesk) => child.postMessage(message);
  const ask = <K extends FromDesk['kind']>(message: ToDesk, kind: K) => {
    const answer = heard(child, kind);
    send(message);
    return answer;
  };
  return {
    open: async (bookPath, demo) => void (await ask({ kind: 'open', bookPath, demo }, 'ready')),
    backUp: async () => (await ask({ kind: 'back up' }, 'backed up')).path,
    connectWindow(contents) {
      const { port1, port2 } = new MessageChannelMain();
      child.postMessage({ kind: 'window' } satisfies ToDesk, [port1]);
      contents.postMessage(DESK_PORT_CHANNEL, null, [port2]);
    },
    async close() {
      if (closing) return;
      closing = true;
      const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
      const late = new Promise<void>((resolve) => setTimeout(resolve, CLOSING_TIME));
      await Promise.race([ask({ kind: 'close' }, 'closed'), ended, late]);
      child.kill();
    },
  };
}

/** The next message of this kind. */
function heard<K extends FromDesk['kind']>(
  child: UtilityProcess,
  kind: K,
): Promise<Extract<FromDesk, { kind: K }>> {
  return new Promise((resolve) => {
    const listen = (message: FromDesk) => {
      if (message.kind !== kind) return;
      child.removeListener('message', listen);
      resolve(message as Extract<FromDesk, { kind: K }>);
    };
    child.on('message', listen);
  });
}
