/** Sample quantiles by linear interpolation between order statistics. */

/**
 * The numbering of Hyndman & Fan, "Sample Quantiles in Statistical Packages", The American Statistician 50 (1996) 361–365.
 * Definition 7 puts the i-th of n values at (i − 1) / (n − 1): it describes the values at hand. Definition 6 puts it at
 * i / (n + 1): a range between two such quantiles holds the next draw with exactly its level on average.
 */
export type QuantileDefinition = 6 | 7;

/**
 * The value below which a share `p` (0–1) of `sorted` (ascending) lies.
 * @throws RangeError without values
 * @example quantile([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile(sorted: ArrayLike<number>, p: number, definition: QuantileDefinition = 7): number {
  const { rank, fraction } = quantileRanks(sorted.length, p, definition);
  const below = sorted[rank];
  if (below === undefined) throw new RangeError('A quantile of no values');
  return below + fraction * ((sorted[rank + 1] ?? below) - below);
}

/**
 * The position of the quantile among `n` ordered values, for callers that fetch values by rank: `fraction` (0 to below 1)
 * of the way from the value at `rank` (from 0) to the next.
 * @example quantileRanks(4, 0.5) // { rank: 1, fraction: 0.5 }
 */
export function quantileRanks(
  n: number,
  p: number,
  definition: QuantileDefinition = 7,
): { rank: number; fraction: number } {
  const position = definition === 7 ? (n - 1) * p : Math.min(n - 1, Math.max(0, p * (n + 1) - 1));
  const rank = Math.floor(position);
  return { rank, fraction: position - rank };
}
