import type { SeasonLook } from '../../bridge/contract.ts';

export type Kept = SeasonLook['quotes']['kept'][number];

/** Whether what went home lies within what was quoted. */
export function holds({ takeHomeGrams, quotedGrams: { low, high } }: Kept): boolean {
  return low <= takeHomeGrams && takeHomeGrams <= high;
}
