/** A finished language stays offered whatever is added to en-US; what it lacks fails the check and no build. */
import { expect, it, vi } from 'vitest';
import { readCatalogue } from '../../../src/words/compile/catalogue.ts';
import { catalogueFaults, missingMessages, offeredLanguages } from '../../../src/words/compile/check.ts';
import type * as Languages from '../../../src/words/languages.ts';
import { catalogueFolder } from './catalogue.ts';

vi.mock('../../../src/words/languages.ts', async (original) => {
  const languages = await original<typeof Languages>();
  return {
    ...languages,
    languageLines: { 'en-US': languages.languageLines['en-US'], 'es-MX': { name: 'Español' } },
  };
});

it('is offered although a message was added, and the check names it', () => {
  const catalogue = readCatalogue(
    catalogueFolder({
      'en-US/shop.arb': { save: 'Save', print: 'Print' },
      'es-MX/shop.arb': { save: 'Guardar' },
    }),
  );
  expect(catalogueFaults(catalogue)).toEqual([]);
  expect(offeredLanguages(catalogue)).toEqual(['en-US', 'es-MX']);
  expect(missingMessages(catalogue)).toEqual([
    'es-MX/shop.arb, print: this key is missing. Translate it from en-US/shop.arb.',
  ]);
});
