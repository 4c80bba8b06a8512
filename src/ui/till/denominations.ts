import { currencyDecimals } from '../../core/values/money.ts';

/** Notes and coins in minor units, largest first. Common practice, no source. */
const IN_USE: Readonly<Record<string, readonly number[]>> = {
  USD: [10_000, 5000, 2000, 1000, 500, 200, 100, 50, 25, 10, 5, 1],
  CAD: [10_000, 5000, 2000, 1000, 500, 200, 100, 25, 10, 5],
};

/** Currencies without decimals have notes of up to ten thousand. */
const LEAST_POWER = 4;

/**
 * The denominations of a currency, in minor units; for an unknown currency, steps of 1, 2 and 5.
 * @example denominationsOf('CAD').at(-1) // 5: there is no one-cent coin
 */
export function denominationsOf(currency: string): readonly number[] {
  const known = IN_USE[currency];
  if (known) return known;
  const largest = Math.max(LEAST_POWER, 2 + currencyDecimals(currency));
  const steps = Array.from({ length: largest }, (_, power) => [1, 2, 5].map((one) => one * 10 ** power));
  return [...steps.flat(), 10 ** largest].reverse();
}
