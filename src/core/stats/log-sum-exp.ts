/** ln(sum of exponentials), without overflow. @example logSumExp([Math.log(1), Math.log(2)]) // Math.log(3) */
export function logSumExp(logs: readonly number[]): number {
  let most = -Infinity;
  for (const log of logs) if (log > most) most = log;
  if (most === -Infinity) return -Infinity;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - most);
  return most + Math.log(sum);
}
