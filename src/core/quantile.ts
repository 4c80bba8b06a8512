/**
 * The value below which a share `p` (0–1) of `sorted` (ascending) lies: linear interpolation between order
 * statistics, definition 7 of Hyndman & Fan, "Sample Quantiles in Statistical Packages",
 * The American Statistician 50 (1996) 361–365.
 * @throws RangeError without values
 * @example quantile([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantile(sorted: readonly number[], p: number): number {
  const at = (sorted.length - 1) * p;
  const below = sorted[Math.floor(at)];
  const above = sorted[Math.ceil(at)];
  if (below === undefined || above === undefined) throw new RangeError('A quantile of no values');
  return below + (above - below) * (at - Math.floor(at));
}
