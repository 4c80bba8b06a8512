import { quantile } from './quantile.ts';

/** A five-number summary with count and mean. */
export interface DistributionSummary {
  n: number;
  low: number;
  q1: number;
  median: number;
  q3: number;
  high: number;
  mean: number;
}

/**
 * The extremes, quartiles (as `quantile`) and mean of values in ascending order; null for no values.
 * @example summariseDistribution([1, 2, 3, 4]) // { n: 4, low: 1, q1: 1.75, median: 2.5, q3: 3.25, high: 4, mean: 2.5 }
 */
export function summariseDistribution(sorted: readonly number[]): DistributionSummary | null {
  const [low, high] = [sorted[0], sorted.at(-1)];
  if (low === undefined || high === undefined) return null;
  return {
    n: sorted.length,
    low,
    q1: quantile(sorted, 0.25),
    median: quantile(sorted, 0.5),
    q3: quantile(sorted, 0.75),
    high,
    mean: sorted.reduce((total, value) => total + value, 0) / sorted.length,
  };
}
