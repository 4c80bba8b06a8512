/** A shop with difficult labels: long names, pork in the sausage, a hold, a farm's animal, two owners. */
import { cut, freshDesk, takeIn, type FreshDesk } from '../desk/fresh-desk.ts';

/** Sixty letters each, with words that are hard to break. */
export const LONG_HUNTER = 'Bartholomew Featherstonehaugh-Cholmondeley of Upper Elkcreek';
export const LONG_PRODUCT = 'Smoked Jalapeño-Cheddar Summer Sausages, Mild, Coarse Ground';
/** Packages of the long-named sausage and of links. */
export const [LONG_COUNT, LINKS] = [11, 1];

export type LabelShop = Awaited<ReturnType<typeof fillShop>>;

/** A hunter's elk with pork in its sausage, a bear on hold in four pieces, a bison from an inspected farm. */
export async function fillShop() {
  const shop = await freshDesk('lb', '2026-11-24T18:00:00Z');
  await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
  const whose = { name: LONG_HUNTER };
  const elk = await takeIn(shop, { hunter: whose, tag: 'EL-2026-0048812', licence: '771 204 118' });
  await cut(shop, elk, { trim: '60.00' });
  await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
  const [lot] = await shop.call('fat.listLots', {});
  const plan = { animals: [{ id: elk }], fat: 'pork-back-fat', targetFat: 0.125, product: 'Sausage' };
  const batchId = (await shop.call('grinder.start', plan)).id;
  await shop.call('grinder.weighIn', { batchId, animalId: elk, part: 'trim', typed: '60.00' });
  await shop.call('grinder.weighIn', { batchId, fatLotId: lot?.id ?? 0, part: 'fat added', typed: '8.70' });
  await shop.call('grinder.pack', { batchId, product: LONG_PRODUCT, count: LONG_COUNT, typed: '11.35' });
  await shop.call('grinder.pack', { batchId, product: 'Links', count: LINKS, typed: '1.00' });
  const bear = await takeIn(shop, {
    hunter: whose, species: 'black-bear', brought: 'quarters', sample: 'TRI-2026-00917', tag: 'B 33',
    parts: [{ primal: 'ham', count: 2 }, { primal: 'shoulder', count: 2 }],
  }, null); // prettier-ignore
  const bison = await takeIn(shop, { hunter: { name: 'Cold Spring' }, species: 'bison', origin: 'farm' });
  const tickets = { elk: '', bear: '', bison: '' };
  const steaks = { stage: 'packed', part: 'package', product: 'Steaks', count: 1, typed: '2.00' } as const;
  for (const animalId of [elk, bear, bison]) await shop.call('table.weigh', { ...steaks, animalId });
  for (const [name, id] of Object.entries({ elk, bear, bison }))
    tickets[name as 'elk'] = (await shop.call('animals.get', { id })).ticket;
  const pooledId = await pool(shop);
  await shop.desk.close();
  return { bookPath: shop.bookPath, batchId, pooledId, tickets };
}

/** Sausage of two hunters' deer: 20 lb of one, 10 lb of the other, six packages. */
async function pool(shop: FreshDesk): Promise<number> {
  const ids: number[] = [];
  for (const [name, species, trim] of [
    ['Ann Alder', 'white-tail', '20.00'],
    ['Bo Birch', 'mule-deer', '10.00'],
  ] as const) {
    const id = await takeIn(shop, { hunter: { name }, species }, '80');
    await cut(shop, id, { trim });
    ids.push(id);
  }
  const asked = { animals: ids.map((id) => ({ id })), fat: 'none', targetFat: null, product: 'Links' };
  const batchId = (await shop.call('grinder.start', asked)).id;
  for (const [i, typed] of ['20.00', '10.00'].entries())
    await shop.call('grinder.weighIn', { batchId, animalId: ids[i] ?? 0, part: 'trim', typed });
  await shop.call('grinder.pack', { batchId, product: 'Links', count: 6, typed: '29.90' });
  return batchId;
}
