/** The most labels printed of one kind at a time: a slip of the finger shall not empty a roll. */
const MAX_COPIES = 200;

/**
 * How many labels a typed text asks for, or null if it is no whole number from 0 to `most`.
 * @example copiesTyped('12') // 12
 */
export function copiesTyped(text: string, most = MAX_COPIES): number | null {
  const typed = text.trim();
  if (!/^\d{1,4}$/.test(typed)) return null;
  const count = Number(typed);
  return count <= most ? count : null;
}
