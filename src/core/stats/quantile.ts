/**
 * The value below which a share `p` (0–1) of `sorted` (ascending) lies: linear interpolation between order
 * statistics, definition 7 of Hyndman & Fan, "Sample Quantiles in Statistical Packages",
 * The American Statistician 50 (1996) 361–365.
 * @throws RangeError without values
 * @example quantile([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile(sorted: readonly number[], p: number): number {
  const { rank, fraction } = quantileRanks(sorted.length, p);
  const below = sorted[rank];
  if (below === undefined) throw new RangeError('A quantile of no values');
  return below + ((sorted[rank + 1] ?? below) - below) * fraction;
}

/**
 * Where the quantile of `n` ordered values lies: so much (0 to below 1) of the way from the value of `rank` (from 0) to the
 * next, for whoever can ask for values by rank.
 * @example quantileRanks(4, 0.5) // { rank: 1, beyond: 0.5 }
 */
export function quantileRanks(n: number, p: number): { rank: number; fraction: number } {
  const at = (n - 1) * p;
  const rank = Math.floor(at);
  return { rank, fraction: at - rank };
}
