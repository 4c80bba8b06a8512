/** Maximum number of labels of one kind per print, so that a typing error does not empty a roll. */
const MAX_COPIES = 200;

/**
 * Parses a number of labels; null if it is not a whole number from 0 to `most`.
 * @example copiesTyped('12') // 12
 */
export function copiesTyped(text: string, most = MAX_COPIES): number | null {
  const typed = text.trim();
  if (!/^\d{1,4}$/.test(typed)) return null;
  const count = Number(typed);
  return count <= most ? count : null;
}
