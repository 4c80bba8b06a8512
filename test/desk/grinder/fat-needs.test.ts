/** What the shop will want of each fat, against hand-worked sums. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;
/** USDA NDB 17338 (elk, ground, raw), 17172 (moose, raw) and 10004 (pork back fat, raw). */
const [ELK, MOOSE, BACK_FAT] = [0.0882, 0.0074, 0.8869];
const INSTRUCTIONS = {
  cutsShare: 0.4, fat: 'pork-back-fat', targetFat: 0.125, grindProduct: 'Ground', packageGrams: 454, extras: [], note: '',
}; // prettier-ignore
const sausage = { product: 'Sausage', grams: 20 * LB, fat: 'pork-back-fat', targetFat: 0.25 };
const need = (trim: number, target: number, own = ELK) => (trim * (target - own)) / (BACK_FAT - target);

describe('fat needs', () => {
  it('follow from weighed trim left, each grind by its own target, against what is on hand', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { instructions: { ...INSTRUCTIONS, alsoGround: [sausage] } });
    await cut(shop, id, { trim: '100' });
    await shop.call('animals.setStage', { id, stage: 'packing' });
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '5' });
    const { sources, unweighed } = await shop.call('fat.getNeeds', {});
    expect(unweighed).toEqual([]);
    const wanted = need(20, 0.25) + need(80, 0.125);
    expect(sources).toHaveLength(1);
    expect(sources[0]).toMatchObject({ source: 'pork-back-fat', animals: 1, quotes: { count: 0 } });
    expect((sources[0]?.need.mean ?? 0) / LB).toBeCloseTo(wanted, 6);
    expect((sources[0]?.order.mean ?? 0) / LB).toBeCloseTo(wanted - 5, 6);
    expect(sources[0]?.need.high).toBeGreaterThan(sources[0]?.need.mean ?? Infinity);
    // What is ground is not wanted any more.
    const batch = await shop.call('grinder.start', {
      animals: [{ id, grams: 20 * LB }], fat: 'pork-back-fat', targetFat: 0.25, product: 'Sausage',
    }); // prettier-ignore
    await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '20' });
    const later = (await shop.call('fat.getNeeds', {})).sources[0];
    expect((later?.need.mean ?? 0) / LB).toBeCloseTo(need(80, 0.125), 6);
  });

  it('are foretold from the hanging weight before the knife, and not at all without a weight', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { instructions: INSTRUCTIONS }, '400');
    const one = (await shop.call('fat.getNeeds', {})).sources[0];
    const quote = await shop.call('quotes.calculate', {
      species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', stage: 'hanging', typed: '400', instructions: INSTRUCTIONS,
    }); // prettier-ignore
    // The same figures as the quote's, but for its finer draws.
    expect((one?.need.mean ?? 0) / quote.fatToBuyGrams.mean).toBeCloseTo(1, 1);
    await takeIn(shop, { instructions: INSTRUCTIONS }, null);
    await takeIn(shop, { instructions: { ...INSTRUCTIONS, fat: 'none', targetFat: null } }, null);
    const more = await shop.call('fat.getNeeds', {});
    expect(more.unweighed).toEqual(['26-0002']);
    expect(more.sources[0]?.need).toEqual(one?.need);
  });

  it('tell open quotes apart, until the animal came or the quote ran out', async () => {
    const shop = await freshDesk();
    const asked = {
      species: 'elk', brought: 'skinned', stage: 'hanging', typed: '400', instructions: INSTRUCTIONS,
    } as const; // prettier-ignore
    const { id } = await shop.call('quotes.save', { ...asked, hunterName: 'Ana' });
    const [quoted] = (await shop.call('fat.getNeeds', {})).sources;
    expect(quoted).toMatchObject({ animals: 0, need: { mean: 0 }, quotes: { count: 1 } });
    expect(quoted?.quotes.need.mean).toBeGreaterThan(5 * LB);
    await takeIn(shop, { instructions: INSTRUCTIONS, quoteId: id });
    expect((await shop.call('fat.getNeeds', {})).sources[0]).toMatchObject({
      animals: 1,
      quotes: { count: 0 },
    });
    await shop.call('quotes.save', { ...asked, hunterName: 'Ben' });
    expect((await shop.call('fat.getNeeds', {})).sources[0]?.quotes.count).toBe(1);
    shop.wait(31 * 86_400);
    expect((await shop.call('fat.getNeeds', {})).sources[0]?.quotes.count).toBe(0);
  });

  it('do not count on fat past its use-by', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { instructions: INSTRUCTIONS });
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '50', useBy: '2026-10-11' });
    expect((await shop.call('fat.getNeeds', {})).sources[0]).toMatchObject({ order: { mean: 0 } });
    shop.wait(3 * 86_400);
    expect((await shop.call('fat.getNeeds', {})).sources[0]).toMatchObject({ onHandGrams: 0 });
  });

  it('of ten animals keep what their trim shares: the range is as wide as ten times the doubt about its mean', async () => {
    const shop = await freshDesk();
    const animals = 10;
    for (let i = 0; i < animals; i++) {
      const id = await takeIn(shop, { species: 'moose', instructions: INSTRUCTIONS }, '500');
      await cut(shop, id, { trim: '40' });
      await shop.call('animals.setStage', { id, stage: 'packing' });
    }
    const [first] = (await shop.call('fat.getNeeds', {})).sources;
    // Moose 0.0074 ± 0.02, so far below the target that no part of the range is without need: three quarters of the
    // variance are doubt about the mean, a quarter is each animal's, × 1.2776 for not knowing it. Back fat ± 0.03. An 8-in-10 range reaches 1.281552 SD.
    const perFat = (animals * 40) / (BACK_FAT - 0.125);
    const byTrim = perFat * 0.02 * Math.sqrt(0.75 + (0.25 * 1.2776213) / animals);
    const byFat = (need(animals * 40, 0.125, MOOSE) / (BACK_FAT - 0.125)) * 0.03;
    const { low, mean, high } = first?.need ?? { low: 0, mean: 0, high: 0 };
    expect(mean / LB).toBeCloseTo(need(animals * 40, 0.125, MOOSE), 6);
    expect((high - mean) / LB).toBeCloseTo(1.281552 * Math.hypot(byTrim, byFat), 4);
    expect(mean - low).toBeCloseTo(high - mean, 6);
  });

  it('of animals not cut yet share the doubt about the mean yield of their kind', async () => {
    const width = async (animals: number): Promise<number> => {
      const shop = await freshDesk();
      for (let i = 0; i < animals; i++) await takeIn(shop, { instructions: INSTRUCTIONS }, '400');
      const { need: wanted } = (await shop.call('fat.getNeeds', {})).sources[0] ?? {
        need: { low: 0, high: 0 },
      };
      return wanted.high - wanted.low;
    };
    const [one, ten] = [await width(1), await width(10)];
    // Independent animals would make ten ranges 3.2 times as wide as one, and animals that are all alike ten times.
    expect(ten / one).toBeGreaterThan(7);
    expect(ten / one).toBeLessThan(10);
  });
});
