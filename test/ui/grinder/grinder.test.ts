import { describe, expect, it } from 'vitest';
import type { BlendPlan, FatLotRow, GrinderView, PlanPart } from '../../../src/desk/contract/contract.ts';
import { divide } from '../../../src/ui/batch/batch-bar.ts';
import { fatOptions, leftOf } from '../../../src/ui/fat/fat-options.ts';
import { otherFat } from '../../../src/ui/batch/other-fat.ts';
import { percentTyped } from '../../../src/ui/grinder/percent-typed.ts';
import { planTerms } from '../../../src/ui/grinder/plan-terms.ts';
import { planWords, reachableTarget } from '../../../src/ui/grinder/plan-words.ts';
import { inPart, partsToWeigh } from '../../../src/ui/batch/to-weigh.ts';
import { wantText } from '../../../src/ui/batch/want-text.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const LB = 453.59237;
const trim: PlanPart = {
  key: 'trim 1', kind: 'trim', ticket: '26-0001', fatName: null, lotCode: null, animalId: 1,
  fatLotId: null, grams: 20 * LB, share: 0.9, fat: 0.03,
}; // prettier-ignore
const fatPart: PlanPart = {
  key: 'fat 4', kind: 'fat', fatName: 'Pork back fat', lotCode: 'F004', ticket: null, animalId: null, fatLotId: 4,
  grams: 2 * LB, share: 0.1, fat: 0.9,
}; // prettier-ignore
const nearest = { parts: [trim, fatPart], batchGrams: 22 * LB, fat: 0.1094 };

function lot(more: Partial<FatLotRow>): FatLotRow {
  return {
    id: 4, code: 'F004', source: 'pork-back-fat', name: 'Pork back fat', ticket: null, fat: 0.88, costMinor: null,
    costUnit: null, supplierLot: '', useBy: null, receivedOn: '2026-11-01', startGrams: 5000, leftGrams: 1000, keeps: 'good',
    ...more,
  }; // prettier-ignore
}

describe('parsing a fat target', () => {
  it.each([
    ['12.5', 0.125],
    ['12,5 %', 0.125],
    ['60', 0.6],
    ['', null],
    ['0.4', null],
    ['61', null],
    ['a lot', null],
  ])('reads %j as %j', (typed, share) => expect(percentTyped(typed)).toBe(share));
});

describe('fat on hand', () => {
  it('includes only lots within their use-by date', () =>
    expect(
      leftOf('pork-back-fat', [lot({}), lot({ id: 5, keeps: 'soon' }), lot({ id: 6, keeps: 'past' })]),
    ).toBe(2000));
});

describe('dividing a batch', () => {
  it('accounts for every gram, and counts everything but fat as lean', () => {
    const grams = divide([trim, fatPart]);
    expect(grams.lean + grams.trimFat + grams.addedFat).toBeCloseTo(22 * LB, 9);
    expect(grams.trimFat).toBeCloseTo(0.6 * LB, 9);
    expect(grams.addedFat).toBeCloseTo(1.8 * LB, 9);
  });
});

describe('the sum of a plan', () => {
  const more = { ...trim, key: 'trim 2', ticket: '26-0002', grams: 5 * LB };

  it('is trim and fat, each named if it is one', () =>
    expect(planTerms([fatPart, trim]).map(({ kind, label, grams }) => [kind, label, grams])).toEqual([
      ['trim', 'Trim of 26-0001', 20 * LB],
      ['fat', 'Pork back fat, lot F004', 2 * LB],
    ]));

  it('adds up several of a kind, and lists what each is weighed out from', () => {
    const [of] = planTerms([trim, more]);
    expect(of).toMatchObject({ label: 'Trim of 2 animals', grams: 25 * LB });
    expect(of?.parts.map(({ ticket }) => ticket)).toEqual(['26-0001', '26-0002']);
    expect(planTerms([trim])[0]?.parts).toEqual([]);
  });
});

describe('the blend answer in words', () => {
  const words = (plan: BlendPlan) => planWords(plan, format);

  it('leaves a plan without an obstacle to the sum and the bar', () =>
    expect(
      words({
        kind: 'plan', parts: [trim, fatPart], batchGrams: 22 * LB, fat: 0.125,
        fatRange: { low: 0.1, high: 0.15 }, fatToAddGrams: 2 * LB, costMinor: 0,
      }), // prettier-ignore
    ).toBe(''));

  it.each([
    [0.5 * LB, '0.50 lb of leaner trim would bring it down'],
    [null, 'No leaner trim is waiting'],
  ])('explains how trim that is lean enough could be used (%j)', (leanToAddGrams, said) => {
    const plan = {
      kind: 'lean enough',
      fat: 0.15,
      target: 0.12,
      parts: [trim],
      batchGrams: 1,
      leanToAddGrams,
    } as const;
    expect(words({ ...plan, parts: [...plan.parts] })).toContain('3.0 points above the target of 12.0%');
    expect(words({ ...plan, parts: [...plan.parts] })).toContain(said);
  });

  it('states what is available, needed and missing, and the nearest batch', () => {
    const said = words({
      kind: 'not enough fat', target: 0.2, haveGrams: 2 * LB, needGrams: 5 * LB, missingGrams: 3 * LB, nearest,
    }); // prettier-ignore
    for (const amount of ['5.00 lb', '2.00 lb', '3.00 lb', '10.9%']) expect(said).toContain(amount);
  });

  it('states what a recipe lacks of its meat, and offers no target', () => {
    const plan: BlendPlan = { kind: 'not enough fat', target: null, haveGrams: 2 * LB, needGrams: 5 * LB, missingGrams: 3 * LB, nearest };
    const said = words(plan);
    for (const amount of ['5.00 lb', '3.00 lb']) expect(said).toContain(amount);
    expect(said).not.toContain('%');
    expect(reachableTarget(plan)).toBeNull();
  }); // prettier-ignore

  it('states the fattest possible batch', () => {
    const said = words({ kind: 'out of reach', target: 0.5, richest: 0.3, nearest });
    expect(said).toContain('50.0% cannot be reached');
    expect(said).toContain('fattest batch possible is 30.0%');
  });

  it('offers a target that the nearest batch reaches, never one above it', () => {
    const plan: BlendPlan = { kind: 'out of reach', target: 0.5, richest: 0.3, nearest };
    expect(reachableTarget(plan)).toBe(0.109);
    expect(reachableTarget({ ...plan, target: 0.1 })).toBeNull();
  });
});

describe('fat options', () => {
  const waiting = (fat: string, own: number) =>
    ({
      ownFatLeftGrams: own,
      wants: [{ product: '', fat, targetFat: null, pattyGrams: null, grams: 1000 }],
    }) as GrinderView['waiting'][number];
  const sources = [
    { code: 'pork-back-fat', name: 'Pork back fat', animal: 'pork', fat: 0.88, grade: 'official' as const },
    { code: 'beef-suet', name: 'Beef suet', animal: 'beef', fat: 0.94, grade: 'official' as const },
    { code: 'own-fat', name: 'Own fat', animal: 'own', fat: 0.7, grade: 'official' as const },
  ] as const;

  it('include fat on hand, and fat of an order even without stock', () => {
    const lots = [
      lot({}),
      lot({ id: 5, leftGrams: 500 }),
      lot({ id: 6, ticket: '26-0001', source: 'beef-suet' }),
    ];
    const options = (wanted: string) => fatOptions([waiting(wanted, 0)], lots, sources, format);
    expect(options('none').map(({ value }) => value)).toEqual(['none', 'own', 'pork-back-fat']);
    expect(options('none')[2]?.note).toBe(`${format.mass(1500)} on hand`);
    expect(options('beef-suet').find(({ value }) => value === 'beef-suet')?.note).toBe('none on hand');
  });
});

describe('fat that a cut sheet did not ask for', () => {
  const animal = (ticket: string, ...wants: [product: string, fat: string][]) =>
    ({
      ticket,
      wants: wants.map(([product, fat]) => ({ product, fat, targetFat: null, pattyGrams: null, grams: 1 })),
    }) as GrinderView['waiting'][number];
  const told = (fat: string, product: string, ...animals: GrinderView['waiting']) =>
    otherFat(animals, product, fat).map(({ ticket }) => ticket);

  it('is told of each animal that wants none, its own, or another', () => {
    const animals = [
      animal('1', ['Ground', 'none']),
      animal('2', ['Ground', 'beef-suet']),
      animal('3', ['Ground', 'own']),
    ];
    expect(told('beef-suet', 'Ground', ...animals)).toEqual(['1', '3']);
    expect(told('none', 'Ground', ...animals)).toEqual(['2', '3']);
  });

  it('is none of what a recipe makes, whatever fat the order names', () => {
    const made = animal('1', ['Sausage', 'pork-trim']);
    expect(told('none', 'Sausage', made)).toEqual(['1']);
    const wants = made.wants.map((want) => ({ ...want, recipe: { id: 1, name: 'Sausage', meat: [] } }));
    expect(told('none', 'Sausage', { ...made, wants })).toEqual([]);
    expect(wantText(wants[0]!, [], format)).toBe('Sausage, by the recipe Sausage');
  });

  it('is that of the order for this product, else of the first order', () => {
    const two = animal('1', ['Ground', 'none'], ['Sausage', 'pork-trim']);
    expect(told('pork-trim', 'Sausage', two)).toEqual([]);
    expect(told('pork-trim', 'Jerky', two)).toEqual(['1']);
  });
});

describe('weighing in', () => {
  it('shows what is in and what is left for each ingredient', () => {
    const parts = partsToWeigh({
      planned: [trim, fatPart],
      toWeigh: [{ ...fatPart, grams: 0.5 * LB }],
      topUp: null,
    });
    expect(parts.map(({ toGoGrams }) => toGoGrams)).toEqual([0, 0.5 * LB]);
    expect(parts.map(({ inGrams }) => inGrams)).toEqual([20 * LB, 1.5 * LB]);
  });

  it('distinguishes own from bought fat by the lot', () => {
    expect(inPart(trim, [])).toBe('trim');
    expect(inPart(fatPart, [lot({})])).toBe('fat added');
    expect(inPart(fatPart, [lot({ ticket: '26-0001' })])).toBe('fat saved');
  });
});
