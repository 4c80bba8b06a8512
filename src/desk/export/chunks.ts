import { setImmediate } from 'node:timers/promises';

const CHUNK_BYTES = 1 << 18;
/** UTF-8 needs at most so many bytes for one unit of a string. */
const MAX_BYTES = 3;

/** Writes texts one after the other in UTF-8; after each chunk the other calls of the windows have their turn. */
export class Chunks {
  /** One for all texts of a file: a long book leaves no heap of used-up ones behind. */
  readonly #chunk = Buffer.alloc(CHUNK_BYTES);

  /**
   * Hands text over in chunks, the last one marked, and perhaps empty. `take` must be done with the bytes when it
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
