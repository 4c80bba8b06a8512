import { afterEach, describe, expect, it } from 'vitest';
import { inputMeant } from '../../../src/desk/names/at-the-door.ts';
import suppliedProducts from '../../../resources/products.json' with { type: 'json' };
import type { Instructions, PrimalUse, TemplateCard } from '../../../src/bridge/contract.ts';
import { USUAL_INSTRUCTIONS } from '../../../src/desk/animal/instructions.ts';
import { wholeCutsShare } from '../../../src/core/species/cutting.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { GRAMS_PER } from '../../../src/core/values/units.ts';
import { sizesFor, sizeText } from '../../../src/ui/orders/cut-sizes.ts';
import { emptyAlso, typeInstructions, usualInstructions } from '../../../src/ui/orders/instructions-form.ts';
import { groundProducts, usualOf } from '../../../src/ui/orders/product-usual.ts';
import { readInstructions } from '../../../src/ui/orders/read-instructions.ts';
import { fittingTemplates } from '../../../src/ui/orders/start-from.ts';
import { ordersLines, ordersSummary } from '../../../src/ui/orders/orders-lines.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { text as ordersText } from '../../../src/words/compiled/window/orders.ts';
import { languages, SOURCE_LANGUAGE, type Language } from '../../../src/words/languages.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { speakWith } from '../../../src/words/speech.ts';

const DEER = [
  { code: 'neck', name: 'Neck', share: 0.1251 },
  { code: 'shoulder', name: 'Shoulder', share: 0.1768 },
  { code: 'saddle', name: 'Loin and saddle', share: 0.1539 },
  { code: 'flank', name: 'Ribs and flank', share: 0.1529 },
  { code: 'haunch', name: 'Hind leg', share: 0.3913 },
];
const USES: PrimalUse[] = ['steaks', 'roasts', 'stew', 'strips', 'whole', 'grind'];
const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });
const recipes = [
  {
    id: 7,
    name: 'Hot sticks',
    product: 'Snack sticks',
    meat: [
      { name: 'Game', share: 0.75 },
      { name: 'Pork', share: 0.25 },
    ],
  },
];
const fats = [
  {
    code: 'pork-trim-50',
    name: 'Pork trim 50/50',
    animal: 'pork' as const,
    fat: 0.5,
    grade: 'official' as const,
  },
];
const orders: Instructions = {
  cutsShare: 0.4,
  primals: [],
  pattyGrams: null,
  alsoGround: [],
  fat: 'none',
  targetFat: null,
  grindProduct: 'Ground',
  packageGrams: GRAMS_PER.lb,
  pricedExtras: {},
  extras: [],
  note: '',
};

describe('an order made in a window of another language', () => {
  afterEach(() => speakWith({ language: () => SOURCE_LANGUAGE }));

  it.each(Object.keys(languages) as Language[])("names the shop's product in %s", async (language) => {
    await loadLanguage(language);
    speakWith({ language: () => language });
    const { value } = readInstructions(usualInstructions('lb'), 'lb', DEER);
    const ground = suppliedProducts.filter(({ kind }) => kind === 'grind').map(({ name }) => name);
    const stored = inputMeant('animals.saveOrders', value, language)?.grindProduct;
    expect(ground).toContain(stored);
    expect(stored).toBe(USUAL_INSTRUCTIONS.grindProduct);
    if (language === 'es-MX') expect(ordersText.product).toBe('Molido como');
  });
});

describe('the form', () => {
  it.each(['lb', 'kg'] as const)('round-trips in a %s shop without edits', (unit) => {
    const { uniform: random } = seededRandom(7);
    const whole = (most: number) => Math.floor(random() * most);
    const pick = <T>(from: readonly T[]): T => from[whole(from.length)]!;
    const fat = () => {
      const kind = pick(['none', 'own', 'pork-trim-50']);
      const targetFat = kind === 'none' || random() < 0.3 ? null : (50 + whole(550)) / 1000;
      const patty = (3 + whole(6)) * (unit === 'lb' ? GRAMS_PER.oz : 20);
      return { fat: kind, targetFat, pattyGrams: random() < 0.5 ? null : patty };
    };
    for (let run = 0; run < 300; run++) {
      const primals = DEER.map(({ code }) => {
        const as = pick(USES);
        return { primal: code, as, size: as === 'grind' ? '' : pick(['', ...sizesFor(as, unit)]) };
      });
      const byShare = random() < 0.3;
      const stored: Instructions = Object.freeze({
        cutsShare: byShare ? whole(1000) / 1000 : wholeCutsShare(DEER, primals),
        primals: byShare ? [] : primals,
        ...fat(),
        grindProduct: pick(['Ground', 'Chili grind']),
        alsoGround: Array.from({ length: whole(3) }, () => ({
          product: pick(['Summer sausage', 'Jerky']),
          grams: ((1 + whole(4000)) / 100) * GRAMS_PER[unit],
          ...fat(),
        })),
        packageGrams: pick([1, 1.5, 2]) * GRAMS_PER[unit],
        pricedExtras: {},
        extras: pick([[], ['vacuum'], ['heart kept', 'rush']]),
        note: pick(['', 'no shank']),
      });
      const { value, wrong } = readInstructions(typeInstructions(stored, unit), unit, DEER);
      expect(wrong).toEqual({});
      const near = (grams: number | null) => (grams === null ? null : expect.closeTo(grams, 6));
      expect(value).toEqual({
        ...stored,
        cutsShare: expect.closeTo(stored.cutsShare, 12),
        pattyGrams: near(stored.pattyGrams),
        packageGrams: near(stored.packageGrams),
        alsoGround: stored.alsoGround.map((also) => ({
          ...also,
          grams: near(also.grams),
          pattyGrams: near(also.pattyGrams),
        })),
      });
    }
  });

  it('asks only for received pieces, and computes its share from them', () => {
    const typed = {
      ...usualInstructions('lb'),
      by: 'primals' as const,
      primals: { haunch: { as: 'steaks' as const, size: '3/4' }, saddle: { as: 'whole' as const, size: '' } },
    };
    const { value } = readInstructions(typed, 'lb', [DEER[1]!, DEER[4]!]);
    expect(value?.primals).toEqual([{ primal: 'haunch', as: 'steaks', size: '¾ in' }]);
    expect(value?.cutsShare).toBeCloseTo(0.3913 / (0.3913 + 0.1768), 12);
  });

  it('grinds every piece of an untouched form by piece, and uses the share without a species', () => {
    const typed = { ...usualInstructions('lb'), by: 'primals' as const };
    expect(readInstructions(typed, 'lb', DEER).value).toMatchObject({ cutsShare: 0 });
    expect(readInstructions(typed, 'lb', DEER).value?.primals).toHaveLength(5);
    expect(readInstructions(typed, 'lb').value).toMatchObject({ cutsShare: 0.4, primals: [] });
  });

  it('reports every invalid field of a grind, and keeps the text', () => {
    const typed = Object.freeze({
      ...usualInstructions('lb'),
      patty: '5 lb',
      also: [{ ...emptyAlso(), trim: 'some', fat: 'own', target: '90' }],
    });
    const { value, wrong } = readInstructions(typed, 'lb', DEER);
    expect(value).toBeNull();
    expect(Object.keys(wrong).toSorted()).toEqual([
      'also.0.product',
      'also.0.target',
      'also.0.trim',
      'patty',
    ]);
  });
});

describe('sizes', () => {
  it.each([
    ['3/4', 'steaks', 'lb', '¾ in'],
    ['1 1/4', 'steaks', 'lb', '1¼ in'],
    ['1', 'steaks', 'lb', '1 in'],
    ['2,5', 'steaks', 'kg', '2,5 cm'],
    ['3', 'roasts', 'lb', '3 lb'],
    ['thick', 'steaks', 'lb', 'thick'],
    ['2', 'whole', 'lb', '2'],
    [' ', 'stew', 'kg', ''],
  ] as const)('show %j of %s in a %s shop as %j', (typed, as, unit, size) =>
    expect(sizeText(typed, as, unit)).toBe(size),
  );

  it('are unchanged once formatted', () => {
    for (const unit of ['lb', 'kg'] as const)
      for (const as of USES)
        for (const size of sizesFor(as, unit)) expect(sizeText(size, as, unit)).toBe(size);
  });
});

describe('a starting point', () => {
  const card = (carcass: string | null, primals: string[]): TemplateCard => ({
    id: null,
    name: 'x',
    carcass,
    instructions: {
      ...orders,
      primals: primals.map((primal) => ({ primal, as: 'roasts' as const, size: '' })),
    },
  });
  const cards = [card(null, []), card('cervid', ['neck']), card('cervid', ['hump']), card('boar', ['ham'])];
  const keys = (species?: { body: string; primals: never[] }) =>
    fittingTemplates(cards, species).map(({ key }) => key);

  it('fits the carcass and names only pieces that the species has', () =>
    expect(keys({ body: 'cervid', primals: DEER as never[] })).toEqual([
      'template supplied 0',
      'template supplied 1',
    ]));
  it('fits any animal if the species is unknown', () => expect(keys()).toEqual(['template supplied 0']));
});

describe('a product', () => {
  const product = {
    code: 'p', name: 'Patties', kind: 'grind' as const, fat: 'beef-suet', targetFat: 0.15, packageGrams: 2 * GRAMS_PER.lb, pattyGrams: 4 * GRAMS_PER.oz, ingredients: '', own: false,
  }; // prettier-ignore
  it('fills in its default fat, target, patty and package', () =>
    expect(usualOf(product, 'lb')).toEqual({ fat: 'beef-suet', target: '15', patty: '4 oz', pack: '2 lb' }));
  it('keeps values that it does not define', () =>
    expect(usualOf({ ...product, fat: null, packageGrams: null, pattyGrams: null }, 'lb')).toEqual({
      patty: '',
    }));
  it('is offered for grinding if it is ground', () =>
    expect(groundProducts([product, { ...product, kind: 'whole cuts' }])).toEqual([product]));
});

describe('instruction lines', () => {
  const summary = (more: Partial<Instructions>) =>
    ordersSummary(
      ordersLines(
        { ...orders, ...more },
        DEER,
        { fatSources: fats, recipes, extras: [{ code: 'caping', label: 'Caping', unitPriceMinor: 5000 }] },
        format,
      ),
    );

  it('group pieces with the same instruction, ground products last', () =>
    expect(
      summary({
        primals: [
          { primal: 'neck', as: 'grind', size: '' },
          { primal: 'shoulder', as: 'roasts', size: '3 lb' },
          { primal: 'saddle', as: 'steaks', size: '¾ in' },
          { primal: 'haunch', as: 'steaks', size: '¾ in' },
        ],
      }),
    ).toBe(
      'Shoulder: roasts 3 lb · Loin and saddle, Hind leg: steaks ¾ in · Neck: grind · ' +
        'Ground: no fat added · Packages: 1.00 lb',
    ));

  it('name each grind with its amount and fat', () =>
    expect(
      summary({
        alsoGround: [
          { product: 'Summer sausage', grams: 8 * GRAMS_PER.lb, fat: 'pork-trim-50', targetFat: 0.2, pattyGrams: null },
        ],
        fat: 'own',
        pattyGrams: 4 * GRAMS_PER.oz,
        pricedExtras: {}, extras: ['heart kept'],
      }),
    ).toBe(
      '40%: kept as steaks and roasts, the rest ground · ' +
        'Summer sausage: 8.00 lb of trim, Pork trim 50/50, to 20.0% fat · ' +
        'Ground: the rest, its own fat, amount set at the grinder, patties of 4 oz · Packages: 1.00 lb · heart kept',
    )); // prettier-ignore

  it('name the recipe of what the shop has one for, in place of the fat', () =>
    expect(
      summary({
        alsoGround: [
          { product: 'snack sticks', grams: 15 * GRAMS_PER.lb, fat: 'pork-trim-50', targetFat: 0.2, pattyGrams: null },
        ],
      }),
    ).toBe(
      '40%: kept as steaks and roasts, the rest ground · snack sticks: 15.00 lb of trim, by the recipe Hot sticks · ' +
        'Ground: the rest, no fat added · Packages: 1.00 lb',
    )); // prettier-ignore

  it('omit grinding if everything stays whole', () =>
    expect(summary({ cutsShare: 1 })).toBe('All kept as steaks and roasts · Packages: 1.00 lb'));
});
