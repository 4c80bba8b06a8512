/** A simulated scale, for practice and for tests. It sends fragmented data like a real one. */
import type { ScalePort } from './port.ts';

export interface PracticeLoad {
  /** In `unit`. */
  weight: number;
  unit: 'lb' | 'kg';
  decimals: number;
  moving: boolean;
}

export interface PracticePort extends ScalePort {
  put(load: PracticeLoad): void;
  /** Sends any bytes, as if from the scale; one character per byte. */
  send(text: string): void;
  /** Corrupts a byte: the stream breaks, and the port has a new one. */
  damage(): void;
  /** Disconnects the cable. */
  unplug(): void;
  /** The received requests, one character per byte. */
  readonly requests: string;
}

/** Above this it shows dashes. */
export const PRACTICE_MAX = { lb: 300, kg: 150 } as const;

/** @param everyMs milliseconds between lines; 0 sends only on `send` */
export function makePracticePort(load: PracticeLoad, everyMs = 200): PracticePort {
  let now = load;
  let controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  let readable: ReadableStream<Uint8Array> | null = null;
  let writable: WritableStream<Uint8Array> | null = null;
  let timer: ReturnType<typeof setInterval> | undefined;
  let requests = '';
  let beat = 0;

  function stream(): void {
    readable = new ReadableStream<Uint8Array>({
      start: (made) => void (controller = made),
      cancel: () => clearInterval(timer),
    });
  }
  function send(text: string): void {
    controller?.enqueue(Uint8Array.from([...text].map((one) => one.charCodeAt(0))));
  }
  function line(): void {
    const text = practiceLine(now, (beat += 1));
    const cut = 1 + (beat % (text.length - 1));
    send(text.slice(0, cut));
    send(text.slice(cut));
  }
  return {
    get readable() {
      return readable;
    },
    get writable() {
      return writable;
    },
    get requests() {
      return requests;
    },
    async open() {
      if (readable) throw new DOMException('The port is open already.', 'InvalidStateError');
      stream();
      writable = new WritableStream<Uint8Array>({
        write: (bytes) => void (requests += String.fromCharCode(...bytes)),
      });
      if (everyMs > 0) timer = setInterval(line, everyMs);
    },
    async close() {
      clearInterval(timer);
      readable = writable = controller = null;
    },
    getInfo: () => ({}),
    put: (next) => void (now = next),
    send,
    damage() {
      const broken = controller;
      stream();
      broken?.error(new DOMException('A byte was damaged.', 'FramingError'));
    },
    unplug() {
      clearInterval(timer);
      const broken = controller;
      readable = writable = controller = null;
      broken?.error(new DOMException('The device was lost.', 'NetworkError'));
    },
  };
}

/** A moving load varies by a step; one too heavy shows dashes. */
function practiceLine({ weight, unit, decimals, moving }: PracticeLoad, beat: number): string {
  const mark = moving ? 'US' : 'ST';
  if (weight > PRACTICE_MAX[unit]) return `${mark},GS, ------ ${unit}\r\n`;
  const shown = weight + (moving ? ((beat % 3) - 1) * 10 ** -decimals : 0);
  return `${mark},GS,${shown < 0 ? '-' : '+'}${Math.abs(shown).toFixed(decimals).padStart(8)}${unit}\r\n`;
}
