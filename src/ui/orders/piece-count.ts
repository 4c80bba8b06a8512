/** More pieces of one kind than any animal has; the desk takes no more either. */
export const MAX_PIECES = 8;

/** Whether so many pieces of one kind can have come in. */
export function isPieceCount(count: number): boolean {
  return Number.isInteger(count) && count >= 0 && count <= MAX_PIECES;
}
