/**
 * Where a share lies beside its typical range, from 0 to 1 along the strip. The range is always the middle third, so
 * that left of it is below and right of it is above.
 * @example rangeAt(0.3, 0.2, 0.4) // 0.5
 */
export function rangeAt(share: number, low: number, high: number): number {
  const width = Math.max(high - low, 0.01);
  const at = 1 / 3 + (share - low) / width / 3;
  return Math.min(0.96, Math.max(0.04, at));
}
