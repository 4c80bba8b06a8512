import { ValidationError } from './validation-error.ts';

/**
 * Divides `total` whole things (packages, cents) by `weights` (any unit, e.g. grams of lean) into integers that sum
 * to `total`: each gets its quota rounded down, and the rest goes one each to the largest remainders; equal
 * remainders to the lowest index, so that the result is deterministic. The method of largest remainders, proposed
 * by Hamilton for the House of Representatives in 1792 (Balinski & Young, Fair Representation, 1982). The method
 * itself has no rule for ties.
 *
 * Weights are taken as decimals of 15 significant digits and the division is exact from there, so a tie between 0.1
 * and 0.3 shared by 2 is a tie although neither is exact in binary.
 * @throws ValidationError `total.not-whole`, `total.negative`, `weights.empty`, `weights.negative`,
 *   `weights.all-zero`, `number.not-finite`
 * @example apportion(10, [1, 1, 1]) // [4, 3, 3]
 */
export function apportion(total: number, weights: readonly number[]): number[] {
  if (!Number.isSafeInteger(total)) throw new ValidationError('total.not-whole', 'total');
  if (total < 0) throw new ValidationError('total.negative', 'total', { total });
  const shares = wholeMultiples(weights);
  const sum = shares.reduce((all, share) => all + share, 0n);
  const quotas = shares.map((share, index) => {
    const scaled = BigInt(total) * share;
    return { index, whole: Number(scaled / sum), rest: scaled % sum };
  });
  const result = quotas.map((quota) => quota.whole);
  const left = total - result.reduce((all, whole) => all + whole, 0);
  quotas
    .toSorted((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1))
    .slice(0, left)
    .forEach(({ index, whole }) => (result[index] = whole + 1));
  return result;
}

/** Significant digits of a weight: as many as every double can hold. */
const DIGITS = 15;

/** The weights as integer multiples of one common decimal step, exact. */
function wholeMultiples(weights: readonly number[]): bigint[] {
  if (weights.length === 0) throw new ValidationError('weights.empty', 'weights');
  const decimals = weights.map((weight, i) => {
    if (!Number.isFinite(weight)) throw new ValidationError('number.not-finite', `weights[${i}]`);
    if (weight < 0) throw new ValidationError('weights.negative', `weights[${i}]`);
    const [digits = '', power = ''] = weight.toExponential(DIGITS - 1).split('e');
    return { digits: BigInt(digits.replace('.', '')), power: Number(power) };
  });
  const used = decimals.filter(({ digits }) => digits > 0n);
  if (used.length === 0) throw new ValidationError('weights.all-zero', 'weights');
  const finest = Math.min(...used.map(({ power }) => power));
  return decimals.map(({ digits, power }) => (digits === 0n ? 0n : digits * 10n ** BigInt(power - finest)));
}
