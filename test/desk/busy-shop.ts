import { tempBookPath } from '../book/temp-book.ts';
import { cut, deskOn, setUpDesk, takeIn, type FreshDesk } from './fresh-desk.ts';
import { copyOfShop } from './shop-template.ts';

export const BUSY_NOW = '2026-10-10T15:00:00Z';

export type BusyShop = FreshDesk & { done: number; cutting: number; batchId: number };

/** A shop with a finished, billed animal, a tested grind and trim that waits. */
export async function busyShop(): Promise<BusyShop> {
  const path = tempBookPath();
  await copyOfShop('busy', path, makeBusy);
  const shop = await deskOn(path, BUSY_NOW);
  // In the order in which they were made: tests copy the shop.
  return { ...shop, done: 1, cutting: 2, batchId: 1 };
}

async function makeBusy(path: string): Promise<void> {
  const shop = await setUpDesk(path, 'lb', BUSY_NOW);
  const done = await takeIn(shop);
  await cut(shop, done, { 'whole cuts': '90', trim: '140', bone: '70', sinew: '40' });
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
  if (done !== 1 || cutting !== 2 || batchId !== 1) throw new Error('The busy shop has other numbers.');
  shop.desk.close();
}
