import { ValidationError } from '../values/validation-error.ts';

/**
 * The counts within which `n` trials of chance `level` fall at least 19 times in 20: at most 2.5 % of the binomial
 * distribution lies below, and at most as much above. Exact, so that it serves for a handful.
 * @throws ValidationError `yield.level` (not between 0 and 1), `number.not-whole` (n)
 * @example binomialBand(0.5, 10) // { low: 2, high: 8 }: 0 or 1 has chance 11/1024, 0 to 2 has 56/1024
 */
export function binomialBand(level: number, n: number): { low: number; high: number } {
  if (!(level > 0 && level < 1)) throw new ValidationError('yield.level', 'level');
  if (!Number.isInteger(n) || n < 0) throw new ValidationError('number.not-whole', 'n');
  const chances: number[] = [];
  let log = n * Math.log1p(-level);
  for (let k = 0; k <= n; k++) {
    chances.push(Math.exp(log));
    log += Math.log(((n - k) * level) / ((k + 1) * (1 - level)));
  }
  const from = (ordered: readonly number[]): number => {
    let sum = 0;
    return ordered.findIndex((chance) => (sum += chance) > TAIL);
  };
  return { low: from(chances), high: n - from(chances.toReversed()) };
}

const TAIL = 0.025;
