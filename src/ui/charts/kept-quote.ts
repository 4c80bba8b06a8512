import type { CheckedQuote } from '../../bridge/contract.ts';

/** Whether what went home lies within what was quoted. */
export function holds({ takeHomeGrams, quotedGrams: { low, high } }: CheckedQuote): boolean {
  return low <= takeHomeGrams && takeHomeGrams <= high;
}
