/** Nothing leaves unnoticed: what is packed is compared with what was cut and ground before an animal is set ready. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;

async function packed(shop: FreshDesk, animalId: number, typed: string, product = 'Steaks'): Promise<void> {
  await shop.call('table.weigh', { animalId, stage: 'packed', part: 'package', product, count: 40, typed });
}

async function setReady(shop: FreshDesk, id: number) {
  return shop.desk.call('animals.setStage', { id, stage: 'ready' });
}

describe('setting an animal ready', () => {
  it('asks where more is packed than was cut, with the figures', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '92.5' });
    await packed(shop, id, '139.6');
    const answer = await setReady(shop, id);
    if (answer.ok) throw new Error('it was set ready without a question');
    expect(answer.problem).toMatchObject({ kind: 'conflict', code: 'ready.amounts' });
    // 139.6 lb packed less 92.5 lb cut is 47.1 lb too much.
    expect(Number(answer.problem.with?.overGrams) / LB).toBeCloseTo(47.1, 6);
  });

  it('asks where trim was never packed, once, and keeps the answer with initials', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '60', trim: '21' });
    await packed(shop, id, '59.5');
    const asked = await setReady(shop, id);
    // 81 lb cut less 59.5 lb packed.
    if (!asked.ok) expect(Number(asked.problem.with?.missingGrams) / LB).toBeCloseTo(21.5, 6);
    expect(asked.ok).toBe(false);
    await shop.call('animals.setStage', {
      id, stage: 'ready', confirmed: true, answer: 'the hunter took the trim home', by: 'RO',
    }); // prettier-ignore
    const [row] = await shop.call('pickup.get', {});
    expect(row?.doubts?.missingGrams).toBeCloseTo(21.5 * LB, 3);
    expect(row?.answered).toMatchObject({ answer: 'the hunter took the trim home', by: 'RO' });
    await shop.call('animals.setStage', { id, stage: 'packing' });
    expect((await setReady(shop, id)).ok).toBe(true);
    // Other figures are another question.
    await shop.call('animals.setStage', { id, stage: 'packing' });
    await cut(shop, id, { trim: '8' });
    expect((await setReady(shop, id)).ok).toBe(false);
  });

  it('keeps what was said where nothing was asked, as the reason of the step', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('animals.setStage', { id, stage: 'packing', answer: 'packed by the hunter', by: 'RO' });
    const db = new Database(shop.bookPath, { readonly: true });
    const said = db.prepare("SELECT reason FROM audit WHERE reason <> ''").pluck().all();
    db.close();
    expect(said).toEqual(['packed by the hunter']);
  });

  it('asks nothing within two scales and a scrap', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '60' });
    await packed(shop, id, '59.1');
    expect((await setReady(shop, id)).ok).toBe(true);
  });

  it('names orders that were not carried out and batches that were not packed, and no order that nobody gave', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const other = await takeIn(shop, { hunter: { name: 'Ana' } });
    const also = { fat: 'none', targetFat: null, pattyGrams: null } as const;
    await shop.call('animals.saveOrders', {
      id,
      instructions: {
        cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
        alsoGround: [{ product: 'Snack sticks', grams: 5000, ...also }],
      },
    }); // prettier-ignore
    for (const one of [id, other]) {
      await cut(shop, one, { 'whole cuts': '60', trim: '30' });
      await packed(shop, one, '60');
      const { id: batchId } = await shop.call('grinder.start', {
        animals: [{ id: one }], fat: 'none', targetFat: null, product: 'Ground',
      }); // prettier-ignore
      await shop.call('grinder.weighIn', { batchId, animalId: one, part: 'trim', typed: '30' });
    }
    const [first, second] = [await setReady(shop, id), await setReady(shop, other)];
    expect(first).toMatchObject({
      problem: { with: { notMade: 'Snack sticks', unpacked: 'G26-001 (Ground)' } },
    });
    expect(second).toMatchObject({ problem: { with: { notMade: '', unpacked: 'G26-002 (Ground)' } } });
  });

  it('asks for packages of whole cuts only in a shop that weighs them, for trim in any', async () => {
    const shop = await freshDesk();
    const ids: number[] = [];
    for (let i = 0; i < 12; i++) ids.push(await takeIn(shop));
    for (const id of ids.slice(0, 9)) {
      await cut(shop, id, { 'whole cuts': '60' });
      expect((await setReady(shop, id)).ok).toBe(true);
    }
    const [trimmed = 0, ...after] = ids.slice(9);
    await cut(shop, trimmed, { 'whole cuts': '60', trim: '30' });
    const asked = await setReady(shop, trimmed);
    expect(asked.ok).toBe(false);
    // Only the trim: nobody weighs the packages of cuts.
    if (!asked.ok) expect(Number(asked.problem.with?.missingGrams) / LB).toBeCloseTo(30, 6);
    for (const id of ids.slice(0, 9)) {
      await shop.call('animals.setStage', { id, stage: 'packing' });
      await packed(shop, id, '59.5');
      expect((await setReady(shop, id)).ok).toBe(true);
    }
    const [forgotten = 0] = after;
    await cut(shop, forgotten, { 'whole cuts': '60' });
    const missed = await setReady(shop, forgotten);
    expect(missed.ok).toBe(false);
    if (!missed.ok) expect(Number(missed.problem.with?.missingGrams) / LB).toBeCloseTo(60, 6);
  });

  it('does not take pork and fat that were added to sausage for too much, nor for cuts that are missing', async () => {
    const shop = await freshDesk();
    const [id, short] = [await takeIn(shop), await takeIn(shop)];
    for (const one of [id, short]) await cut(shop, one, { 'whole cuts': '40', trim: '20' });
    await packed(shop, id, '39.8');
    await packed(shop, id, '29.5', 'Breakfast sausage');
    expect((await setReady(shop, id)).ok).toBe(true);
    await packed(shop, short, '30');
    await packed(shop, short, '31', 'Breakfast sausage');
    const asked = await setReady(shop, short);
    expect(asked.ok).toBe(false);
    if (!asked.ok) expect(Number(asked.problem.with?.missingGrams) / LB).toBeCloseTo(10, 6);
  });

  it('says nothing of what goes back as it came', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '60', trim: '30' });
    await shop.call('unprocessed.add', { id, reason: 'the hunter cuts it at home' });
    expect((await shop.call('pickup.get', {}))[0]?.doubts).toBeNull();
  });

  it('does not weigh jerky against the meat that it was made of', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '20' });
    await packed(shop, id, '9', 'Jerky strips');
    expect((await setReady(shop, id)).ok).toBe(true);
  });
});

describe('a cut sheet', () => {
  it('is not asked for until somebody says what the hunter wants; the standard cuts are a choice', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const asked = async () => (await shop.call('animals.get', { id })).ordersStatus;
    const flagged = async () => (await shop.call('rail.get', {})).hooks.map(({ notAsked }) => notAsked);
    expect([await asked(), await flagged()]).toEqual(['not asked', [true]]);
    const { instructions } = await shop.call('animals.get', { id });
    await shop.call('animals.saveOrders', { id, instructions: { ...instructions, standard: true } });
    expect([await asked(), await flagged()]).toEqual(['standard', [false]]);
    await shop.call('animals.saveOrders', { id, instructions: { ...instructions, cutsShare: 0.7 } });
    expect(await asked()).toBe('ordered');
  });
});
