import { ValidationError } from '../values/validation-error.ts';

/**
 * The counts within which `n` trials of probability `level` fall at least 19 times in 20: at most 2.5 % of the
 * binomial distribution lies below, and at most as much above. Exact, also for small n.
 * @param outside the share that may lie outside instead of 5 %
 * @throws ValidationError `yield.level` (not between 0 and 1), `number.not-whole` (n)
 * @example binomialBand(0.5, 10) // { low: 2, high: 8 }: 0 or 1 has chance 11/1024, 0 to 2 has 56/1024
 */
export function binomialBand(level: number, n: number, outside = 0.05): { low: number; high: number } {
  if (!(level > 0 && level < 1)) throw new ValidationError('yield.level', 'level');
  if (!Number.isInteger(n) || n < 0) throw new ValidationError('number.not-whole', 'n');
  const pmf: number[] = [];
  let log = n * Math.log1p(-level);
  for (let k = 0; k <= n; k++) {
    pmf.push(Math.exp(log));
    log += Math.log(((n - k) * level) / ((k + 1) * (1 - level)));
  }
  const firstBeyondTail = (ordered: readonly number[]): number => {
    let sum = 0;
    return ordered.findIndex((probability) => (sum += probability) > outside / 2);
  };
  return { low: firstBeyondTail(pmf), high: n - firstBeyondTail(pmf.toReversed()) };
}
