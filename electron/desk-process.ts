/** The shell's hold on the desk process: starting it, giving windows their ports, closing it cleanly. */
import { MessageChannelMain, utilityProcess, type UtilityProcess, type WebContents } from 'electron';
import { DESK_PORT_CHANNEL } from '../src/bridge/wire.ts';
import type { FromDesk, ToDesk } from './desk-messages.ts';
import { logEvent, logMark } from './log.ts';

export interface DeskProcess {
  /** Opens a book; one that cannot be opened is told by the window. False when the process ended meanwhile. */
  open(bookPath: string, demo: boolean): Promise<boolean>;
  /** Makes a backup now; its path, or null if none could be made. */
  backUp(): Promise<string | null>;
  /** Gives a window its own port to the desk. */
  connectWindow(contents: WebContents): void;
  /** Has the book backed up and closed and the process ended; takes as long as the backup does. */
  close(): Promise<void>;
}

/**
 * Starts the built desk program `file`.
 * @param demoKeptAt where a demo that was made is kept for the next time
 * @param onStopped called when it ends without having been asked to
 */
export function startDeskProcess(file: string, demoKeptAt: string, onStopped: () => void): DeskProcess {
  const child = utilityProcess.fork(file, [], { serviceName: 'Gambrel desk' });
  let closing: Promise<void> | null = null;
  child.on('exit', (code) => {
    if (closing) return;
    logEvent('desk-stopped', { code });
    onStopped();
  });
  child.on('message', (message: FromDesk) => {
    if (message.kind === 'broken') logMark('desk-broken', message.mark);
  });
  const send = (message: ToDesk) => child.postMessage(message);
  const ask = <K extends FromDesk['kind']>(message: ToDesk, kind: K) => {
    const answer = heard(child, kind);
    send(message);
    return answer;
  };
  async function close(): Promise<void> {
    await ask({ kind: 'close' }, 'closed');
    child.kill();
  }
  return {
    open: async (bookPath, demo) =>
      (await ask({ kind: 'open', bookPath, demo, demoKeptAt }, 'ready')) !== null,
    backUp: async () => (await ask({ kind: 'back up' }, 'backed up'))?.path ?? null,
    connectWindow(contents) {
      const { port1, port2 } = new MessageChannelMain();
      child.postMessage({ kind: 'window' } satisfies ToDesk, [port1]);
      contents.postMessage(DESK_PORT_CHANNEL, null, [port2]);
    },
    close: () => (closing ??= close()),
  };
}

/** The next message of this kind; null when the process ends before it. */
function heard<K extends FromDesk['kind']>(
  child: UtilityProcess,
  kind: K,
): Promise<Extract<FromDesk, { kind: K }> | null> {
  return new Promise((resolve) => {
    const end = (message: Extract<FromDesk, { kind: K }> | null) => {
      child.removeListener('message', listen);
      child.removeListener('exit', ended);
      resolve(message);
    };
    const listen = (message: FromDesk) => {
      if (message.kind === kind) end(message as Extract<FromDesk, { kind: K }>);
    };
    const ended = () => end(null);
    child.on('message', listen);
    child.on('exit', ended);
  });
}
