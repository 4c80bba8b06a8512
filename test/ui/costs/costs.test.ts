import { afterEach, describe, expect, it } from 'vitest';
import type { CostFigures, ServiceAnswer } from '../../../src/bridge/contract.ts';
import { readCosts, typeCosts } from '../../../src/ui/costs/costs-form.ts';
import {
  finding,
  offText,
  figureSentence,
  speciesFinding,
} from '../../../src/ui/charts/money/costs-words.ts';
import { placeParts } from '../../../src/ui/charts/money/parts-bar.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { parseMoney } from '../../../src/core/values/money.ts';
import { parseReading } from '../../../src/core/values/reading.ts';
import { speakWith, writer } from '../../../src/words/speech.ts';

const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });

const grinding: ServiceAnswer = {
  code: 'grinding', measured: [], receivedGrams: 45_359.237, finishedGrams: 45_359.237, hours: 1, packages: 100,
  costPerJob: 3800, costPerLb: 38, costPerKg: 38 / 0.45359237, parts: { wages: 20, overhead: 10, packaging: 8, fat: 0 },
  cost: 38, fee: { service: 45, fat: 0, bills: 12 }, margin: 7 / 45, breakEven: 38, wanted: 50, finishedShare: 1, swings: [],
}; // prettier-ignore

describe('the finding', () => {
  it.each([
    [{}, 'Grinding: the cost is $0.38 a pound and you charge $0.45, which leaves 16%.'],
    [
      { fee: { service: 30, fat: 3, bills: 1 }, margin: -5 / 33 },
      'Grinding with fat: the cost is $0.38 a pound and you charge $0.33, a loss of $0.05 on each.',
    ],
    [
      { fee: { service: 38, fat: 0, bills: 1 }, margin: 0 },
      'Grinding: the cost is $0.38 a pound, exactly what you charge.',
    ],
    [
      { fee: null, margin: null },
      'Grinding: the cost is $0.38 a pound. What you charge is unknown: no animal of this season is billed for it.',
    ],
    [
      { fee: { service: 0, fat: 0, bills: 3 }, margin: null },
      'Grinding: the cost is $0.38 a pound. Today’s prices charge nothing for it.',
    ],
    [
      { fee: { service: 45, fat: 6, bills: 3 }, parts: { wages: 20, overhead: 10, packaging: 8, fat: 10 }, cost: 48, margin: 3 / 51 }, // prettier-ignore
      'Grinding with fat: the cost is $0.48 a pound and you charge $0.51, which leaves 6%.',
    ],
  ])('of %j', (more, sentence) => expect(finding({ ...grinding, ...more }, format)).toBe(sentence));

  it('names the unit of the shop', () => {
    const kilos = makeFormat({ unit: 'kg', step: 0.05, locale: 'en-US', currency: 'USD' });
    expect(finding(grinding, kilos)).toContain('a kilogram');
  });

  it('names the species with the highest margin', () => {
    const of = (name: string, incomeMinor: number, cost: number) => ({
      code: name,
      name,
      animals: 1,
      incomeMinor,
      cost,
    });
    const rows = [of('Elk', 10_000, 6000), of('Bison', 10_000, 11_000), of('Boar', 0, 500)];
    expect(speciesFinding(rows, format)).toBe('Elk has the highest margin (40%), Bison the lowest (-10%).');
    expect(speciesFinding(rows.slice(0, 1), format)).toBe('Elk has a margin of 40%.');
    expect(speciesFinding([], format)).toBe('');
  });
});

describe('the basis of a figure', () => {
  it('states the number of weighings, or an assumption', () => {
    const received = { figure: 'received', value: 45_359.237, from: 7, of: 'animals' } as const;
    expect(figureSentence('cutting', received, format)).toBe('100 lb hanging weight (median of 7 animals)');
    expect(figureSentence('cutting', { ...received, from: 0 }, format)).toContain(
      'assumed, nothing weighed yet',
    );
    expect(figureSentence('grinding', { figure: 'fatPerKg', value: 350, from: 1, of: 'lots' }, format)).toBe(
      'fat bought at $1.59 a pound (from 1 lot used)',
    );
  });
  it('states the distance from a quote', () =>
    expect([0, 107, -50].map((off) => offText(off, format.money))).toEqual([
      'within',
      '$1.07 over',
      '$0.50 under',
    ]));
});

describe('the bar', () => {
  it('stacks the parts, without empty ones, and marks the fee on the same scale', () => {
    const { parts, fee } = placeParts({ wages: 30, overhead: 10, packaging: 10, fat: 0 }, 100, 110);
    expect(parts).toEqual([
      { name: 'wages', x: 0, width: expect.closeTo(30, 9) },
      { name: 'overhead', x: expect.closeTo(30, 9), width: expect.closeTo(10, 9) },
      { name: 'packaging', x: expect.closeTo(40, 9), width: expect.closeTo(10, 9) },
    ]);
    expect(fee).toBeCloseTo(100, 9);
  });
  it('draws nothing without costs', () =>
    expect(placeParts({ wages: 0, overhead: 0, packaging: 0, fat: 0 }, null, 660)).toEqual({
      parts: [],
      fee: null,
    }));
});

describe('the form', () => {
  const plain = writer();
  afterEach(() => speakWith({ writer: () => plain }));
  const minutes = { minutesPerAnimal: 30, minutesPerKg: 0.5 / 0.45359237, packageGrams: 1.25 * 453.59237 };
  const figures: CostFigures = {
    wagePerHour: 2150, overheadPerHour: 1400, packagingPerPackage: 16, ingredientsPerKg: 45 / 0.45359237, wantedMargin: 0.25,
    services: { cutting: minutes, grinding: minutes, products: minutes },
  }; // prettier-ignore

  it('shows saved figures as typed', () => {
    const typed = typeCosts(figures, 'lb', 'USD');
    expect(typed).toMatchObject({
      wagePerHour: '21.50',
      packagingPerPackage: '0.16',
      ingredientsPerUnit: '0.45',
      margin: '25',
    });
    expect(typed.services.grinding).toEqual({
      minutesPerAnimal: '30',
      minutesPerUnit: '0.5',
      packageSize: '1.25 lb',
    });
    expect(typeCosts(figures, 'kg', 'JPY').wagePerHour).toBe('2150');
  });

  it('sends everything as typed except the percentage, which must be valid', () => {
    const typed = typeCosts(figures, 'lb', 'USD');
    expect(readCosts(typed)).toMatchObject({ wagePerHour: '21.50', wantedMargin: 0.25 });
    expect(readCosts({ ...typed, margin: 'some' })).toBeNull();
  });

  it('shows decimals with the mark of the shop, and reads them back', () => {
    const french = makeFormat({ unit: 'kg', step: 0.05, locale: 'fr-CA', currency: 'CAD' });
    speakWith({ writer: () => french });
    const typed = typeCosts({ ...figures, wantedMargin: 0.125 }, 'lb', 'CAD');
    expect(typed).toMatchObject({ wagePerHour: '21,50', packagingPerPackage: '0,16', margin: '12,5' });
    expect(typed.services.grinding).toMatchObject({ minutesPerUnit: '0,5', packageSize: '1,25 lb' });
    expect(readCosts(typed)).toMatchObject({ wagePerHour: '21,50', wantedMargin: 0.125 });
    expect(parseMoney(typed.wagePerHour, 'CAD')).toBe(2150);
    // `1,361 kg` may be 1361 kg, so a weight of three decimals keeps its point.
    const heavy = { ...minutes, packageGrams: 1361 };
    const { packageSize } = typeCosts({ ...figures, services: { ...figures.services, grinding: heavy } }, 'kg', 'CAD').services.grinding; // prettier-ignore
    expect(packageSize).toBe('1.361 kg');
    expect(parseReading(packageSize, 'kg')).toMatchObject({ digits: 1361, decimals: 3 });
  });
});
