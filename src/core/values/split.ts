import { ValidationError } from './validation-error.ts';
import { apportion } from './apportion.ts';

/**
 * Divides rows of whole things (packages of several products) by `weights`. Each row is divided by largest remainders, and
 * what a row rounded away is carried to the next, so that nobody is rounded down row after row. Every row of the answer sums
 * to its row of `counts`. Equal claims go to the lowest index.
 * @throws ValidationError as `apportion`
 * @example splitRows([1, 1, 1], [1, 1]) // [[1, 0], [0, 1], [1, 0]]
 */
export function splitRows(counts: readonly number[], weights: readonly number[]): number[][] {
  // Of nothing each gets nothing; weights that cannot be divided by are refused.
  const whole = apportion(0, weights);
  const total = weights.reduce((all, weight) => all + weight, 0);
  const claims = whole.map(() => 0);
  return counts.map((count) => {
    if (!Number.isSafeInteger(count)) throw new ValidationError('total.not-whole', 'counts');
    if (count < 0) throw new ValidationError('total.negative', 'counts', { total: count });
    weights.forEach((weight, i) => (claims[i] = (claims[i] ?? 0) + (count * weight) / total));
    const given = whole.map(() => 0);
    // Whole claims first, at once; then one by one to whoever is owed most.
    let left = count;
    claims.forEach((claim, i) => {
      const full = Math.min(left, Math.max(0, Math.floor(claim + HAIR)));
      given[i] = full;
      left -= full;
    });
    for (; left > 0; left--) {
      const owed = claims.map((claim, i) => claim - (given[i] ?? 0));
      const most = owed.reduce((best, claim, i) => (claim > (owed[best] ?? 0) + HAIR ? i : best), 0);
      given[most] = (given[most] ?? 0) + 1;
    }
    given.forEach((got, i) => (claims[i] = (claims[i] ?? 0) - got));
    return given;
  });
}

/** Claims that differ by less are equal: what binary fractions leave of thirds. */
const HAIR = 1e-9;
