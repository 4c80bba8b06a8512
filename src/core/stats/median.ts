/**
 * The median; the mean of the middle two for an even count; null for no values.
 * @example median([3, 1, 10]) // 3
 */
export function median(values: readonly number[]): number | null {
  const sorted = new Float64Array(values).sort();
  const middle = sorted.length / 2;
  const [low, high] = [sorted[Math.ceil(middle) - 1], sorted[Math.floor(middle)]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}
