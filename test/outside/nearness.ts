import type { Nearness, Value } from './result.ts';

/** Doubles carry no more; an exact hit counts as this many digits. */
const MAX_DIGITS = 15;

export const listOf = (value: Value): readonly number[] => (typeof value === 'number' ? [value] : value);

/**
 * Significant digits in which the two agree, 0 to 15, in the worst place of a list: minus the base-ten logarithm of the
 * relative error (McCullough, The American Statistician 52:358, 1998), of the absolute error where 0 is expected.
 */
export function digitsAgreeing(expected: Value, got: Value): number {
  const [wanted, had] = [listOf(expected), listOf(got)];
  if (wanted.length !== had.length) return 0;
  return Math.min(...wanted.map((value, i) => digitsOfOne(value, had[i] ?? NaN)));
}

/** Whether `got` is as near to `expected` in every place as asked; lists of unlike length are not. */
export function isNear(expected: Value, got: Value, near: Nearness): boolean {
  if (near.digits !== undefined) return digitsAgreeing(expected, got) >= near.digits;
  const [wanted, had] = [listOf(expected), listOf(got)];
  const reach = listOf(near.within);
  if (wanted.length !== had.length || (reach.length !== 1 && reach.length !== wanted.length)) return false;
  return wanted.every((value, i) => Math.abs(value - (had[i] ?? NaN)) <= (reach[i] ?? reach[0] ?? NaN));
}

export function inWords({ digits, within }: Nearness): string {
  if (digits !== undefined) return `${digits} digits`;
  const reach = listOf(within);
  const [least, most] = [Math.min(...reach), Math.max(...reach)];
  if (most === 0) return 'exact';
  return least === most ? `within ${most}` : `within ${least} to ${most}, by place`;
}

function digitsOfOne(expected: number, got: number): number {
  if (got === expected) return MAX_DIGITS;
  const error = Math.abs(got - expected) / (expected === 0 ? 1 : Math.abs(expected));
  if (!Number.isFinite(error)) return 0;
  return Math.min(MAX_DIGITS, Math.max(0, -Math.log10(error)));
}
