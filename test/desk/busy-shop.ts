import { expect } from 'vitest';
import type { CallInput } from '../../src/bridge/contract.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { addPhoto } from '../photo-of.ts';
import { cut, deskOn, setUpDesk, takeIn, type FreshDesk } from './fresh-desk.ts';
import { copyOfShop } from './shop-template.ts';
import { loadOf } from './smokehouse/load-of.ts';
import { TRIED } from './tried-writes.ts';

export const BUSY_NOW = '2026-10-10T15:00:00Z';

/** What the shop has, as it was numbered when it was made: tests copy the shop. */
const NUMBERED = {
  done: 1, cutting: 2, batchId: 1, coolerId: 1, lotId: 1, quoteId: 1, recipeId: 1, madeId: 1, loadId: 1,
} as const; // prettier-ignore

/** The number of a slip that was printed: the desk draws them. */
const SLIP = '483-201-957';

export type BusyShop = FreshDesk &
  Readonly<Record<keyof typeof NUMBERED, number>> & {
    /** Of a photograph of `cutting`. */
    digest: string;
    slip: string;
  };

/**
 * A shop with a finished animal whose weights agree, a tested grind, trim that waits, a quote, and a load in the smokehouse: every
 * question that a screen keeps open has something to tell.
 */
export async function busyShop(): Promise<BusyShop> {
  const path = tempBookPath();
  await copyOfShop('busy', path, makeBusy);
  const shop = await deskOn(path, BUSY_NOW);
  // Its file lies beside the book, so it is not copied with it.
  const { digest } = await addPhoto(shop, NUMBERED.cutting);
  return { ...shop, ...NUMBERED, digest, slip: SLIP };
}

async function makeBusy(path: string): Promise<void> {
  const shop = await setUpDesk(path, 'lb', BUSY_NOW);
  const done = await takeIn(shop);
  await cut(shop, done, { 'whole cuts': '90', trim: '140', bone: '90', sinew: '40' });
  const cutting = await takeIn(shop, { sex: 'female' });
  await cut(shop, cutting, { trim: '60' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: done }],
    fat: 'none',
    targetFat: null,
    product: 'Ground',
  });
  await shop.call('grinder.weighIn', { batchId, animalId: done, part: 'trim', typed: '140' });
  await shop.call('grinder.pack', { batchId, product: 'Ground', count: 130, typed: '138' });
  await shop.call('grinder.finish', { batchId });
  await shop.call('grinder.fatTest', { batchId, percent: 9, method: 'Tester' });
  await shop.call('animals.setStage', { id: done, stage: 'ready', answer: 'weighed again', confirmed: true });
  const { id: coolerId } = await shop.call('coolers.save', { name: 'Old room', places: 9 });
  const { id: lotId } = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '9' });
  const quoted = await TRIED['quotes.save']!(shop);
  const { id: quoteId } = await shop.call('quotes.save', quoted[1] as CallInput<'quotes.save'>);
  const { id: recipeId } = await shop.call('recipes.addReady', { code: 'sticks' });
  const { loadId, madeId } = await loadOf(shop);
  const probe = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F', typed: '150' } as const;
  await shop.call('loads.reading', probe);
  const book = shop.desk.session()?.book;
  book?.change(() => book.slips.add(SLIP, { at: BUSY_NOW, by: 'MK' }));
  shop.desk.close();
  expect({ done, cutting, batchId, coolerId, lotId, quoteId, recipeId, madeId, loadId }).toEqual(NUMBERED);
}
