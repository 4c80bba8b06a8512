/** Bills on weighed amounts, payments, and handing over: the arithmetic written out beside each. */
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

type Lines = CallInput<'prices.save'>['lines'];
const line = (more: Partial<Lines[number]> & Pick<Lines[number], 'code' | 'basis'>): Lines[number] => ({
  label: more.code, amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null,
  taxRate: 0, ...more,
}); // prettier-ignore

const PRICES: Lines = [
  line({ code: 'hanging', basis: 'hanging', unit: 'lb', amountMinor: 95 }),
  line({ code: 'skinning', basis: 'animal', amountMinor: 3500, brought: ['whole'] }),
  line({ code: 'grind', basis: 'ground', unit: 'lb', amountMinor: 45 }),
  line({
    code: 'sausage',
    basis: 'product',
    unit: 'lb',
    amountMinor: 275,
    products: ['Breakfast sausage'],
    taxRate: 0.06,
  }),
  line({ code: 'back fat', basis: 'fat', unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }),
  line({ code: 'cape', basis: 'extra', amountMinor: 6000 }),
];

async function pricedShop(lines: Lines = PRICES): Promise<FreshDesk> {
  const shop = await freshDesk();
  await shop.call('prices.save', { name: 'Prices', validFrom: '2026-08-01', lines });
  return shop;
}

/** An elk of 400 lb hanging; 100 lb of trim ground with 14.5 lb of back fat, 113.9 lb out in 114 packages. */
async function groundElk(shop: FreshDesk, product = 'Ground'): Promise<number> {
  const id = await takeIn(shop);
  await cut(shop, id, { trim: '100.00' });
  await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
  const asked = { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.125, product };
  const { id: batchId } = await shop.call('grinder.start', asked);
  const [lot] = await shop.call('fat.listLots', {});
  await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '100.00' });
  await shop.call('grinder.weighIn', { batchId, fatLotId: lot?.id ?? 0, part: 'fat added', typed: '14.50' });
  await shop.call('grinder.pack', { batchId, product, count: 114, typed: '113.90' });
  await shop.call('grinder.finish', { batchId });
  return id;
}
const amounts = (lines: readonly { code: string; amountMinor: number }[]) =>
  Object.fromEntries(lines.map(({ code, amountMinor }) => [code, amountMinor]));

describe('a bill', () => {
  it('charges what was weighed, line by line', async () => {
    const shop = await pricedShop();
    const id = await groundElk(shop);
    const { draft } = await shop.call('bills.get', { animalId: id });
    // 400 lb × $0.95 = $380.00; 113.9 lb × $0.45 = $51.255, half a cent up: $51.26; 14.5 lb × $1.99 = $28.855 → $28.86.
    expect(amounts(draft?.lines ?? [])).toEqual({ hanging: 38_000, grind: 5126, 'back fat': 2886 });
    expect(draft).toMatchObject({ subtotalMinor: 46_012, taxMinor: 0, totalMinor: 46_012 });
  });

  it('charges a product by its own price and not as grind too, with its tax', async () => {
    const shop = await pricedShop();
    const id = await groundElk(shop, 'Breakfast sausage');
    await shop.call('bills.setExtras', { animalId: id, pricedExtras: { cape: 1 } });
    const { draft } = await shop.call('bills.get', { animalId: id });
    // 113.9 × $2.75 = $313.225 → $313.23, tax 6 % of it $18.7938 → $18.79; cape $60.
    expect(amounts(draft?.lines ?? [])).toEqual({
      hanging: 38_000,
      sausage: 31_323,
      'back fat': 2886,
      cape: 6000,
    });
    expect(draft?.taxMinor).toBe(1879);
    expect(draft?.totalMinor).toBe(38_000 + 31_323 + 2886 + 6000 + 1879);
  });

  it('charges grind that was only packed at the table', async () => {
    const shop = await pricedShop();
    const id = await takeIn(shop, { detail: 'quick' }, '80');
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'packed',
      part: 'package',
      product: 'Ground',
      count: 30,
      typed: '30.20',
    });
    const { draft } = await shop.call('bills.get', { animalId: id });
    // 80 × $0.95 = $76; 30.2 × $0.45 = $13.59.
    expect(amounts(draft?.lines ?? [])).toEqual({ hanging: 7600, grind: 1359 });
  });

  it('shares a pooled batch by the lean put in, to the cent of each owner', async () => {
    const shop = await pricedShop();
    const ids = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Bo Birch' } })];
    for (const [i, trim] of ['20.00', '10.00'].entries()) await cut(shop, ids[i] ?? 0, { trim });
    const { id: batchId } = await shop.call('grinder.start', {
      animals: ids.map((id) => ({ id })), fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    for (const [i, typed] of ['20.00', '10.00'].entries())
      await shop.call('grinder.weighIn', { batchId, animalId: ids[i] ?? 0, part: 'trim', typed });
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 30, typed: '29.70' });
    await shop.call('grinder.finish', { batchId });
    const grind = async (id: number) =>
      amounts((await shop.call('bills.get', { animalId: id })).draft?.lines ?? []).grind;
    // 29.7 lb: two thirds are 19.8 lb × $0.45 = $8.91, one third 9.9 lb × $0.45 = $4.455 → $4.46.
    expect([await grind(ids[0] ?? 0), await grind(ids[1] ?? 0)]).toEqual([891, 446]);
  });

  it('is frozen with its prices and weights, and numbered without gaps', async () => {
    const shop = await pricedShop();
    const id = await groundElk(shop);
    expect(await shop.call('bills.create', { animalId: id })).toMatchObject({ number: 1 });
    await shop.call('prices.save', {
      name: 'Dearer',
      validFrom: '2026-09-01',
      lines: PRICES.map((one) => ({
        ...one,
        amountMinor: one.amountMinor === null ? null : one.amountMinor * 2,
      })),
    });
    const { bill, draft } = await shop.call('bills.get', { animalId: id });
    expect(bill?.totalMinor).toBe(46_012);
    expect(draft?.totalMinor).toBeGreaterThan(90_000);
    expect(await shop.problem('bills.create', { animalId: id })).toMatchObject({
      kind: 'refused',
      code: 'bill.stands',
    });
    await shop.call('bills.void', { billId: bill?.id ?? 0, reason: 'wrong prices' });
    expect(await shop.call('bills.create', { animalId: id })).toMatchObject({ number: 2 });
    const after = await shop.call('bills.get', { animalId: id });
    expect(
      after.voidedBills.map(({ number, totalMinor, voided }) => [number, totalMinor, voided?.reason]),
    ).toEqual([[1, 46_012, 'wrong prices']]);
  });

  it('takes a discount in money off, and refuses a bill below nothing', async () => {
    const shop = await pricedShop([
      line({ code: 'flat', basis: 'animal', amountMinor: 9000 }),
      line({ code: 'veteran', basis: 'extra', amountMinor: -1000 }),
      line({ code: 'staff', basis: 'extra', amountMinor: -20_000 }),
    ]);
    const id = await takeIn(shop);
    const order = (code: string) =>
      shop.call('bills.setExtras', { animalId: id, pricedExtras: { [code]: 1 } });
    await order('veteran');
    // $90.00 − $10.00.
    expect((await shop.call('bills.get', { animalId: id })).draft?.totalMinor).toBe(8000);
    await order('staff');
    expect(await shop.problem('bills.create', { animalId: id, confirmed: true })).toMatchObject({
      kind: 'refused',
      code: 'bill.below-zero',
    });
  });

  it('asks before it leaves out what is not ground, and refuses without the weight that it is charged by', async () => {
    const shop = await pricedShop();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100.00' });
    expect(await shop.problem('bills.create', { animalId: id })).toMatchObject({
      kind: 'conflict',
      code: 'bill.not-weighed',
      with: { lack: 'trim-waiting' },
    });
    expect(await shop.call('bills.create', { animalId: id, confirmed: true })).toMatchObject({ number: 1 });
    const bare = await takeIn(shop, { brought: 'whole' }, null);
    expect(await shop.problem('bills.create', { animalId: bare, confirmed: true })).toMatchObject({
      code: 'bill.no-hanging',
    });
  });

  it('stands beside its quote line by line, and the differences add up to the cent', async () => {
    const shop = await pricedShop();
    const instructions = {
      cutsShare: 0.4,
      fat: 'pork-back-fat',
      targetFat: 0.125,
      grindProduct: 'Ground',
      packageGrams: 453.59237,
      extras: [],
      note: '',
    };
    const { id: quoteId } = await shop.call('quotes.save', {
      species: 'elk',
      brought: 'skinned',
      stage: 'hanging',
      typed: '380',
      instructions,
      hunterName: 'Dana',
    });
    const id = await takeIn(shop, { quoteId, instructions });
    await cut(shop, id, { trim: '100.00' });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    const { quote, bill } = await shop.call('bills.get', { animalId: id });
    const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
    expect(sum(quote?.lines.map(({ differenceMinor }) => differenceMinor) ?? [])).toBe(
      (bill?.totalMinor ?? 0) - (quote?.totalMinor ?? 0),
    );
    // 20 lb more hung than was told: 20 × $0.95.
    expect(quote?.lines.find(({ code }) => code === 'hanging')).toMatchObject({
      quotedMinor: 36_100,
      billedMinor: 38_000,
      differenceMinor: 1900,
    });
    // Quoted and not done: the grind.
    expect(quote?.lines.find(({ code }) => code === 'grind')?.billedMinor).toBe(0);
  });
});

describe('payments', () => {
  it('are deposits, parts and refunds, and may be taken back', async () => {
    const shop = await pricedShop();
    const id = await takeIn(shop);
    await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '100' });
    await cut(shop, id, { bone: '90' });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    const due = async () => (await shop.call('bills.get', { animalId: id })).dueMinor;
    // $380.00 − $100.00.
    expect(await due()).toBe(28_000);
    const part = await shop.call('bills.pay', {
      animalId: id,
      kind: 'payment',
      method: 'card',
      typed: '$80.50',
    });
    expect(await due()).toBe(19_950);
    expect(
      await shop.problem('bills.pay', { animalId: id, kind: 'payment', method: 'card', typed: '200' }),
    ).toMatchObject({ kind: 'conflict', code: 'payment.over', with: { dueMinor: 19_950 } });
    await shop.call('bills.pay', {
      animalId: id,
      kind: 'payment',
      method: 'card',
      typed: '200',
      confirmed: true,
    });
    expect(await due()).toBe(-50);
    await shop.call('bills.pay', { animalId: id, kind: 'refund', method: 'cash', typed: '0.50' });
    expect(await due()).toBe(0);
    await shop.call('bills.voidPayment', { paymentId: part.id, reason: 'card refused' });
    expect(await due()).toBe(8050);
    expect(await shop.problem('bills.voidPayment', { paymentId: part.id, reason: 'again' })).toMatchObject({
      code: 'payment.voided',
    });
    expect(
      await shop.problem('bills.pay', { animalId: id, kind: 'refund', method: 'cash', typed: '5000' }),
    ).toMatchObject({ code: 'payment.refund' });
    expect(
      await shop.problem('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '0' }),
    ).toMatchObject({ code: 'payment.zero' });
  });

  it('must be in before the animal goes, unless somebody signs for it', async () => {
    const shop = await pricedShop();
    const id = await takeIn(shop);
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect(await shop.problem('pickup.release', { id, to: 'Dana' })).toMatchObject({
      kind: 'refused',
      code: 'release.no-bill',
    });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    expect(await shop.problem('pickup.release', { id, to: 'Dana' })).toMatchObject({
      code: 'release.unpaid',
      with: { dueMinor: 38_000 },
    });
    await shop.call('pickup.release', { id, to: 'Dana', unpaidBy: 'MK' });
    const other = await takeIn(shop);
    await shop.call('bills.create', { animalId: other, confirmed: true });
    await shop.call('bills.pay', { animalId: other, kind: 'payment', method: 'cash', typed: '380' });
    await shop.call('animals.setStage', {
      id: other,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: other, to: 'Dana' });
  });

  it('are not asked for where only the example prices are in force', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect(await shop.call('pickup.release', { id, to: 'Dana' })).toEqual({ id });
  });
});
