const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where the `index`-th of several marks stands across its row, from −0.5 to 0.5: multiples of the golden section,
 * which spread marks evenly and the same way each time (no randomness, so a saved picture never changes).
 * @example spread(0) // 0
 */
export function spread(index: number): number {
  return ((index * GOLDEN + 0.5) % 1) - 0.5;
}
