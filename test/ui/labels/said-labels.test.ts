/** Labels in the languages of those who get them. */
// @vitest-environment happy-dom
import { beforeEach, expect, it, vi } from 'vitest';
import PackageLabelPart from '../../../src/ui/labels/PackageLabel.vue';
import { notForSaleBox, saleLines } from '../../../src/ui/labels/not-for-sale.ts';
import type { LabelRun, PackageLabel } from '../../../src/ui/labels/package-label.ts';
import type { MadeLabel } from '../../../src/bridge/contract.ts';
import { labelLines } from '../../../src/ui/smokehouse/batches/made-runs.ts';
import { languagesFor, saidRuns } from '../../../src/ui/labels/said-labels.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import type { Language } from '../../../src/words/languages.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

beforeEach(async () => {
  await Promise.all((['es-MX', 'fr-CA', 'en-CA'] as const).map(loadLanguage));
  await openWindow();
});

const label = (product: string, species: string, language?: Language): PackageLabel => ({
  product, species, language, ticket: '26-0001', hunter: 'Ann Alder', net: `NET ${product}`, average: null,
  packed: 'Nov 4', batch: null, ingredients: null, cook: `165 ${product}`, notForSale: true,
}); // prettier-ignore
const run = (key: string, of: PackageLabel): LabelRun => ({ key, copies: 2, label: of });
const owner = (language: '' | 'es-MX' | 'fr-CA') => ({ ticket: '26-0001', hunter: { language } });
const said = new Map<Language, LabelRun[]>([
  ['en-US', [run('cut 1', label('Chops', 'Elk', 'en-US'))]],
  ['es-MX', [run('cut 1', label('Chuletas', 'Wapití (elk)', 'es-MX'))]],
  ['en-CA', [run('cut 1', label('Chops', 'Elk', 'en-CA'))]],
  ['fr-CA', [run('cut 1', label('Côtelettes', 'Wapiti', 'fr-CA'))]],
]);
const printed = (locale: string, language: '' | 'es-MX' | 'fr-CA'): PackageLabel =>
  saidRuns([run('cut 1', label('Chops', 'Elk'))], said, [owner(language)], locale)[0]!.label;
const textOf = (of: PackageLabel): string =>
  mountPart(PackageLabelPart, { props: { label: of, size: '4x3', also: '' } }).text();

it('asks for the languages of all owners, once each', () => {
  expect(languagesFor([owner('es-MX'), owner(''), owner('fr-CA')], 'en-US')).toEqual([
    'en-US',
    'es-MX',
    'fr-CA',
  ]);
});

it('keeps what the window shows, and prints what the owner reads', () => {
  const of = printed('en-US', 'es-MX');
  expect(of.product).toBe('Chops');
  expect(of.printed?.map(({ product }) => product)).toEqual(['Chops', 'Chuletas']);
});

it('says safety and sale in English first and in Spanish after it', () => {
  const text = textOf(printed('en-US', 'es-MX'));
  expect(text).toContain('Chops / Chuletas');
  expect(text).toMatch(/KEEP FROZEN[\s\S]*MANTÉNGASE CONGELADO/);
  expect(text).toContain('PRODUCTO NO DESTINADO A LA VENTA');
  expect(text).toContain('NOT FOR SALE');
  expect(text).not.toContain('Refrigerador');
});

it('prints one language once for a hunter who reads the shop’s', () => {
  const text = textOf(printed('en-US', ''));
  expect(text).not.toMatch(/CONGELADO|VENTA|VENTE/);
  expect(text.match(/KEEP FROZEN/g)).toHaveLength(1);
});

it('prints both official languages in Canada, in letters of one size, the shop’s own first', () => {
  const text = textOf(printed('fr-CA', 'es-MX'));
  expect(text).toContain('Côtelettes / Chops');
  expect(text).toMatch(/GARDER CONGELÉ[\s\S]*KEEP FROZEN/);
  expect(text).toMatch(/NON DESTINÉ À LA VENTE[\s\S]*NOT FOR SALE/);
  const { lines, letter } = saleLines(['fr-CA', 'en-CA'], ['NOT FOR SALE']);
  const box = notForSaleBox(lines, 96.6, letter);
  expect(box.height).toBeLessThan(13);
  expect(box.lines[1]!.baseline - box.lines[0]!.baseline).toBeGreaterThan(letter);
  for (const { width } of box.lines) expect(width).toBeLessThanOrEqual(96.6);
});

it('keeps the letters of 3/8 in outside Canada', () => {
  expect(saleLines(['en-US', 'es-MX'], ['NOT FOR', 'SALE'])).toEqual({
    lines: ['NOT FOR', 'SALE'],
    letter: 9.9,
  });
});

it('lists ingredients with commas in each language, and joins no list by a word of another', () => {
  const made = (language: Language, names: string[]): PackageLabel => ({
    ...label('Sausage', 'Elk', language),
    ingredients: names,
  });
  const french = made('fr-CA', ['Wapiti', 'Gras de dos de porc', 'Sel']);
  const text = textOf({ ...french, printed: [french, made('en-CA', ['Elk', 'Pork back fat', 'Salt'])] });
  expect(text).toContain('Ingrédients\u00A0: Wapiti, Gras de dos de porc, Sel.');
  expect(text).toContain('Ingredients: Elk, Pork back fat, Salt.');
});

it('names the agents of a cure as the language of its label joins them', () => {
  const raw = {
    state: 'raw',
    keep: 'frozen',
    cookTo: null,
    allergens: { contains: [], unknown: [] },
  } as const;
  const cure = { nitrite: true, nitrate: false, accelerator: true };
  const lines = (language: Language) => labelLines({ ...raw, cure } as unknown as MadeLabel, language).at(-1);
  expect(lines('en-CA')).toBe('Cured with nitrite, a cure accelerator.');
  expect(lines('fr-CA')).toBe('Saumuré avec\u00A0: nitrite et accélérateur de saumurage.');
});
