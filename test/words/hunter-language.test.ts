/** Which languages a hunter's papers and labels have. */
import { expect, it } from 'vitest';
import { labelLanguages, languageOfHunter, shopLanguage } from '../../src/words/hunter-language.ts';

it.each([
  ['en-US', 'en-US'],
  ['es-US', 'es-MX'],
  ['es-MX', 'es-MX'],
  ['en-CA', 'en-CA'],
  ['fr-CA', 'fr-CA'],
  ['de-DE', 'en-US'],
] as const)('a shop with the formats of %s speaks %s', (locale, language) => {
  expect(shopLanguage(locale)).toBe(language);
  expect(languageOfHunter('', locale)).toBe(language);
  expect(languageOfHunter('fr-CA', locale)).toBe('fr-CA');
});

it('puts both official languages on labels in Canada, the shop’s own first, whatever the hunter speaks', () => {
  expect(labelLanguages('', 'fr-CA')).toEqual(['fr-CA', 'en-CA']);
  expect(labelLanguages('es-MX', 'fr-CA')).toEqual(['fr-CA', 'en-CA']);
  expect(labelLanguages('', 'en-CA')).toEqual(['en-CA', 'fr-CA']);
});

it('lets English lead elsewhere, and the hunter’s language follow', () => {
  expect(labelLanguages('', 'en-US')).toEqual(['en-US']);
  expect(labelLanguages('es-MX', 'en-US')).toEqual(['en-US', 'es-MX']);
  expect(labelLanguages('', 'es-MX')).toEqual(['en-US', 'es-MX']);
  expect(labelLanguages('en-CA', 'en-US')).toEqual(['en-CA']);
});
