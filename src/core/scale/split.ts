/** Assembles the bytes of a serial port, in chunks of any size, into whole lines. */
export interface LineSplitter {
  /** Adds the next bytes; returns the lines that they complete, as one character per byte. */
  take(bytes: Uint8Array): string[];
}

const [SOH, STX, ETX, EOT, LF, CR] = [0x01, 0x02, 0x03, 0x04, 0x0a, 0x0d];

/** Buffer limit: longer than any line of a scale. Common practice, no source. */
const MAX_LINE_LENGTH = 128;

/**
 * Creates a splitter. CR and LF end a line. SOH and STX begin one, so a fragment before them is dropped. ETX and
 * EOT end one. After a first ETX, lines end at ETX only, because a status line may follow the CR of the weight. An
 * overlong line is dropped up to the next end. `midStream`: the port was opened while the scale was sending, so the
 * text before the first end may be the tail of a number (`8.62` of `18.62`) and is dropped.
 * @example makeLineSplitter().take(bytes('18.62 lb\r\n18.6')) // ['18.62 lb']
 */
export function makeLineSplitter({ midStream = false }: { midStream?: boolean } = {}): LineSplitter {
  let line = '';
  let skipping = midStream;
  let framed = false;

  function end(): string[] {
    const whole = skipping ? '' : line;
    line = '';
    skipping = false;
    return whole.trim() === '' ? [] : [whole];
  }

  function step(byte: number): string[] {
    if (byte === SOH || byte === STX) {
      line = '';
      skipping = false;
      return [];
    }
    if (byte === ETX || byte === EOT) {
      framed = true;
      return end();
    }
    if ((byte === CR || byte === LF) && !framed) return end();
    if (line.length >= MAX_LINE_LENGTH) {
      line = '';
      skipping = true;
      framed = false;
    }
    if (!skipping) line += String.fromCharCode(byte);
    return [];
  }

  return { take: (bytes) => [...bytes].flatMap(step) };
}
