/** Controls the desk process: starts it, connects windows, closes it cleanly. */
import { MessageChannelMain, utilityProcess, type UtilityProcess, type WebContents } from 'electron';
import { DESK_PORT_CHANNEL } from '../src/bridge/wire.ts';
import { DESK_NAME, type FromDesk, type ToDesk } from './desk-messages.ts';
import { keepAwakeForStations } from './keep-awake.ts';
import { askKeyStore } from './key-store.ts';
import { logEvent, logMark } from './log.ts';

/** The book that a desk opens. */
export interface Opened {
  book: string;
  /** Whether a person named it; a named book is not created if missing. */
  named: boolean;
  demo: boolean;
}

export interface DeskProcess {
  /** Opens a book; the window reports a failure. False when the process ended meanwhile. */
  open(what: Opened): Promise<boolean>;
  /** Makes a backup now; its path, or null if none could be made. */
  backUp(): Promise<string | null>;
  /** Connects a window to the desk with its own port. */
  connectWindow(contents: WebContents): void;
  /** Backs up and closes the book and ends the process; takes as long as the backup. */
  close(): Promise<void>;
  /** Closes the book and then creates `doneFile`, for a shell that cannot await an answer. */
  closeNow(backUp: boolean, doneFile: string): void;
}

/**
 * Exit codes of a desk that ran out of memory. Node aborts at V8's limit without an `error` event: SIGTRAP (5) was
 * measured with Electron 44, SIGABRT (6, or 134) is Node's own. Chromium on Windows ends with exception 0xE0000008.
 */
const OUT_OF_MEMORY_CODES = [5, 6, 134, 0xe0000008, 0xe0000008 | 0];

/**
 * Starts the built desk program `file`.
 * @param demoKeptAt cache for the generated demo
 * @param onStopped called on an unexpected end, with whether it seems to have run out of memory
 */
export function startDeskProcess(
  file: string,
  demoKeptAt: string,
  onStopped: (outOfMemory: boolean) => void,
): DeskProcess {
  const child = utilityProcess.fork(file, [], { serviceName: DESK_NAME });
  let closing: Promise<void> | null = null;
  let ending = false;
  let fatal = false;
  let gone = false;
  const keepAwake = keepAwakeForStations();
  // Without a listener an emitter throws its `error`. The report contains folders and names of people, so it is not
  // logged.
  child.on('error', (type) => {
    fatal = true;
    logEvent('desk-fatal', { type });
  });
  child.on('exit', (code) => {
    gone = true;
    keepAwake(false);
    if (closing || ending) return;
    logEvent('desk-stopped', { code });
    onStopped(!fatal && OUT_OF_MEMORY_CODES.includes(code));
  });
  child.on('message', (message: FromDesk) => {
    if (message.kind === 'broken') logMark('desk-broken', message.mark);
    if (message.kind === 'stations') keepAwake(message.on);
    if (message.kind === 'key store') void answerFromKeyStore(message);
  });
  const send = (message: ToDesk) => child.postMessage(message);
  async function answerFromKeyStore({ id, work, text }: FromDesk & { kind: 'key store' }): Promise<void> {
    const answer = await askKeyStore(work, text);
    if (!gone) send({ kind: 'key store says', id, text: answer });
  }
  const ask = <K extends FromDesk['kind']>(message: ToDesk, kind: K) => {
    // An ended process sends no further messages or exit event.
    if (gone) return Promise.resolve(null);
    const answer = nextMessage(child, kind);
    send(message);
    return answer;
  };
  async function close(): Promise<void> {
    await ask({ kind: 'close', backUp: true, doneFile: null }, 'closed');
    child.kill();
  }
  return {
    open: async ({ book, named, demo }) =>
      (await ask({ kind: 'open', bookPath: book, named, demo, demoKeptAt }, 'ready')) !== null,
    backUp: async () => (await ask({ kind: 'back up' }, 'backed up'))?.path ?? null,
    connectWindow(contents) {
      const { port1, port2 } = new MessageChannelMain();
      child.postMessage({ kind: 'window' } satisfies ToDesk, [port1]);
      contents.postMessage(DESK_PORT_CHANNEL, null, [port2]);
    },
    close: () => (closing ??= close()),
    closeNow(backUp, doneFile) {
      ending = true;
      send({ kind: 'close', backUp, doneFile });
    },
  };
}

/** The next message of this kind; null when the process ends first. */
function nextMessage<K extends FromDesk['kind']>(
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
