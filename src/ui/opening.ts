/** The opening of a book that this window shows, and the end of what the window remembers of it. */

let shown: string | null = null;
const resets: (() => void)[] = [];

/** The opening that calls of this window are meant for; null before the first look at the shop, and while no book is open. */
export const shownOpening = (): string | null => shown;

/**
 * Registers what clears state that outlives a page: record numbers, half-typed entries and ways back of one book mean
 * something else in another. It stays registered for as long as the window lives.
 */
export function onOtherOpening(reset: () => void): void {
  resets.push(reset);
}

/** Shows this opening from now on. Another one than before clears everything that belongs to a book; says whether it did. */
export function showOpening(next: string | null): boolean {
  if (next === shown) return false;
  shown = next;
  for (const reset of resets) reset();
  return true;
}
