import { readPercent } from '../texts/percent.ts';

/** The desk rejects targets outside of these limits. */
const MIN_FAT = 0.005;
const MAX_FAT = 0.6;

/**
 * Parses a fat target as a fraction; null if empty or not a percentage from 0.5 to 60.
 * @example percentTyped('12,5 %') // 0.125
 */
export function percentTyped(text: string): number | null {
  const share = readPercent(text);
  return share !== null && share >= MIN_FAT && share <= MAX_FAT ? share : null;
}
