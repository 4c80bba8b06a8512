/** Maximum count of one kind of piece; the desk has the same limit. */
export const MAX_PIECES = 8;

/** Whether a count of one kind of piece is plausible. */
export function isPieceCount(count: number): boolean {
  return Number.isInteger(count) && count >= 0 && count <= MAX_PIECES;
}
