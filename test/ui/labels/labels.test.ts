/** The content of labels: weights, ingredients, owners, and required or forbidden text. */
import { describe, expect, it } from 'vitest';
import type { BatchPage, FatLotRow } from '../../../src/desk/contract/contract.ts';
import { allNames } from '../../../src/desk/names/names.ts';
import { weighedIngredients } from '../../../src/ui/labels/ingredients.ts';
import { localDay } from '../../../src/ui/labels/local-day.ts';
import { netWeight } from '../../../src/ui/labels/net-weight.ts';
import products from '../../../resources/products.json' with { type: 'json' };
import { batchRuns, cutRuns, type BatchMade, type Writing } from '../../../src/ui/labels/package-label.ts';
import { tagLabel, tagsNeeded } from '../../../src/ui/labels/tag-label.ts';
import { text as labelText } from '../../../src/words/compiled/window/labels.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const LB = 453.59237;
const { longDay } = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const writing: Writing = { unit: 'lb', locale: 'en-US', zone: 'America/Denver', longDay, kindOf: (name) => (name === 'Deer chips' ? 'jerky' : undefined) }; // prettier-ignore
const DEER_COOK = { f: 165, c: 74, source: 'CDC' };
const frozen = <T>(value: T): T => {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
};

type WeighedIn = BatchPage['weighedIn'][number];
function row(more: Partial<WeighedIn>): WeighedIn {
  return {
    id: 1, stage: 'grinder', part: 'trim', primal: null, product: null, count: null, typed: '', unit: 'lb',
    tareTyped: null, tareUnit: null, grams: 0, at: '2026-11-25T03:10:00Z', by: '', note: '', source: 'typed', place: null, batch: null, corrects: null, voided: null,
    ticket: null, fatLot: null, fat: 0.1, ...more,
  }; // prettier-ignore
}
function lot(more: Partial<FatLotRow>): FatLotRow {
  return {
    id: 4, code: 'F004', source: 'pork-back-fat', name: 'Pork back fat', ticket: null, fat: 0.88, costMinor: null,
    costUnit: null, supplierLot: '', useBy: null, receivedOn: '2026-11-01', startGrams: 5000, leftGrams: 0, keeps: 'good', ...more,
  }; // prettier-ignore
}
function animal(ticket: string, hunter: string, species: string, origin: 'hunter' | 'farm' = 'hunter') {
  return {
    ticket, origin, hunter: { name: hunter }, weighings: [],
    species: {
      code: species, name: species, many: species, body: 'cervid', primals: [], cautions: [],
      words: { male: 'buck', female: 'doe', young: 'fawn' }, cookTo: DEER_COOK, own: false,
    },
  }; // prettier-ignore
}
const pack = (id: number, count: number, grams: number) => ({
  id, count, grams, product: 'Ground', typed: '', source: 'typed' as const, place: null,
  at: '2026-11-25T03:10:00Z', by: '',
}); // prettier-ignore
const owner = (ticket: string, hunter: string, packages: number) => ({
  ticket, hunter, packages, leanGrams: 1, shareGrams: 1, shownLeanGrams: 1, shownShareGrams: 1,
}); // prettier-ignore

/** Two owners' trim, pork and own fat: 30 elk, 12 deer, 8 pork, 2 elk fat; a voided weight. */
const made: BatchMade = frozen({
  batch: {
    id: 7, name: 'G007', species: ['Elk', 'Mule deer'], cookTo: DEER_COOK,
    weighedIn: [
      row({ ticket: '26-0002', grams: 12 }), row({ ticket: '26-0001', grams: 20 }),
      row({ ticket: '26-0001', grams: 10 }), row({ fatLot: 'F004', grams: 8 }),
      row({ fatLot: 'F005', grams: 2 }),
      row({ fatLot: 'F006', grams: 99, voided: { reason: '', by: '', at: '' } }),
    ],
    packages: [pack(1, 3, 3 * LB), pack(2, 2, 4 * LB)],
    owners: [owner('26-0001', 'Ann Alder', 4), owner('26-0002', 'Bo Birch', 1)],
  },
  lots: [
    lot({}), lot({ code: 'F005', source: 'own', name: 'Own fat saved', ticket: '26-0001' }),
    lot({ code: 'F006', source: 'beef-suet', name: 'Suet' }),
  ],
  animals: [animal('26-0001', 'Ann Alder', 'Elk'), animal('26-0002', 'Bo Birch', 'Mule deer')],
  fatSources: [{ code: 'pork-back-fat', animal: 'pork' }, { code: 'beef-suet', animal: 'beef' }],
}); // prettier-ignore

describe('net weight', () => {
  it('is computed in both units and rounded down', () => {
    // 463 g = 1.02074… lb; 1000 g = 2.20462… lb; 5 lb = 2.26796… kg; 12.34 kg = 27.2050… lb.
    expect(netWeight(463, 'lb', 'en-US')).toEqual({ shop: '1.02 lb', other: '0.463 kg' });
    expect(netWeight(1000, 'kg', 'en-US')).toEqual({ shop: '1.000 kg', other: '2.20 lb' });
    expect(netWeight(5 * LB, 'lb', 'en-US')).toEqual({ shop: '5.00 lb', other: '2.26 kg' });
    expect(netWeight(12_340, 'kg', 'en-US')).toEqual({ shop: '12.340 kg', other: '27.2 lb' });
    expect(netWeight(1.5 * LB, 'lb', 'de-DE').shop).toBe('1,50 lb');
  });

  it('never exceeds the content, and keeps the scale’s precision', () => {
    for (let hundredths = 1; hundredths <= 6000; hundredths++) {
      const grams = (hundredths / 100) * LB;
      const { shop, other } = netWeight(grams, 'lb', 'en-US');
      expect(shop).toBe(`${(hundredths / 100).toFixed(2)} lb`);
      const kg = Number.parseFloat(other);
      expect(kg * 1000, shop).toBeLessThanOrEqual(grams + 1e-9);
      expect(grams - kg * 1000, shop).toBeLessThan(grams < 1000 ? 1 : grams < 10_000 ? 10 : 100);
      expect(Number.parseFloat(netWeight(grams + 4, 'lb', 'en-US').shop) * LB).toBeLessThanOrEqual(grams + 4);
    }
  });
});

describe('ingredients', () => {
  it('are in order of weight, each kind once, without voided weights', () => {
    expect(weighedIngredients(made)).toEqual(['Elk', 'Mule deer', 'Pork back fat', 'Elk fat']);
  });

  it('name the species of a fat whose name omits it', () => {
    const batch = { species: ['Elk'], weighedIn: [row({ fatLot: 'F006', grams: 1 })] };
    expect(weighedIngredients({ ...made, batch })).toEqual(['Suet (beef)']);
  });
});

/** What is sold raw, and what leaves cooked or dried: common practice, no source. */
const COOKED = ['summer-sausage', 'snack-sticks', 'jerky-strips', 'ground-jerky'];
const SUPPLIED = [
  ...products.map(({ code, name }) => ({ name, raw: !COOKED.includes(code) })),
  ...(['es-MX', 'fr-CA'] as const).flatMap((language) => {
    const said = allNames(language);
    return products.map(({ code }) => ({
      name: said.get(`product.${code}`) ?? '',
      raw: !COOKED.includes(code),
    }));
  }),
  { name: 'Deer chips', raw: false },
  { name: 'Smoked venison bacon', raw: true },
];

describe('labels of a batch', () => {
  const runs = batchRuns(made, writing);

  it('include every package once, divided among the owners in the order of packing', () => {
    const dealt = runs.map(({ label, copies }) => [label.ticket, copies, label.net, label.average]);
    const small = labelText.net({ shop: '1.00 lb', other: '0.453 kg' });
    const large = labelText.net({ shop: '2.00 lb', other: '0.907 kg' });
    expect(dealt).toEqual([
      ['26-0001', 3, small, labelText.average({ count: 3 })],
      ['26-0001', 1, large, labelText.average({ count: 2 })],
      ['26-0002', 1, large, labelText.average({ count: 2 })],
    ]);
  });

  it('state owner, date (in the shop’s time zone), ingredients and cooking temperature', () => {
    expect(runs[2]?.label).toMatchObject({
      hunter: 'Bo Birch', product: 'Ground', species: 'Elk + Mule deer', batch: 'G007', packed: 'Packed Nov 24, 2026',
      ingredients: ['Elk', 'Mule deer', 'Pork back fat', 'Elk fat'], cook: 'Cook to 165°F (74°C) in the center.',
      notForSale: true,
    }); // prettier-ignore
  });

  it.each(SUPPLIED)('of $name have raw-meat advice, unless it was cooked or dried here', ({ name, raw }) => {
    const packages = [{ ...pack(1, 5, 5 * LB), product: name }];
    const [run] = batchRuns({ ...made, batch: { ...made.batch, packages } }, writing);
    expect(run?.label.cook !== null).toBe(raw);
  });

  it('need no ingredients for meat of a single animal', () => {
    const batch = { ...made.batch, weighedIn: [row({ ticket: '26-0001', grams: 5 })] };
    expect(batchRuns({ ...made, batch }, writing)[0]?.label.ingredients).toBeNull();
  });

  it('say NOT FOR SALE exactly if one animal is a hunter’s', () => {
    const farm = animal('26-0002', 'Bo Birch', 'Bison', 'farm');
    const sale = (animals: BatchMade['animals']) =>
      batchRuns({ ...made, animals }, writing).map(({ label }) => label.notForSale);
    expect(sale([farm, animal('26-0001', 'Ann Alder', 'Elk')])).toEqual([true, true, true]);
    expect(sale([farm])).toEqual([false, false, false]);
  });
});

describe('labels of whole cuts', () => {
  it('are made from each weight of packages that is not voided', () => {
    const weighings = [
      row({ id: 1, stage: 'packed', product: 'Steaks', count: 2, grams: 2.5 * LB }),
      row({ id: 2, stage: 'packed', product: 'Roasts', count: 1, grams: 3 * LB }),
      row({ id: 3, stage: 'packed', product: 'Slip', grams: LB, voided: { reason: '', by: '', at: '' } }),
      row({ id: 4, stage: 'cut', product: null, grams: LB }),
      row({ id: 5, stage: 'packed', product: 'Ground', grams: LB, batch: 'G007' }),
    ];
    const runs = cutRuns({ ...animal('26-0001', 'Ann Alder', 'Elk', 'farm'), weighings }, writing);
    expect(
      runs.map(({ label, copies }) => [label.product, copies, label.net, label.average, label.notForSale]),
    ).toEqual([
      [
        'Steaks',
        2,
        labelText.net({ shop: '1.25 lb', other: '0.566 kg' }),
        labelText.average({ count: 2 }),
        false,
      ],
      ['Roasts', 1, labelText.net({ shop: '3.00 lb', other: '1.36 kg' }), null, false],
    ]);
  });
});

describe('safe handling', () => {
  it('uses our own words, not the federal label, which implies an inspection', () => {
    const all = [labelText.care, labelText.frozen, labelText.cook({ f: 160, c: 71 })].join(' ').toLowerCase();
    for (const claim of ['inspected', 'passed', 'safe handling', 'some food products', 'cook thoroughly'])
      expect(all).not.toContain(claim);
  });
});

describe('the carcass tag', () => {
  const tagged = frozen({
    ticket: '26-0001', sex: 'male', age: 'adult', brought: 'quarters', origin: 'hunter', where: 'Cold room, hook 4', tag: 'T 4711', licence: '',
    killDate: null, killArea: '', receivedOn: '2026-11-24', promisedOn: null, ordersStatus: 'ordered',
    parts: [{ primal: 'haunch', count: 2 }, { primal: 'shoulder', count: 2 }],
    species: { name: 'Elk', words: { male: 'bull', female: 'cow', young: 'calf' }, primals: [
      { code: 'shoulder', name: 'Shoulder' }, { code: 'haunch', name: 'Hind leg' },
    ] },
    hunter: { name: 'Ann Alder' }, hold: { reason: 'sample', sample: 'S-9', positive: false },
  } as const); // prettier-ignore

  it('shows what is known, and marks the hold', () => {
    expect(tagLabel({ ...tagged, parts: [] }, writing)).toEqual({
      ticket: '26-0001',
      species: 'Elk, bull',
      hunter: 'Ann Alder',
      facts: [
        { name: 'Came in', value: 'Nov 24, 2026' },
        { name: 'Tag', value: 'T 4711' },
        { name: 'Brought', value: 'Quarters' },
        { name: 'Location', value: 'Cold room, hook 4' },
      ],
      hold: 'Sample pending S-9. Keep apart, do not hand over.',
      notForSale: true,
    });
    expect(tagLabel({ ...tagged, parts: [], hold: null }, writing).hold).toBeNull();
  });

  it('names the received pieces of an incomplete animal', () => {
    expect(tagLabel({ ...tagged, parts: [...tagged.parts] }, writing).species).toBe(
      'Elk, bull, 2 × Hind leg, 2 × Shoulder',
    );
    const one = { ...tagged, sex: 'unknown' as const, parts: [{ primal: 'shoulder', count: 1 }] };
    expect(tagLabel(one, writing).species).toBe('Elk, 1 × Shoulder');
  });

  it('is printed once for each piece', () => {
    expect(tagsNeeded({ parts: [...tagged.parts] })).toBe(4);
    expect(tagsNeeded({ parts: [] })).toBe(1);
  });
});

describe('the day of packing', () => {
  it('is in the shop’s time zone', () => {
    expect(localDay('2026-11-25T03:10:00Z', 'America/Denver')).toBe('2026-11-24');
    expect(localDay('2026-11-25T03:10:00Z', 'UTC')).toBe('2026-11-25');
  });
});
