import { describe, it } from 'vitest';
import { parseReading, readingGrams } from '../../src/core/reading.ts';
import { fromGrams, toGrams } from '../../src/core/units.ts';
import { check } from './record.ts';

const CFR = '16 CFR 500.19, table of conversion factors, https://www.law.cornell.edu/cfr/text/16/500.19';
const NIST =
  'international pound of 1 July 1959 = 0.45359237 kg exactly, Fed. Std. 376A; NIST SP 811 appendix B (the latter from memory)';

describe('mass factors', () => {
  it.each([
    ['grams in a pound', 453.592, toGrams(1, 'lb'), 0.0005],
    ['grams in an ounce', 28.3495, toGrams(1, 'oz'), 0.00005],
    ['pounds in a kilogram', 2.20462, fromGrams(1000, 'lb'), 0.000005],
    ['ounces in a gram', 0.035274, fromGrams(1, 'oz'), 0.00000005],
  ])('%s as rounded in 16 CFR', (name, expected, got, tolerance) => {
    check({ name, source: CFR, expected, got, tolerance });
  });

  it('are exact where the definition is', () => {
    check({
      name: 'kilograms in a pound',
      source: NIST,
      expected: 0.45359237,
      got: toGrams(1, 'lb') / 1000,
      tolerance: 0,
    });
    const ounce = 'sixteenth of the international pound, exact';
    check({ name: 'grams in an ounce, in full', source: ounce, expected: 28.349523125, got: toGrams(1, 'oz'), tolerance: 0 });
    const stone = readingGrams(parseReading('14 lb', 'kg'));
    const name = 'grams in fourteen typed pounds';
    check({ name, source: NIST, expected: 6350.29318, got: stone, digits: 14 });
  }); // prettier-ignore
});
