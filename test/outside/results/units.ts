import { parseReading, readingGrams } from '../../../src/core/values/reading.ts';
import { fromGrams, toGrams } from '../../../src/core/values/units.ts';
import type { PublishedResult } from '../result.ts';

export const units: readonly PublishedResult[] = [
  {
    name: 'grams in a pound, grams in an ounce, pounds in a kilogram, ounces in a gram',
    source: '16 CFR 500.19, table of conversion factors, https://www.law.cornell.edu/cfr/text/16/500.19',
    basis: 'stated',
    expected: [453.592, 28.3495, 2.20462, 0.035274],
    ours: () => [toGrams(1, 'lb'), toGrams(1, 'oz'), fromGrams(1000, 'lb'), fromGrams(1, 'oz')],
    near: { within: [0.0005, 0.00005, 0.000005, 0.00000005] },
    mistake: { what: 'factors rounded by one more place', gives: [453.59, 28.35, 2.2046, 0.03527] },
  },
  {
    name: 'kilograms in a pound, and in fourteen typed pounds',
    source: 'international pound of 1 July 1959 = 0.45359237 kg exactly, Fed. Std. 376A',
    basis: 'stated',
    note: 'fourteen pounds: fourteen times that',
    expected: [0.45359237, 6.35029318],
    ours: () => [toGrams(1, 'lb') / 1000, readingGrams(parseReading('14 lb', 'kg')) / 1000],
    near: { digits: 14 },
    mistake: { what: 'the pound cut off after six places', gives: [0.453592, 6.350288] },
  },
];
