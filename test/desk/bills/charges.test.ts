/** Products by kind, extras, hours and changes of one bill, through the desk; the arithmetic is beside each. */
import { readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { EXAMPLE_PRICES } from '../../../src/desk/supplied/resources.ts';
import { cut, takeIn, type FreshDesk } from '../fresh-desk.ts';
import {
  draftOf,
  figures,
  grind,
  priced,
  pricedShop,
  quotedFigures,
  type PriceInput,
} from '../pricing/priced-shop.ts';

const LB = 453.59237;
const GRINDING = priced('grinding', 'ground', { unit: 'lb', amountMinor: 45 });
const supplied = (): Promise<FreshDesk> => pricedShop(EXAMPLE_PRICES.lb as PriceInput[]);
const deer = (shop: FreshDesk, more = {}) => takeIn(shop, { species: 'white-tail', ...more }, '80');

/** A deer of which 51.7 lb of a product came out of the grinder. */
async function madeOf(shop: FreshDesk, product: string): Promise<number> {
  const id = await deer(shop);
  await cut(shop, id, { trim: '51.80' });
  await grind(shop, { trim: { [id]: '51.80' }, product, count: 52, packed: '51.70' });
  return id;
}

describe('a product and its price', () => {
  it('summer sausage is billed by the supplied price for sausage', async () => {
    const shop = await supplied();
    // $110.00 for a deer; 51.7 lb × $3.25 = $168.025 → $168.03. As grinding alone it was $23.27: about $145 less.
    expect(await draftOf(shop, await madeOf(shop, 'Summer sausage'))).toEqual({
      lines: { 'base-small': 11_000, sausage: 16_803 },
      tax: 0,
      total: 27_803,
    });
  });

  it('a quote for it says $302.56, where spelling alone said $146.03', async () => {
    const shop = await supplied();
    const ask = (grindProduct: string) =>
      shop.call('quotes.calculate', {
        species: 'white-tail', brought: 'skinned', parts: [], stage: 'hanging', typed: '85.3',
        instructions: {
          cutsShare: 0, fat: 'pork-back-fat', targetFat: 0.1, grindProduct, packageGrams: LB, extras: [], note: '',
        },
      }); // prettier-ignore
    const [sausage, plain] = [await ask('Summer sausage'), await ask('Ground')];
    const pounds = sausage.products.find(({ product }) => product === 'Summer sausage')!.grams.mean / LB;
    const [asSausage, asGround] = [quotedFigures(sausage), quotedFigures(plain)];
    expect(asSausage.lines['sausage']).toBe(Math.round(pounds * 325));
    expect(asGround.lines['grind']).toBe(Math.round(pounds * 45));
    expect(asSausage.lines['grind']).toBeUndefined();
    // $302.56 − $146.03 = $156.53 are 55.9 lb at $3.25 − $0.45: the same difference a pound, to a cent of rounding.
    expect(Math.abs(asSausage.total - asGround.total - pounds * 280)).toBeLessThanOrEqual(1);
    expect(Math.abs(30_256 - 14_603 - 55.9 * 280)).toBeLessThanOrEqual(1);
  });

  it('is told in quote, bill and price book where it has none, and never billed as plain grinding', async () => {
    const shop = await pricedShop([GRINDING]);
    const id = await madeOf(shop, 'Summer sausage');
    const page = await shop.call('bills.get', { animalId: id });
    expect(figures(page.draft)).toEqual({ lines: {}, tax: 0, total: 0 });
    expect(page.unpriced).toEqual([{ what: 'product', code: 'summer-sausage', name: 'Summer sausage' }]);
    expect(page.chargeable).toEqual([{ code: 'grinding', label: 'grinding' }]);
    const { gaps } = await shop.call('prices.get', {});
    expect(gaps.unpriced.map(({ name }) => name)).toEqual([
      'Breakfast sausage', 'Italian sausage', 'Bratwurst', 'Summer sausage', 'Snack sticks', 'Jerky strips', 'Ground jerky',
    ]); // prettier-ignore
    expect(await shop.problem('bills.create', { animalId: id })).toMatchObject({ kind: 'conflict', code: 'bill.unpriced', with: { what: 'Summer sausage' } }); // prettier-ignore
    const quote = await shop.call('quotes.calculate', quoteOf({ grindProduct: 'Summer sausage' }));
    expect(quote.price).toBeNull();
  });

  it('may be charged as another line, with initials, and is billed so', async () => {
    const shop = await pricedShop([GRINDING, priced('brats', 'product', { unit: 'lb', amountMinor: 300, products: ['Bratwurst'] })]);
    const id = await madeOf(shop, 'Summer sausage');
    const adjustment = { kind: 'charge as' as const, product: 'summer-sausage', lineCode: 'brats', reason: 'made alike' };
    await shop.call('bills.adjust', { animalId: id, adjustment, by: 'RB' });
    // 51.7 lb × $3.00.
    expect(await draftOf(shop, id)).toEqual({ lines: { brats: 15_510 }, tax: 0, total: 15_510 });
    const page = await shop.call('bills.get', { animalId: id });
    expect(page.unpriced).toEqual([]);
    expect(page.adjustments).toMatchObject([{ kind: 'charge as', productName: 'Summer sausage', line: 'brats', reason: 'made alike', by: 'RB' }]); // prettier-ignore
    await shop.call('bills.create', { animalId: id });
    expect(figures((await shop.call('bills.get', { animalId: id })).bill).total).toBe(15_510);
  }); // prettier-ignore

  it('keeps the sense that one typed text had in books from before kinds', async () => {
    const shop = await pricedShop([GRINDING]);
    const db = new Database(shop.bookPath);
    db.exec(`INSERT INTO price_book SELECT 99, 'Old', '2026-09-02', currency, tax_rule, 0, at, by FROM price_book LIMIT 1;
      INSERT INTO price_line (price_book_id, position, code, label, basis, amount_minor, unit, product, tax_rate) VALUES
        (99, 0, 'kind', 'By its kind', 'product', 325, 'lb', 'Sausage', 0), (99, 1, 'name', 'By its name', 'product', 400, 'lb', 'SUMMER sausage', 0),
        (99, 2, 'code', 'By its code', 'product', 500, 'lb', 'snack-sticks', 0), (99, 3, 'none', 'On no list', 'product', 600, 'lb', 'Grandpa''s links', 0)`);
    db.close();
    const { lines, gaps } = await shop.call('prices.get', {});
    expect(lines.map(({ products, kinds }) => [products, kinds])).toEqual([
      [[], ['sausage']], [['summer-sausage'], []], [['snack-sticks'], []], [["Grandpa's links"], []],
    ]); // prettier-ignore
    expect(gaps.unknown).toEqual([{ line: 'On no list', product: "Grandpa's links" }]);
    expect((await draftOf(shop, await madeOf(shop, 'Summer sausage'))).lines).toEqual({ name: 20_680 });
    expect((await draftOf(shop, await madeOf(shop, 'Bratwurst'))).lines).toEqual({ kind: 16_803 });
    // It is still charged by the line that has just this name, whatever its case.
    expect((await draftOf(shop, await madeOf(shop, "GRANDPA'S links"))).lines).toEqual({ none: 31_020 });
  });
});

describe('a price for what is on no list', () => {
  it('stays its price once the shop puts the product on its list', async () => {
    const shop = await pricedShop([GRINDING, priced('links', 'product', { unit: 'lb', amountMinor: 600, products: ["Grandpa's links"] })]);
    const id = await madeOf(shop, "Grandpa's links");
    expect((await draftOf(shop, id)).lines).toEqual({ links: 31_020 });
    const { code } = await shop.call('products.save', { name: "grandpa's Links", kind: 'sausage' });
    expect((await draftOf(shop, id)).lines).toEqual({ links: 31_020 });
    const { lines, gaps } = await shop.call('prices.get', {});
    expect(lines.find((line) => line.code === 'links')).toMatchObject({ products: [code], kinds: [] });
    expect(gaps.unknown).toEqual([]);
    expect(gaps.unpriced.map((one) => one.code)).not.toContain(code);
  }); // prettier-ignore

  it('is not taken for another product that is called as the code of the first', async () => {
    const shop = await pricedShop([priced('brats', 'product', { unit: 'lb', amountMinor: 300, products: ['Bratwurst'] })]);
    await shop.call('products.save', { code: 'bratwurst', name: 'Brats', kind: 'sausage' });
    const { code } = await shop.call('products.save', { name: 'Bratwurst', kind: 'sausage' });
    expect(code).not.toBe('bratwurst');
    expect((await shop.call('prices.get', {})).lines[0]?.products).toEqual(['bratwurst']);
  }); // prettier-ignore
});

describe('extras and hours', () => {
  it('are counted, several of each, and what is typed freely costs nothing', async () => {
    const shop = await supplied();
    const id = await deer(shop, { instructions: orders({ pricedExtras: { caping: 1, 'boning-out': 2 }, extras: ['rush', 'heart kept'] }) });
    // $110.00 + $50.00 + 2 × $25.00; "rush" in words is a note.
    expect(await draftOf(shop, id)).toEqual({ lines: { 'base-small': 11_000, caping: 5000, 'boning-out': 5000 }, tax: 0, total: 21_000 }); // prettier-ignore
    await shop.call('bills.setExtras', { animalId: id, pricedExtras: { rush: 1 } });
    expect((await draftOf(shop, id)).lines).toEqual({ 'base-small': 11_000, rush: 4000 });
    const { instructions } = await shop.call('animals.get', { id });
    expect(instructions).toMatchObject({ pricedExtras: { rush: 1 }, extras: ['rush', 'heart kept'] });
  }); // prettier-ignore

  it('are not ordered past a bill that stands, which would never charge them; the rest of the orders is', async () => {
    const shop = await supplied();
    const id = await deer(shop, { instructions: orders({ pricedExtras: { caping: 1 } }) });
    const { id: billId, number } = await shop.call('bills.create', { animalId: id, confirmed: true });
    const refused = { kind: 'refused', code: 'bill.stands', with: { number } };
    const others: Record<string, number>[] = [{ caping: 1, rush: 1 }, { caping: 2 }, {}];
    for (const pricedExtras of others)
      expect(await shop.problem('animals.saveOrders', { id, instructions: orders({ pricedExtras }) })).toMatchObject(refused);
    await shop.call('animals.saveOrders', { id, instructions: { ...orders({ pricedExtras: { caping: 1 } }), note: 'thin' } });
    expect((await shop.call('animals.get', { id })).instructions.note).toBe('thin');
    await shop.call('bills.void', { billId, reason: 'rush after all' });
    await shop.call('animals.saveOrders', { id, instructions: orders({ pricedExtras: { caping: 1, rush: 1 } }) });
    expect((await draftOf(shop, id)).lines).toEqual({ 'base-small': 11_000, caping: 5000, rush: 4000 });
  }); // prettier-ignore

  it('that an order from before named by their code are one each; its other words are notes', async () => {
    const shop = await supplied();
    const id = await deer(shop);
    const db = new Database(shop.bookPath);
    db.prepare("INSERT INTO instruction (animal_id, body, at, by) VALUES (?, ?, '2026-10-01T12:00:00.000Z', 'MK')").run(id, JSON.stringify({ ...orders({ extras: ['rush', 'heart kept'] }), pricedExtras: undefined })); // prettier-ignore
    db.close();
    expect((await draftOf(shop, id)).lines).toEqual({ 'base-small': 11_000, rush: 4000 });
    expect((await shop.call('animals.get', { id })).instructions).toMatchObject({ pricedExtras: { rush: 1 }, extras: ['heart kept'] }); // prettier-ignore
  });

  it('on the bill of an animal whose hunter was never asked leave it to be asked', async () => {
    const shop = await supplied();
    const id = await deer(shop);
    const asked = async () => {
      const { orders: written } = await shop.call('animals.getDropOff', { animalId: id });
      const row = (await shop.call('rail.get', {})).hooks.find((one) => one.id === id);
      return [(await shop.call('animals.get', { id })).ordersStatus, row?.notAsked, written === null];
    };
    await shop.call('bills.setExtras', { animalId: id, pricedExtras: { caping: 1 } });
    await shop.call('bills.setExtras', { animalId: id, pricedExtras: { caping: 2 } });
    expect(await asked()).toEqual(['not asked', true, true]);
    expect((await draftOf(shop, id)).lines).toEqual({ 'base-small': 11_000, caping: 10_000 });
    const { hunter } = await shop.call('animals.get', { id });
    expect(
      await shop.call('animals.getLastOrders', { hunterId: hunter.id, species: 'white-tail' }),
    ).toBeNull();
    await shop.call('animals.saveOrders', { id, instructions: orders({ pricedExtras: { caping: 2 } }) });
    await shop.call('bills.setExtras', { animalId: id, pricedExtras: { caping: 1 } });
    expect(await asked()).toEqual(['ordered', false, false]);
    const { instructions } = await shop.call('animals.get', { id });
    expect(instructions).toMatchObject({ pricedExtras: { caping: 1 } });
    expect(instructions).not.toHaveProperty('notAsked');
  });

  it('hours of several lines are billed each by its own, and voided ones are not', async () => {
    const shop = await pricedShop([
      priced('trimming', 'hour', { amountMinor: 3600 }),
      priced('skull', 'hour', { amountMinor: 5001 }),
    ]);
    const animalId = await deer(shop);
    const add = (lineCode: string, minutes: number) => shop.call('bills.addHours', { animalId, lineCode, minutes, by: 'RB' });
    await add('trimming', 90);
    await add('trimming', 20);
    await add('skull', 30);
    const { id } = await add('skull', 600);
    await shop.call('bills.voidHours', { workTimeId: id, reason: 'ten times too much' });
    // 1 h 50 min × $36.00 = $66.00 (1.8333 h: $65.9988 → $66.00); half an hour × $50.01 = $25.005 → $25.01.
    expect(await draftOf(shop, animalId)).toEqual({ lines: { trimming: 6600, skull: 2501 }, tax: 0, total: 9101 });
    const { rows } = await shop.call('bills.getHours', { animalId });
    expect(rows.map(({ lineCode, minutes, by, voided }) => [lineCode, minutes, by, voided?.reason])).toEqual([
      ['trimming', 90, 'RB', undefined], ['trimming', 20, 'RB', undefined], ['skull', 30, 'RB', undefined], ['skull', 600, 'RB', 'ten times too much'],
    ]); // prettier-ignore
    expect((await shop.problem('bills.addHours', { animalId, lineCode: 'tanning', minutes: 5 })).code).toBe('hours.line'); // prettier-ignore
    expect((await shop.problem('bills.voidHours', { workTimeId: id, reason: 'again' })).code).toBe('hours.voided');
  }); // prettier-ignore

  it('minutes are charged exactly: minutes × price / 60, rounded once', async () => {
    const shop = await pricedShop([
      priced('trimming', 'hour', { amountMinor: 6500 }),
      priced('boning', 'hour', { amountMinor: 99 }),
    ]);
    const animalId = await deer(shop);
    // 50 min × $65.00 = $54.1666… → $54.17; 10 min × $0.99 = $0.165 → $0.17: a sixth of an hour is no decimal.
    expect((await draftOf(shop, animalId, { minutes: { trimming: 50, boning: 10 } })).lines).toEqual({
      trimming: 5417,
      boning: 17,
    });
  });

  it('for which the prices have no line any more are told, not lost in silence', async () => {
    const shop = await supplied();
    const animalId = await deer(shop, { instructions: orders({ pricedExtras: { caping: 1 } }) });
    await shop.call('bills.addHours', { animalId, lineCode: 'extra-trimming', minutes: 60 });
    await shop.call('prices.save', { name: 'Flat', validFrom: '2026-10-01', lines: [priced('flat', 'animal', { amountMinor: 9000 })] });
    const { unpriced } = await shop.call('bills.get', { animalId });
    expect(unpriced).toEqual([
      { what: 'extra', code: 'caping', name: 'caping' },
      { what: 'hours', code: 'extra-trimming', name: 'extra-trimming' },
    ]);
  }); // prettier-ignore

  it('whose lines are for other game are told on bill and quote, and asked about', async () => {
    const shop = await pricedShop([
      priced('flat', 'animal', { amountMinor: 9000 }),
      priced('caping', 'extra', { label: 'Caping', amountMinor: 5000, species: ['elk'] }),
      priced('skull', 'extra', { label: 'Skull', amountMinor: 3000, brought: ['skinned'] }),
      priced('trimming', 'hour', { label: 'Trimming', amountMinor: 3600, brought: ['whole'] }),
    ]);
    const instructions = orders({ pricedExtras: { caping: 1, skull: 1 } });
    const animalId = await deer(shop, { instructions });
    await shop.call('bills.addHours', { animalId, lineCode: 'trimming', minutes: 60 });
    const extra = { what: 'extra', code: 'caping', name: 'Caping' };
    const page = await shop.call('bills.get', { animalId });
    expect(figures(page.draft).lines).toEqual({ flat: 9000, skull: 3000 });
    expect(page.unpriced).toEqual([extra, { what: 'hours', code: 'trimming', name: 'Trimming' }]);
    expect((await shop.problem('bills.create', { animalId })).code).toBe('bill.unpriced');
    const quote = await shop.call('quotes.calculate', { ...quoteOf({}), instructions });
    expect(quote.price?.unpriced).toEqual([extra]);
  });
});

describe('what a bill leaves the price book for', () => {
  const LINES = [
    priced('flat', 'animal', { amountMinor: 10_000 }),
    priced('bags', 'extra', { amountMinor: 5000, taxRate: 0.06 }),
  ];

  it('stands on the bill with reason and initials, and is frozen with it', async () => {
    const shop = await pricedShop(LINES);
    const animalId = await deer(shop, { instructions: orders({ pricedExtras: { bags: 1 } }) });
    const adjust = (adjustment: CallInput<'bills.adjust'>['adjustment']) => shop.call('bills.adjust', { animalId, adjustment, by: 'RB' });
    await adjust({ kind: 'free line', label: 'Cooler box', amountMinor: 2000, taxRate: 0, reason: 'left his' });
    await adjust({ kind: 'other price', lineCode: 'flat', amountMinor: 9000, reason: 'as promised' });
    const { id } = await adjust({ kind: 'amount off', amountMinor: 1600, reason: 'waited long' });
    // $90 + $50 at 6 % + $20 = $160; $16 off, a tenth: $5 of it off the taxed $50. 6 % of $45 = $2.70; $144 + $2.70.
    const { draft } = await shop.call('bills.get', { animalId });
    expect(draft).toMatchObject({ subtotalMinor: 14_400, taxMinor: 270, totalMinor: 14_670 });
    expect(draft?.lines.map(({ label, amountMinor }) => [label, amountMinor])).toEqual([
      ['flat (price changed)', 9000], ['bags', 5000], ['Cooler box', 2000], ['Discount: waited long', -1600],
    ]); // prettier-ignore
    await shop.call('bills.create', { animalId, confirmed: true });
    expect((await shop.problem('bills.voidAdjustment', { adjustmentId: id, reason: 'no' })).code).toBe('bill.stands');
    expect((await shop.problem('bills.adjust', { animalId, adjustment: { kind: 'amount off', amountMinor: 1, reason: 'x' } })).code).toBe('bill.stands'); // prettier-ignore
    const { bill } = await shop.call('bills.get', { animalId });
    expect(bill).toMatchObject({ subtotalMinor: 14_400, taxMinor: 270, totalMinor: 14_670 });
    await shop.call('bills.void', { billId: bill!.id, reason: 'no discount after all' });
    await shop.call('bills.voidAdjustment', { adjustmentId: id, reason: 'he paid late', by: 'MK' });
    const after = await shop.call('bills.get', { animalId });
    expect(after.draft?.totalMinor).toBe(16_300);
    expect(after.adjustments.at(-1)).toMatchObject({ by: 'RB', reason: 'waited long', voided: { reason: 'he paid late', by: 'MK' } }); // prettier-ignore
  }); // prettier-ignore

  it('is refused where it could not be charged', async () => {
    const shop = await pricedShop(LINES);
    const animalId = await deer(shop);
    const refused = async (adjustment: CallInput<'bills.adjust'>['adjustment']) =>
      (await shop.problem('bills.adjust', { animalId, adjustment })).code;
    expect(await refused({ kind: 'other price', lineCode: 'tanning', amountMinor: 1, reason: 'x' })).toBe('adjustment.line'); // prettier-ignore
    expect(await refused({ kind: 'charge as', product: 'bratwurst', lineCode: 'flat', reason: 'x' })).toBe('adjustment.line'); // prettier-ignore
    expect(await refused({ kind: 'amount off', amountMinor: 0, reason: 'x' })).toBe('adjustment.amount');
    expect(await refused({ kind: 'percent off', rate: 0.1, reason: ' ' })).toBe('text.needed');
    // What its kind has no place for would be lost.
    expect(await refused({ kind: 'amount off', amountMinor: 100, label: 'Ribs', reason: 'x' })).toBe('adjustment.not-of-kind'); // prettier-ignore
    expect(await refused({ kind: 'percent off', rate: 0.1, amountMinor: 100, reason: 'x' })).toBe('adjustment.not-of-kind'); // prettier-ignore
    await shop.call('bills.adjust', {
      animalId,
      adjustment: { kind: 'percent off', rate: 0.7, reason: 'x' },
    });
    expect(await refused({ kind: 'percent off', rate: 0.31, reason: 'x' })).toBe('price.discount-over-all');
  });

  it('goes with a quote into the bill of the animal, and beside it', async () => {
    const shop = await pricedShop(LINES);
    const adjustments = [
      { kind: 'percent off' as const, rate: 0.1, reason: 'comes each year' },
      { kind: 'other price' as const, lineCode: 'flat', amountMinor: 8000, reason: 'small' },
    ];
    const quoted = await shop.call('quotes.save', {
      ...quoteOf({}),
      adjustments,
      hunterName: 'Ada',
      by: 'MK',
    });
    // $80 less a tenth.
    const { answer, asked } = await shop.call('quotes.get', { id: quoted.id });
    expect(quotedFigures(answer).total).toBe(7200);
    expect(asked.adjustments).toEqual(adjustments);
    const animalId = await deer(shop, { quoteId: quoted.id });
    const page = await shop.call('bills.get', { animalId });
    expect(page.draft?.totalMinor).toBe(7200);
    expect(page.adjustments).toMatchObject([{ kind: 'percent off', by: 'MK', quote: quoted.name }, { kind: 'other price', by: 'MK' }]); // prettier-ignore
    expect(page.quote?.lines.map(({ differenceMinor }) => differenceMinor)).toEqual([0, 0]);
  });

  it('leaves nothing of it in the book once the details of the hunter are removed', async () => {
    const shop = await pricedShop(LINES);
    const animalId = await deer(shop);
    const MARK = 'Thistlewood';
    for (const adjustment of [
      {
        kind: 'free line' as const,
        label: `For ${MARK}`,
        amountMinor: 100,
        taxRate: 0,
        reason: `${MARK} asked`,
      },
      { kind: 'amount off' as const, amountMinor: 100, reason: `${MARK} waited` },
    ])
      await shop.call('bills.adjust', { animalId, adjustment });
    const { id } = await shop.call('bills.create', { animalId, confirmed: true });
    await shop.call('bills.void', { billId: id, reason: 'wrong' });
    await shop.call('bills.void', { billId: (await shop.call('bills.create', { animalId, confirmed: true })).id, reason: 'wrong' }); // prettier-ignore
    const { hunter } = await shop.call('animals.get', { id: animalId });
    await shop.call('animals.dispose', { id: animalId, what: 'all', how: 'landfill', reason: 'spoiled' });
    expect(readFileSync(shop.bookPath).includes(MARK) || readFileSync(`${shop.bookPath}-wal`).includes(MARK)).toBe(true); // prettier-ignore
    shop.wait(6 * 366 * 86_400);
    await shop.call('shop.trustClock', {});
    await shop.call('hunters.removeDetails', { id: hunter.id, reason: 'asked by letter' });
    const db = new Database(shop.bookPath, { readonly: true });
    const left = db.prepare<[], string>('SELECT label FROM bill_line UNION SELECT reason FROM adjustment UNION SELECT label FROM adjustment').pluck().all(); // prettier-ignore
    db.close();
    expect(left.filter((text) => text.includes(MARK))).toEqual([]);
    expect(left).toContain('flat');
  });
});

function orders(more: { pricedExtras?: Record<string, number>; extras?: string[]; grindProduct?: string }) {
  return { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '', ...more }; // prettier-ignore
}
function quoteOf(more: { grindProduct?: string }): CallInput<'quotes.calculate'> {
  return {
    species: 'white-tail',
    brought: 'skinned',
    stage: 'hanging',
    typed: '80',
    instructions: orders(more),
  };
}
