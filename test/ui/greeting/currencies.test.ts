import { expect, it } from 'vitest';
import { currencies, knownLanguage, likelyFor } from '../../../src/ui/greeting/currencies.ts';

it.each([
  ['en-US@posix', 'en-US'],
  ['de_DE.UTF-8', 'de-DE'],
  ['C', 'en-US'],
  ['', 'en-US'],
  ['en-CA', 'en-CA'],
])('have a default for the language %j', (language, known) => {
  expect(knownLanguage(language)).toBe(known);
  expect(likelyFor(language).currency).toMatch(/^[A-Z]{3}$/);
  expect(currencies(language).length).toBeGreaterThan(100);
});
