import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLoads } from '../../../src/core/values/loads.ts';
import { slipsByKind } from '../../../src/core/values/mistype.ts';
import { parseReading, readingGrams } from '../../../src/core/values/reading.ts';
import { typedText } from '../../../src/desk/input/typed-text.ts';

describe('a weight in several loads', () => {
  it.each([
    ['61.2+58.4', 1196, 1, 'lb'],
    ['61.2 + 58.4 + 7', 1266, 1, 'lb'],
    ['12 1/2 + .25', 1275, 2, 'lb'],
    ['84 lb 10 oz + 12', 1546, 0, 'oz'],
    ['3 lb + 8 oz', 56, 0, 'oz'],
    ['20.5 kg + 18.25 kg', 3875, 2, 'kg'],
    ['20.5 kg + 250 g', 20750, 0, 'g'],
    ['1,234.5 + 1', 12355, 1, 'lb'],
  ])('reads %s as %i at %i decimals of %s', (typed, digits, decimals, unit) =>
    expect(parseLoads(typed, 'lb')).toMatchObject({ digits, decimals, unit, typed }),
  );

  it.each(['84.6', '+84.6', '84 lb 10 oz', ' 12 '])('reads the single weight %s as ever', (typed) =>
    expect(parseLoads(typed, 'lb')).toEqual(parseReading(typed, 'lb')),
  );

  it.each([
    ['61.2+', 'reading.unreadable'],
    ['61.2++58', 'reading.unreadable'],
    ['61.2+x', 'reading.unreadable'],
    ['61.2+-3', 'reading.negative'],
    ['61.2+0', 'reading.zero'],
    ['61.2 + 20 kg', 'reading.loads-mixed'],
    ['1,234 + 5', 'reading.ambiguous'],
    ['9000 kg + 2000 kg', 'reading.too-heavy'],
    ['', 'reading.empty'],
  ])('refuses %s as %s', (typed, code) =>
    expect(() => parseLoads(typed, 'lb')).toThrow(expect.objectContaining({ code, field: 'typed' })),
  );

  it('is exactly the sum of its loads, in whatever order', () => {
    const load = fc
      .record({ digits: fc.integer({ min: 1, max: 3000 }), decimals: fc.integer({ min: 0, max: 3 }) })
      .map(({ digits, decimals }) => (digits / 10 ** decimals).toFixed(decimals));
    fc.assert(
      fc.property(fc.array(load, { minLength: 2, maxLength: 6 }), (loads) => {
        const sum = parseLoads(loads.join('+'), 'lb');
        // In ten-thousandths of a pound, which are whole numbers.
        const whole = loads.reduce((all, one) => all + Math.round(Number(one) * 10_000), 0);
        expect(sum.digits * 10 ** (4 - sum.decimals)).toBe(whole);
        expect(readingGrams(parseLoads(loads.toReversed().join(' + '), 'lb'))).toBe(readingGrams(sum));
      }),
    );
  });

  it('has a slip in one of its loads, never in their sum', () => {
    const slips = new Map(slipsByKind(parseLoads('61.2+58.4', 'lb'), []));
    const swapped = (slips.get('digits-swapped') ?? []).map((slip) => typedText(slip, 'lb'));
    expect(swapped).toContain('61.2 + 85.4');
    expect(swapped).not.toContain('191.6');
    for (const kind of slips.values()) for (const { loads } of kind) expect(loads).toHaveLength(2);
  });
});
