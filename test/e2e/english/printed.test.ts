/** No word of English is in the text of a printed PDF while another language is chosen, but what the shop typed. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import type { Language } from '../../../src/words/languages.ts';
import { foreignWords, wordsOf } from '../../words/catalogue-words.ts';
import { stillText } from '../look-at.ts';
import { printed } from '../paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from '../shop-window.ts';

/** Shops whose papers are in the language of their window. */
const LOCALES = { 'es-MX': 'es-US', 'fr-CA': 'fr-CA' } as const;
/** What the shop typed, and what the law wants in English (9 CFR 316.16). */
const TYPED = /NOT FOR SALE|Cold Creek Locker|Benito Encina|Our cutting|Fall prices|Walk-in/giu;
const ANY = { rate: null, species: null, brought: null, product: null, fatSource: null, taxRate: 0 };
const LINES: CallInput<'prices.save'>['lines'] = [
  { code: 'hang', label: 'Our cutting', basis: 'hanging', unit: 'lb', amountMinor: 95, ...ANY },
];
const INSTRUCTIONS: CallInput<'quotes.save'>['instructions'] = {
  cutsShare: 0.4, fat: 'pork-back-fat', targetFat: 0.1, grindProduct: 'Breakfast sausage', packageGrams: 453.59237, extras: [], note: '',
}; // prettier-ignore

let shop: ShopWindow;
let papers: Record<string, string>;
beforeAll(async () => {
  shop = await openShop();
  const { call } = shop;
  await call('prices.save', { name: 'Fall prices', validFrom: '2020-01-01', lines: LINES });
  const parts = { trim: '25', 'whole cuts': '20', bone: '18' };
  const { id, ticket } = await deerAtDesk(shop, 'Benito Encina', parts, { instructions: INSTRUCTIONS });
  await call('bills.create', { animalId: id, confirmed: true });
  const paid = await call('bills.pay', {
    animalId: id,
    kind: 'payment',
    method: 'check',
    typed: '20',
    by: '',
  });
  const quote = await call('quotes.save', {
    species: 'elk', sex: 'female', age: 'young', brought: 'whole', stage: 'dressed', typed: '400', instructions: INSTRUCTIONS,
    hunterName: 'Benito Encina',
  }); // prettier-ignore
  papers = {
    'drop-off receipt': `#/receipt/${ticket}`,
    'cut sheet': `#/cut-sheet/${ticket}`,
    tag: `#/label/tag/${ticket}`,
    bill: `#/bill/${ticket}`,
    receipt: `#/receipt/${ticket}/${paid.id}`,
    quote: `#/quote/${quote.id}/paper`,
  };
}, 120_000);
afterAll(() => shop?.close());

/** The text of a paper as a printer gets it. */
async function printedAt(page: Page, hash: string): Promise<string> {
  await page.evaluate((to) => (location.hash = to), hash);
  await page.locator('article').first().waitFor();
  await stillText(page);
  return (await printed(page)).map(({ words }) => words).join(' ');
}

/** The words of a text that only the English catalogue has. */
function englishIn(text: string, language: Language): string[] {
  const foreign = foreignWords(language);
  return wordsOf(text.replaceAll(TYPED, ' · ')).filter((word) => foreign.has(word));
}

it('is found where a paper is in English', async () => {
  const text = await printedAt(shop.page, papers['drop-off receipt'] ?? '');
  for (const language of ['es-MX', 'fr-CA'] as const)
    expect(englishIn(text, language)).toEqual(expect.arrayContaining(['hunter', 'weight']));
});

it.each(['es-MX', 'fr-CA'] as const)(
  'in %s',
  async (language) => {
    await shop.call('shop.saveSettings', { changes: { locale: LOCALES[language] } });
    const { page } = await shop.another(language);
    const found: string[] = [];
    for (const [name, hash] of Object.entries(papers)) {
      const text = await printedAt(page, hash);
      expect(wordsOf(text).length, `${name}: ${text}`).toBeGreaterThan(10);
      found.push(...englishIn(text, language).map((word) => `${name}: ${word} (${text.slice(0, 600)})`));
    }
    expect(found).toEqual([]);
    await page.close();
  },
  120_000,
);
