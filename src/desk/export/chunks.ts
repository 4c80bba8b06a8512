import { setImmediate } from 'node:timers/promises';

const CHUNK_BYTES = 1 << 18;
/** Maximum UTF-8 bytes per UTF-16 unit. */
const MAX_BYTES = 3;
/** Texts that take long to make are few bytes: what is not yet a chunk yields after this time, ms. */
const SLICE_MS = 15;

/**
 * Encodes texts in UTF-8 one after the other; after each chunk, and at least every 15 ms between two texts, it yields to the windows'
 * other calls, also while the texts are many and short. A text may be empty: a place to yield within work that writes nothing yet.
 */
export class Chunks {
  /** One buffer for all texts of a file, so that a long book leaves no garbage. */
  readonly #chunk = Buffer.alloc(CHUNK_BYTES);
  #until = performance.now() + SLICE_MS;

  /** Yields if the last time is long enough ago. */
  async pause(): Promise<void> {
    if (performance.now() <= this.#until) return;
    await setImmediate();
    this.#until = performance.now() + SLICE_MS;
  }

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
        this.#until = 0;
      }
      await this.pause();
      if (piece.length * MAX_BYTES > CHUNK_BYTES) take(Buffer.from(piece), false);
      else filled += chunk.write(piece, filled);
    }
    take(chunk.subarray(0, filled), true);
  }
}
