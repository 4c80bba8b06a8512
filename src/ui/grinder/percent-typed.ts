/** The desk refuses targets beyond these: nobody grinds leaner or fatter. */
const LEAST = 0.005;
const MOST = 0.6;

/**
 * A fat percentage as typed, as a fraction; null where the text is empty or no percentage from 0.5 to 60.
 * @example percentTyped('12,5 %') // 0.125
 */
export function percentTyped(text: string): number | null {
  const match = /^\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*%?\s*$/.exec(text);
  if (!match) return null;
  const share = Math.round(Number(match[1]?.replace(',', '.')) * 100) / 10_000;
  return share >= LEAST && share <= MOST ? share : null;
}
