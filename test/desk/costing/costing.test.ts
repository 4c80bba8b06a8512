/** What a pound costs and brings, tried prices and missed quotes: the arithmetic written out beside each. */
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CallInput, CallOutput } from '../../../src/bridge/contract.ts';
import { outside } from '../../../src/desk/quotes/kept-quotes.ts';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

type Lines = CallInput<'prices.save'>['lines'];
const line = (more: Partial<Lines[number]> & Pick<Lines[number], 'code' | 'basis'>): Lines[number] => ({
  label: more.code, amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null,
  taxRate: 0, ...more,
}); // prettier-ignore

const PRICES: Lines = [
  line({ code: 'hanging', basis: 'hanging', unit: 'lb', amountMinor: 95 }),
  line({ code: 'grind', basis: 'ground', unit: 'lb', amountMinor: 45 }),
  line({ code: 'back fat', basis: 'fat', unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }),
  line({ code: 'cape', basis: 'extra', amountMinor: 6000 }),
];

const FIGURES: CallInput<'costing.save'> = {
  wagePerHour: '$20',
  overheadPerHour: '10.00',
  packagingPerPackage: '0.25',
  wantedMargin: 0.2,
  services: {
    cutting: { minutesPerAnimal: '30', minutesPerUnit: '0.5', packageSize: '1 lb' },
    grinding: { minutesPerAnimal: '12', minutesPerUnit: '0.6', packageSize: '1' },
    products: { minutesPerAnimal: '60', minutesPerUnit: '2', packageSize: '16 oz' },
  },
};

async function pricedShop(lines: Lines = PRICES): Promise<FreshDesk> {
  const shop = await freshDesk();
  await shop.call('prices.save', { name: 'Prices', validFrom: '2026-08-01', lines });
  return shop;
}

/** 400 lb hanging: 140 lb of steaks in packages, 100 lb of trim ground with 14.5 lb of fat at $1.60 to 113.9 lb. */
async function billedElk(shop: FreshDesk, product = 'Ground', extras: string[] = []): Promise<number> {
  const id = await takeIn(shop);
  await cut(shop, id, { 'whole cuts': '140', trim: '100.00' });
  await shop.call('table.weigh', {
    animalId: id, stage: 'packed', part: 'package', product: 'Steaks', count: 140, typed: '140.00',
  }); // prettier-ignore
  await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40', costTyped: '1.60', costUnit: 'lb' });
  const asked = { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.125, product };
  const { id: batchId } = await shop.call('grinder.start', asked);
  const lot = (await shop.call('fat.listLots', {})).find(({ leftGrams }) => leftGrams > 15_000);
  await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '100.00' });
  await shop.call('grinder.weighIn', { batchId, fatLotId: lot?.id ?? 0, part: 'fat added', typed: '14.50' });
  await shop.call('grinder.pack', { batchId, product, count: 114, typed: '113.90' });
  await shop.call('grinder.finish', { batchId });
  if (extras.length > 0)
    await shop.call('bills.setExtras', {
      animalId: id,
      pricedExtras: Object.fromEntries(extras.map((code) => [code, 1])),
    });
  await shop.call('bills.create', { animalId: id });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  return id;
}

type Code = CallOutput<'costing.get'>['services'][number]['code'];
const service = (look: CallOutput<'costing.get'>, code: Code) => {
  const found = look.services.find((one) => one.code === code);
  if (!found) throw new Error(`No service ${code}`);
  return found;
};

describe('the cost per pound', () => {
  it('of cutting, from the weighings and the running costs', async () => {
    const shop = await pricedShop();
    await billedElk(shop);
    await shop.call('costing.save', FIGURES);
    const cutting = service(await shop.call('costing.get', {}), 'cutting');
    // 30 min + 400 lb × 0.5 min = 230 min at $30 an hour: $115; 140 packages at $0.25: $35; for 140 + 100 lb of meat.
    expect(cutting.hours).toBeCloseTo(230 / 60, 9);
    expect(cutting.packages).toBe(140);
    expect(cutting.costPerJob).toBeCloseTo(15_000, 6);
    expect(cutting.costPerLb).toBeCloseTo(62.5, 9);
    expect(cutting.costPerKg).toBeCloseTo(62.5 / 0.45359237, 9);
    expect(cutting.finishedShare).toBeCloseTo(0.6, 9);
    // Charged: 400 lb × $0.95 = $380 on 240 lb of meat; $230 of it is left.
    expect(cutting.fee).toEqual({ service: expect.closeTo(38_000 / 240, 9), fat: 0, bills: 1 });
    expect(cutting.margin).toBeCloseTo(230 / 380, 9);
    // $0.625 to break even; that is $0.78125 when a fifth is to be left.
    expect(cutting.breakEven).toBeCloseTo(62.5, 9);
    expect(cutting.wanted).toBeCloseTo(78.125, 9);
    expect(cutting.measured.map(({ figure, from }) => [figure, from])).toEqual([
      ['received', 1],
      ['shrink', 1],
      ['packedShare', 1],
    ]);
  });

  it('of grinding, with the bought fat on both sides', async () => {
    const shop = await pricedShop();
    await billedElk(shop);
    await shop.call('costing.save', FIGURES);
    const grinding = service(await shop.call('costing.get', {}), 'grinding');
    // 12 + 100 × 0.6 = 72 min: $36; 114 packages: $28.50; 14.5 lb of fat at $1.60: $23.20; in all $87.70 on 113.9 lb.
    expect(grinding.costPerJob).toBeCloseTo(8770, 6);
    expect(grinding.cost).toBeCloseTo(8770 / 113.9, 9);
    expect(grinding.parts).toEqual({
      wages: expect.closeTo(2400 / 113.9, 9),
      overhead: expect.closeTo(1200 / 113.9, 9),
      packaging: expect.closeTo(2850 / 113.9, 9),
      fat: expect.closeTo(2320 / 113.9, 9),
    });
    // $51.26 for grinding and $28.86 for the fat: $7.58 too little.
    expect(grinding.fee?.service).toBeCloseTo(5126 / 113.9, 9);
    expect(grinding.fee?.fat).toBeCloseTo(2886 / 113.9, 9);
    expect(grinding.margin).toBeCloseTo((8012 - 8770) / 8012, 9);
    // A tenth more of 60 min is 6 min at $30 an hour, $3; a tenth more of the wage is $2.40.
    expect(grinding.swings[0]?.input).toBe('minutesPerKg');
    expect(grinding.swings[0]?.high).toBeCloseTo((8770 + 300) / 113.9, 9);
    expect(grinding.swings.find(({ input }) => input === 'wagePerHour')?.low).toBeCloseTo(
      (8770 - 240) / 113.9,
      9,
    );
  });

  it('is an assumption, without a fee, before anything was weighed or billed', async () => {
    const shop = await pricedShop();
    const look = await shop.call('costing.get', {});
    expect(look).toMatchObject({ own: false, billed: 0, species: [], income: [] });
    for (const one of look.services) {
      expect(one).toMatchObject({ fee: null, margin: null });
      expect(one.measured.every(({ from }) => from === 0)).toBe(true);
      expect(one.cost).toBeGreaterThan(0);
    }
  });

  it("per kilogram equals that per pound, whatever the shop's unit", async () => {
    const shop = await pricedShop();
    await billedElk(shop);
    await shop.call('costing.save', FIGURES);
    const before = await shop.call('costing.get', {});
    await shop.call('shop.saveSettings', { changes: { unit: 'kg' } });
    const after = await shop.call('costing.get', {});
    for (const { code, costPerKg, cost, margin } of after.services) {
      const pounds = service(before, code);
      expect(costPerKg).toBeCloseTo(pounds.costPerKg, 6);
      expect(cost).toBeCloseTo(pounds.cost / 0.45359237, 6);
      if (margin !== null) expect(margin).toBeCloseTo(pounds.margin ?? NaN, 9);
    }
  });
});

describe('the income of a season', () => {
  it('by species, by service, and bought fat compared with fat charges', async () => {
    const shop = await pricedShop();
    await billedElk(shop, 'Ground', ['cape']);
    await shop.call('costing.save', FIGURES);
    const look = await shop.call('costing.get', {});
    // $380 + $51.26 + $28.86 + $60. Cost: $150 for cutting, $36 + $28.50 for grinding, $23.20 of fat.
    expect(look.species).toEqual([
      { code: 'elk', name: 'Elk', animals: 1, incomeMinor: 52_012, cost: expect.closeTo(23_770, 3) },
    ]);
    expect(look.income.map(({ code, minor }) => [code, minor])).toEqual([
      ['cutting', 38_000],
      ['grinding', 5126],
      ['fat', 2886],
      ['extras', 6000],
    ]);
    expect(look.fat).toEqual({
      usedGrams: expect.closeTo(14.5 * 453.59237, 6),
      unpricedGrams: 0,
      cost: expect.closeTo(2320, 6),
      chargedMinor: 2886,
    });
  });

  it('counts the bought fat of a batch that is not finished, as the fat of the season does', async () => {
    const shop = await pricedShop();
    await billedElk(shop);
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '50.00' });
    const { id: batchId } = await shop.call('grinder.start', {
      ...{ animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.125, product: 'Ground' },
    });
    const lot = (await shop.call('fat.listLots', {})).find(({ leftGrams }) => leftGrams > 7000);
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot?.id ?? 0, part: 'fat added', typed: '5.50' });
    const [costs, fat] = [await shop.call('costing.get', {}), await shop.call('season.fat', {})];
    expect(costs.fat.usedGrams).toBeCloseTo(20 * 453.59237, 6);
    expect(costs.fat.usedGrams).toBeCloseTo(fat.saved.boughtGrams, 6);
  });

  it('excludes voided bills', async () => {
    const shop = await pricedShop();
    const id = await billedElk(shop);
    const { bill } = await shop.call('bills.get', { animalId: id });
    await shop.call('bills.void', { billId: bill?.id ?? 0, reason: 'wrong' });
    expect(await shop.call('costing.get', {})).toMatchObject({ billed: 0, income: [] });
    expect((await shop.call('costing.tryPrices', { lines: PRICES })).animals).toBe(0);
  });
});

describe('the cost figures', () => {
  it('are returned as saved, with an audit of changes', async () => {
    const shop = await pricedShop();
    await shop.call('costing.save', FIGURES);
    const { own, figures } = await shop.call('costing.get', {});
    expect(own).toBe(true);
    expect(figures).toMatchObject({ wagePerHour: 2000, overheadPerHour: 1000, packagingPerPackage: 25 });
    expect(figures.services.grinding.minutesPerKg).toBeCloseTo(0.6 / 0.45359237, 9);
    expect(figures.services.products.packageGrams).toBeCloseTo(453.59237, 9);
    // The settings that every screen reads do not carry them.
    expect((await shop.call('shop.get', {})).settings).not.toHaveProperty('costing');
  });

  it.each([
    ['wagePerHour', { wagePerHour: 'much' }, 'money.unreadable'],
    ['overheadPerHour', { overheadPerHour: '-3' }, 'money.negative'],
    ['wantedMargin', { wantedMargin: 1 }, 'margin.range'],
    [
      'services.cutting.minutesPerAnimal',
      {
        services: {
          ...FIGURES.services,
          cutting: { ...FIGURES.services.cutting, minutesPerAnimal: 'an hour' },
        },
      },
      'minutes.range',
    ],
    [
      'services.grinding.packageSize',
      { services: { ...FIGURES.services, grinding: { ...FIGURES.services.grinding, packageSize: '0.01' } } },
      'package.size',
    ],
  ])('name the field %s that cannot be read', async (field, more, code) => {
    const shop = await pricedShop();
    expect(await shop.problem('costing.save', { ...FIGURES, ...more })).toMatchObject({ code, field });
    expect((await shop.call('costing.get', {})).own).toBe(false);
  });
});

describe('trying prices', () => {
  it('reprices last season line by line, and stores nothing', async () => {
    const shop = await pricedShop();
    await billedElk(shop);
    const dearer = PRICES.map((one) => (one.code === 'grind' ? { ...one, amountMinor: 60 } : one));
    const tried = await shop.call('costing.tryPrices', { lines: dearer });
    // 113.9 lb × $0.60 = $68.34 instead of $51.26: $17.08 more.
    expect(tried).toMatchObject({ season: 2026, animals: 1, thenMinor: 46_012, nowMinor: 46_012 + 1708 });
    expect(tried.lines.find(({ code }) => code === 'grind')).toMatchObject({
      thenMinor: 5126,
      nowMinor: 6834,
    });
    expect(tried.species).toMatchObject([{ code: 'elk', animals: 1, thenMinor: 46_012, nowMinor: 47_720 }]);
    expect(tried.most).toMatchObject([{ thenMinor: 46_012, nowMinor: 47_720 }]);
    expect((await shop.call('prices.get', {})).lines.find(({ code }) => code === 'grind')?.amountMinor).toBe(
      45,
    );
  });

  it('charges nothing for a product that no line covers, and says so and what it cannot tell apart', async () => {
    const own = line({
      code: 'sausage',
      basis: 'product',
      unit: 'lb',
      amountMinor: 275,
      products: ['Breakfast sausage'],
    });
    const shop = await pricedShop([...PRICES, own]);
    const animalId = await billedElk(shop, 'Breakfast sausage');
    const tried = await shop.call('costing.tryPrices', { lines: PRICES });
    // 113.9 lb: $313.23 as sausage (half a cent up); as plain grind it is never charged.
    expect(tried.thenMinor - tried.nowMinor).toBe(31_323);
    expect(tried.gaps.unpriced.map(({ name }) => name)).toContain('Breakfast sausage');
    const other = line({
      code: 'sticks',
      basis: 'product',
      unit: 'lb',
      amountMinor: 595,
      products: ['Snack sticks'],
    });
    const notSplit = async () =>
      (await shop.call('costing.tryPrices', { lines: [...PRICES, own, other] })).notSplit;
    expect(await notSplit()).toEqual([]);
    // A bill from before kinds told those products apart that had a price then.
    const { bill } = await shop.call('bills.get', { animalId });
    await shop.call('bills.void', { billId: bill?.id ?? 0, reason: 'made again' });
    const db = new Database(shop.bookPath);
    db.prepare(`INSERT INTO bill SELECT id + 1, number + 1, animal_id, price_book_id, quote_id, json_remove(amounts, '$.kinds'), currency, subtotal_minor,
      tax_minor, total_minor, billed_on, at, by FROM bill WHERE id = ?`).run(bill?.id); // prettier-ignore
    db.close();
    expect(await notSplit()).toEqual(['Snack sticks']);
  });

  const cents = fc.integer({ min: 1, max: 5000 });
  const tax = fc.constantFrom(0, 0.0625, 0.08875);
  const anyLines = fc.record({ cents: fc.tuple(cents, cents, cents, cents, cents), tax, off: fc.constantFrom(-0.1, 0.035) }).map(
    ({ cents: [a, b, c, d, e], tax: taxRate, off }): Lines => [
      line({ code: 'hanging', basis: 'hanging', unit: 'lb', amountMinor: a, taxRate }),
      line({ code: 'grind', basis: 'ground', unit: 'kg', amountMinor: b }),
      line({ code: 'fat', basis: 'fat', unit: 'lb', amountMinor: c, fatSource: 'pork-back-fat', taxRate }),
      line({ code: 'cape', basis: 'extra', amountMinor: d, taxRate }),
      line({ code: 'pack', basis: 'package', amountMinor: e % 90 }),
      line({ code: 'off', basis: 'percent', rate: off }),
      line({ code: 'least', basis: 'minimum', amountMinor: e * 40 }),
    ],
  ); // prettier-ignore

  it('with the prices of the bills gives the bills, to the cent', { timeout: 60_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(anyLines, async (lines) => {
        const shop = await pricedShop(lines);
        await billedElk(shop, 'Ground', ['cape']);
        const small = await takeIn(shop, { species: 'pronghorn' }, '61.35');
        await shop.call('bills.create', { animalId: small, confirmed: true });
        const tried = await shop.call('costing.tryPrices', { lines });
        expect(tried.nowMinor).toBe(tried.thenMinor);
        expect(tried.most).toEqual([]);
        for (const one of [...tried.lines, ...tried.species]) expect(one.nowMinor).toBe(one.thenMinor);
        expect(tried.lines.reduce((all, { nowMinor }) => all + nowMinor, 0)).toBe(tried.nowMinor);
        shop.desk.close();
      }),
      { numRuns: 12 },
    );
  });
});

describe('missed quotes', () => {
  it('are the distance to the nearer end of the range', () => {
    const range = { low: 5, mean: 8, high: 10 };
    expect([4, 5, 7, 10, 12].map((value) => outside(value, range))).toEqual([-1, 0, 0, 0, 2]);
  });

  it('report how far bill and meat were outside the quoted ranges', async () => {
    const shop = await pricedShop();
    const instructions = {
      cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
    }; // prettier-ignore
    const asked = { species: 'elk', brought: 'skinned', stage: 'hanging', instructions } as const;
    const { id: quoteId } = await shop.call('quotes.save', { ...asked, typed: '300', hunterName: 'Dana' });
    const said = await shop.call('quotes.calculate', { ...asked, typed: '300' });
    const id = await takeIn(shop, { quoteId, instructions });
    await cut(shop, id, { 'whole cuts': '150', trim: '150' });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    const { bills, meat, missed } = (await shop.call('costing.get', {})).quotes;
    expect(bills).toEqual({ compared: 1, missed: 1 });
    expect(meat).toEqual({ compared: 1, missed: 1 });
    // The same count as on the season's page.
    const { all } = await shop.call('season.check', {});
    expect({ compared: all.n, missed: all.n - all.held }).toEqual(meat);
    // 400 lb hung instead of 300, and 300 lb of meat: $380 billed, as nothing was ground.
    expect(missed).toMatchObject([{ billMinor: 38_000 }]);
    expect(missed[0]?.offMinor).toBe(38_000 - (said.price?.high ?? 0));
    // 300 lb were cut, but a trim that still waits for the grinder is meat of the animal all the same.
    expect(missed[0]?.takeHomeGrams).toBeCloseTo(300 * 453.59237, 6);
    expect(missed[0]?.offGrams).toBeCloseTo(300 * 453.59237 - said.takeHomeGrams.high, 6);
  });
});
