import { describe, expect, it } from 'vitest';
import { methodOptions, referenceLabel } from '../../../src/ui/bill/method-options.ts';
import { methodCode, methodName } from '../../../src/ui/texts/payment-methods.ts';
import { denominationsOf } from '../../../src/ui/till/denominations.ts';
import { countedMinor, emptyCount, readPieces } from '../../../src/ui/till/till-count.ts';

const USD = denominationsOf('USD');

describe('a typed cash count', () => {
  it('adds up notes and coins', () => {
    // 3 × $20 + 2 × $0.25 + 4 × $0.01
    const form = {
      ...emptyCount(),
      way: 'pieces' as const,
      pieces: { 2000: '3', 25: ' 2 ', 1: '4', 500: '' },
    };
    expect(countedMinor(form, 'USD', USD)).toBe(6054);
    expect(readPieces(form.pieces, USD)).toEqual([[2000, 3], [25, 2], [1, 4]]); // prettier-ignore
  });

  it('is null while empty or invalid', () => {
    expect(countedMinor(emptyCount(), 'USD', USD)).toBeNull();
    expect(countedMinor({ ...emptyCount(), way: 'pieces' }, 'USD', USD)).toBeNull();
    expect(countedMinor({ ...emptyCount(), way: 'pieces', pieces: { 2000: 'x' } }, 'USD', USD)).toBeNull();
    expect(countedMinor({ ...emptyCount(), total: '12.' }, 'USD', USD)).toBe(1200);
    expect(countedMinor({ ...emptyCount(), total: '1x' }, 'USD', USD)).toBeNull();
  });

  it('has no one-cent coin in Canada, and steps of 1, 2 and 5 for an unknown currency', () => {
    expect(denominationsOf('CAD').at(-1)).toBe(5);
    expect(denominationsOf('SEK').slice(-4)).toEqual([10, 5, 2, 1]);
    expect(Math.max(...denominationsOf('JPY'))).toBe(10_000);
  });
});

describe('payment methods', () => {
  it('have a key each, the first letter not yet taken', () => {
    expect(methodOptions(['cash', 'check', 'card', 'Gift card', '礼']).map(({ key }) => key)).toEqual([
      'C', 'H', 'A', 'G', '礼',
    ]); // prettier-ignore
  });

  it('keep their typed name, and known ones their code', () => {
    expect(['Cash', ' CHECK ', 'Gift card'].map(methodCode)).toEqual(['cash', 'check', 'Gift card']);
    expect(['cash', 'Gift card'].map(methodName)).toEqual(['Cash', 'Gift card']);
  });

  it('ask for a reference, except cash', () => {
    expect(['cash', 'check', 'card'].map(referenceLabel)).toEqual([null, 'Check number', 'Reference']);
  });
});
