import type { Range } from '../../bridge/contract.ts';

/**
 * The position of a range on a bar from 0 to `width`. The scale begins at zero and ends slightly beyond the high
 * end, so that a wide range looks wide.
 * @example placeRange({ low: 20, mean: 25, high: 30 }, 720) // { low: 400, mean: 500, high: 600 }
 */
export function placeRange({ low, mean, high }: Range, width: number): Range {
  const scale = high > 0 ? width / (high * 1.2) : 0;
  return { low: low * scale, mean: mean * scale, high: high * scale };
}
