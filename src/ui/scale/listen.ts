import { makeLineSplitter } from '../../core/scale/line.ts';
import { poll } from './ask.ts';
import type { ScalePort } from './port.ts';
import { requestBytes, type ScaleSettings } from './scale-settings.ts';

interface ScaleCallbacks {
  onLine(line: string): void;
  /** Bytes were corrupted; their line is lost. */
  onDamage(): void;
}

/** An open port that is being read. */
export interface Listening {
  /** Resolves at the end: the person stopped it, or the scale was disconnected. */
  readonly ended: Promise<'stopped' | 'gone'>;
  stop(): Promise<void>;
}

/** A port that fails this often without a line in between has the wrong speed, or is broken. */
const MAX_FAILURES = 50;

/** Opens a port and passes on its lines until it is stopped or disconnected. @throws what `port.open` throws */
export async function listenTo(
  port: ScalePort,
  settings: ScaleSettings,
  callbacks: ScaleCallbacks,
): Promise<Listening> {
  await port.open(settings);
  let stopped = false;
  let reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  const polling = settings.request ? poll(port, requestBytes(settings.request), giveUp) : null;

  /** Reads one stream to its end. The first bytes may be the tail of a number, and are skipped. */
  async function readStream(
    stream: ReadableStream<Uint8Array>,
    onLine: ScaleCallbacks['onLine'],
  ): Promise<void> {
    const splitter = makeLineSplitter({ midStream: true });
    reader = stream.getReader();
    try {
      for (let next = await reader.read(); !next.done; next = await reader.read())
        splitter.take(next.value).forEach(onLine);
    } finally {
      reader.releaseLock();
    }
  }

  /** After an error the port has a new stream; a disconnected port has none. */
  async function read(): Promise<void> {
    let failures = 0;
    let over = false;
    while (port.readable && !over && failures < MAX_FAILURES) {
      over = await readStream(port.readable, (line) => {
        failures = 0;
        callbacks.onLine(line);
      }).then(
        () => true,
        () => {
          failures++;
          if (port.readable) callbacks.onDamage();
          return false;
        },
      );
    }
  }

  /** A scale that cannot be polled will not answer. */
  function giveUp(): void {
    void cancel();
  }
  // A broken stream has already ended.
  const cancel = (): Promise<void> => (reader ? reader.cancel().catch(() => undefined) : Promise.resolve());

  const ended = read().then(async () => {
    await polling?.stop();
    // A disconnected port needs no closing, and may throw.
    await port.close().catch(() => undefined);
    return stopped ? ('stopped' as const) : ('gone' as const);
  });
  return {
    ended,
    async stop() {
      stopped = true;
      await cancel();
      await ended;
    },
  };
}
