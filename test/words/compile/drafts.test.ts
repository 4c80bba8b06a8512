/** A language that is being translated: nothing fails, and a window may choose it once it lacks nothing. */
import { expect, it, vi } from 'vitest';
import { readCatalogue } from '../../../src/words/compile/catalogue.ts';
import { catalogueFaults, gaps, offeredLanguages } from '../../../src/words/compile/check.ts';
import { catalogueFolder } from './catalogue.ts';

vi.mock('../../../src/words/languages.ts', () => import('./languages.ts'));

const ENGLISH = { save: 'Save', license: 'License', days: '{n, plural, one {# day} other {# days}}' };
const OURS = {
  'en-US/shop.arb': ENGLISH,
  'en-US/rail.arb': { rail: 'Rail' },
  'en-CA/shop.arb': { license: 'Licence' },
};
const SPANISH = {
  save: 'Guardar',
  license: 'Licencia',
  days: '{n, plural, one {# día} other {# días}}',
};

it('may be absent', () => {
  const catalogue = readCatalogue(catalogueFolder(OURS));
  expect(catalogueFaults(catalogue)).toEqual([]);
  expect(offeredLanguages(catalogue)).toEqual(['en-US', 'en-CA']);
});

it('may lack keys and areas, which are told, and is not offered yet', () => {
  const { save, days } = SPANISH;
  const catalogue = readCatalogue(catalogueFolder({ ...OURS, 'es-MX/shop.arb': { save, days } }));
  expect(catalogueFaults(catalogue)).toEqual([]);
  expect(offeredLanguages(catalogue)).toEqual(['en-US', 'en-CA']);
  const [english, spanish] = ['en-US', 'es-MX'].map((code) => catalogue.languages.get(code) ?? new Map());
  expect(gaps('es-MX', spanish ?? new Map(), english ?? new Map())).toEqual([
    'es-MX/rail.arb: this language lacks the area rail. Translate en-US/rail.arb.',
    'es-MX/shop.arb, license: this key is missing. Translate it from en-US/shop.arb.',
  ]);
});

it('is offered when its files are complete, with nothing else to do', () => {
  const catalogue = readCatalogue(
    catalogueFolder({ ...OURS, 'es-MX/shop.arb': SPANISH, 'es-MX/rail.arb': { rail: 'Riel' } }),
  );
  expect(offeredLanguages(catalogue)).toEqual(['en-US', 'en-CA', 'es-MX']);
});

it('is refused with a message that does not fit, as any other language', () => {
  const days = '{count, plural, one {# día} other {# días}}';
  const catalogue = readCatalogue(catalogueFolder({ ...OURS, 'es-MX/shop.arb': { ...SPANISH, days } }));
  expect(catalogueFaults(catalogue)).toEqual([
    'es-MX/shop.arb, days: the placeholder {count} is unknown. Use only those of the source.',
    'es-MX/shop.arb, days: the placeholder {n} is missing. Put it where it belongs.',
  ]);
});
