import type { Range } from '../../bridge/contract.ts';

/**
 * The position of a range on a bar, as fractions of its width. The scale begins at half the low end (`from`) and ends
 * slightly beyond the high end.
 * @example placeRange({ low: 20, mean: 25, high: 30 }) // { from: 10, low: 0.385, mean: 0.577, high: 0.769 }
 */
export function placeRange({ low, mean, high }: Range): Range & { from: number } {
  const from = low / 2;
  const length = high * 1.2 - from;
  const place = (at: number) => (length > 0 ? (at - from) / length : 0);
  return { from, low: place(low), mean: place(mean), high: place(high) };
}
