/** Posterior weights of the components of a mixture. */

/**
 * Weights that add up to 1 from logarithms of prior weight times marginal likelihood. A softmax: the largest is subtracted first
 * so that nothing overflows.
 * @example mixtureWeights([Math.log(1), Math.log(3)]) // [0.25, 0.75]
 */
export function mixtureWeights(logs: readonly number[]): number[] {
  const top = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - top));
  const total = raw.reduce((sum, weight) => sum + weight, 0);
  return raw.map((weight) => weight / total);
}

/** The mean of `values` with these weights (that add up to 1). */
export function weightedMean(values: readonly number[], weights: readonly number[]): number {
  return values.reduce((total, value, i) => total + value * (weights[i] ?? 0), 0);
}
