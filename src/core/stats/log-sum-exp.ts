/** ln(sum of exponentials), without overflow. @example logSumExp([Math.log(1), Math.log(2)]) // Math.log(3) */
export function logSumExp(logs: ArrayLike<number>): number {
  let most = -Infinity;
  for (let i = 0; i < logs.length; i++) most = Math.max(most, logs[i] ?? -Infinity);
  if (most === -Infinity) return -Infinity;
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += Math.exp((logs[i] ?? -Infinity) - most);
  return most + Math.log(sum);
}
