/** A price that was promised for a line that the bill no longer has is told before the bill is made, and never lost in silence. */
import { describe, expect, it } from 'vitest';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const CUT = priced('cut', 'hanging', { label: 'Cut and wrap', unit: 'lb', amountMinor: 95 });
const SKIN = priced('skin', 'animal', { label: 'Skinning', amountMinor: 3500 });
const LEAST = priced('least', 'minimum', { label: 'Smallest charge', amountMinor: 100 });

/** An elk whose quote promised other prices for these lines. */
async function promised(lineCodes: string[]): Promise<{ shop: FreshDesk; animalId: number }> {
  const shop = await pricedShop([CUT, SKIN, LEAST]);
  const { id: quoteId } = await shop.call('quotes.save', {
    species: 'elk', brought: 'skinned', parts: [], stage: 'hanging', typed: '400', hunterName: 'Dana Whitlock',
    instructions: { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 454, extras: [], note: '' },
    adjustments: lineCodes.map((lineCode) => ({ kind: 'other price', lineCode, amountMinor: 50, reason: 'old friend' })),
  });
  return { shop, animalId: await takeIn(shop, { quoteId }) };
} // prettier-ignore
const reprice = (shop: FreshDesk, lines: (typeof CUT)[]) =>
  shop.call('prices.save', { name: 'Next', validFrom: '2026-10-01', lines });
/** Packages are not weighed: that is asked about later. */
const asked = async (shop: FreshDesk, animalId: number) =>
  (await shop.problem('bills.create', { animalId })).code;

describe('a promised price', () => {
  it('is asked about by the name of its line once the prices have that line no more', async () => {
    const { shop, animalId } = await promised(['cut', 'skin']);
    expect(await asked(shop, animalId)).toBe('bill.not-weighed');
    await reprice(shop, [
      { ...CUT, code: 'cut-2' },
      { ...SKIN, code: 'skin-2' },
    ]);
    expect(await shop.problem('bills.create', { animalId })).toMatchObject({
      kind: 'conflict', code: 'bill.price-unused', with: { line: 'Cut and wrap', count: 1 },
    }); // prettier-ignore
    await shop.call('bills.create', { animalId, confirmed: true });
    // 400 lb × $0.95, and skinning.
    expect((await shop.call('bills.get', { animalId })).bill?.totalMinor).toBe(41_500);
  });

  it('is asked about where its line is for other game now, and not where it was voided', async () => {
    const { shop, animalId } = await promised(['skin']);
    await reprice(shop, [CUT, { ...SKIN, species: ['white-tail'] }]);
    expect(await asked(shop, animalId)).toBe('bill.price-unused');
    const [row] = (await shop.call('bills.get', { animalId })).adjustments;
    expect(row?.line).toBe('Skinning');
    await shop.call('bills.voidAdjustment', { adjustmentId: row!.id, reason: 'agreed otherwise' });
    expect(await asked(shop, animalId)).toBe('bill.not-weighed');
  });

  it('of a smallest charge that other lines reach is no question', async () => {
    const { shop, animalId } = await promised(['least']);
    expect(await asked(shop, animalId)).toBe('bill.not-weighed');
  });
});
