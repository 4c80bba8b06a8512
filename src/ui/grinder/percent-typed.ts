import { readPercent } from '../texts/percent.ts';

/** The desk refuses targets beyond these: nobody grinds leaner or fatter. */
const MIN_FAT = 0.005;
const MAX_FAT = 0.6;

/**
 * A fat target as typed, as a fraction; null where the text is empty or no percentage from 0.5 to 60.
 * @example percentTyped('12,5 %') // 0.125
 */
export function percentTyped(text: string): number | null {
  const share = readPercent(text);
  return share !== null && share >= MIN_FAT && share <= MAX_FAT ? share : null;
}
