import { describe, expect, it } from 'vitest';
import { depositAsked } from '../../../src/core/pricing/deposit.ts';
import type { PriceLine } from '../../../src/core/pricing/lines.ts';

const amounts = { species: 'elk', brought: 'whole', hangingGrams: 0, groundGrams: 0 };
const fixed: PriceLine = { code: 'fixed', label: 'Deposit', basis: 'deposit', amountMinor: 5000 };
const tenth: PriceLine = { code: 'tenth', label: 'Deposit', basis: 'deposit', rate: 0.1 };

describe('the deposit asked at drop-off', () => {
  it('is a fixed one in full, although nothing is weighed and nothing was quoted', () => {
    expect(depositAsked([fixed], amounts, null)).toBe(5000);
  });

  it('takes a rate of what was quoted, and nothing where nothing was', () => {
    expect(depositAsked([tenth], amounts, 32_005)).toBe(3201);
    expect(depositAsked([tenth], amounts, null)).toBe(0);
  });

  it('is no more than what was quoted', () => {
    expect(depositAsked([fixed, tenth], amounts, 4000)).toBe(4000);
  });

  it('asks only where the line is for such an animal', () => {
    expect(depositAsked([{ ...fixed, species: ['moose'] }], amounts, null)).toBe(0);
  });
});
