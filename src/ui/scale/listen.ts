import { makeLineSplitter } from '../../core/scale/line.ts';
import { poll } from './ask.ts';
import type { ScalePort } from './port.ts';
import { requestBytes, type ScaleSettings } from './scale-settings.ts';

interface Heard {
  onLine(line: string): void;
  /** Bytes were damaged on the way; the line that they stood in is lost. */
  onDamage(): void;
}

/** A port that is being listened to. */
export interface Listening {
  /** Resolves when it is over: the person stopped it, or the scale went away. */
  readonly ended: Promise<'stopped' | 'gone'>;
  stop(): Promise<void>;
}

/** A port that fails this often without a line between is set to the wrong speed, or broken. */
const MOST_FAILURES = 50;

/** Opens a port and gives its lines until it is stopped or the port goes away. @throws what `port.open` throws */
export async function listenTo(port: ScalePort, settings: ScaleSettings, heard: Heard): Promise<Listening> {
  await port.open(settings);
  let stopped = false;
  let reader: ReadableStreamDefaultReader<Uint8Array> | null = null;
  const asking = settings.request ? poll(port, requestBytes(settings.request), giveUp) : null;

  /** Reads one stream to its end. The first bytes may be the tail of a number, and are not used. */
  async function readStream(stream: ReadableStream<Uint8Array>, onLine: Heard['onLine']): Promise<void> {
    const splitter = makeLineSplitter({ midStream: true });
    reader = stream.getReader();
    try {
      for (let next = await reader.read(); !next.done; next = await reader.read())
        splitter.take(next.value).forEach(onLine);
    } finally {
      reader.releaseLock();
    }
  }

  /** After damage the port has a new stream; a port that went away has none. */
  async function read(): Promise<void> {
    let failures = 0;
    let over = false;
    while (port.readable && !over && failures < MOST_FAILURES) {
      over = await readStream(port.readable, (line) => {
        failures = 0;
        heard.onLine(line);
      }).then(
        () => true,
        () => {
          failures++;
          if (port.readable) heard.onDamage();
          return false;
        },
      );
    }
  }

  /** A scale that cannot be asked will not answer. */
  function giveUp(): void {
    void cancel();
  }
  // A stream that broke has ended by itself, which is all that is wanted.
  const cancel = (): Promise<void> => (reader ? reader.cancel().catch(() => undefined) : Promise.resolve());

  const ended = read().then(async () => {
    await asking?.stop();
    // A port that went away needs no closing, and some say so by an error.
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
