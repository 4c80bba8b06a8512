import { setImmediate } from 'node:timers/promises';

const CHUNK_BYTES = 1 << 18;
/** Maximum UTF-8 bytes per UTF-16 unit. */
const MAX_BYTES = 3;

/** Encodes texts in UTF-8 one after the other; after each chunk it yields to the windows' other calls. */
export class Chunks {
  /** One buffer for all texts of a file, so that a long book leaves no garbage. */
  readonly #chunk = Buffer.alloc(CHUNK_BYTES);

  /**
   * Passes text on in chunks, the last one marked, and perhaps empty. `take` must not use the bytes after it
   * returns.
   */
  async each(text: Iterable<string>, take: (bytes: Buffer, last: boolean) => void): Promise<void> {
    const chunk = this.#chunk;
    let filled = 0;
    for (const piece of text) {
      if (filled + piece.length * MAX_BYTES > CHUNK_BYTES) {
        take(chunk.subarray(0, filled), false);
        filled = 0;
        await setImmediate();
      }
      if (piece.length * MAX_BYTES > CHUNK_BYTES) take(Buffer.from(piece), false);
      else filled += chunk.write(piece, filled);
    }
    take(chunk.subarray(0, filled), true);
  }
}
