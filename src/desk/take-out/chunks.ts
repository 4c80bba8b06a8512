const CHUNK_BYTES = 1 << 18;
/** One for all, as texts are written one after the other: a long book leaves no heap of used-up ones behind. */
const chunk = Buffer.alloc(CHUNK_BYTES);
/** UTF-8 needs at most so many bytes for one unit of a string. */
const MOST_BYTES = 3;

/**
 * Hands text over as UTF-8 in chunks, the last one marked, and perhaps empty. `take` must be done with the bytes when it
 * returns.
 */
export function eachChunk(text: Iterable<string>, take: (bytes: Buffer, last: boolean) => void): void {
  let filled = 0;
  const flush = (last: boolean): void => {
    take(chunk.subarray(0, filled), last);
    filled = 0;
  };
  for (const piece of text) {
    if (filled + piece.length * MOST_BYTES > CHUNK_BYTES) flush(false);
    if (piece.length * MOST_BYTES > CHUNK_BYTES) take(Buffer.from(piece), false);
    else filled += chunk.write(piece, filled);
  }
  flush(true);
}
