import { describe, expect, it } from 'vitest';
import type { CostingView, ServiceAnswer } from '../../../src/desk/contract/contract.ts';
import { fatMoneyStory } from '../../../src/ui/charts/money/fat-money-story.ts';
import { grindFeeStory } from '../../../src/ui/charts/money/grind-fee-story.ts';
import { speciesMoneyStory } from '../../../src/ui/charts/money/species-money-story.ts';
import type { ChartStory } from '../../../src/ui/charts/story.ts';
import { workMoneyStory } from '../../../src/ui/charts/money/work-money-story.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { barsOf, faultsOf, wordsOf } from '../plots.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });

const GRINDING: ServiceAnswer = {
  code: 'grinding', measured: [{ figure: 'received', value: 14_000, from: 31, of: 'batches' }], receivedGrams: 14_000,
  finishedGrams: 14_000, hours: 1, packages: 14, costPerJob: 1176, costPerLb: 38, costPerKg: 84, cost: 38,
  parts: { wages: 18, overhead: 8, packaging: 8, fat: 4 }, fee: { service: 40, fat: 5, bills: 12 }, margin: 7 / 45,
  breakEven: 38, wanted: 50, finishedShare: 1, swings: [],
}; // prettier-ignore
function costing(more: Partial<CostingView> = {}): CostingView {
  return {
    season: 2026, currency: 'USD', own: true, billed: 12, made: [], services: [GRINDING], species: [], income: [],
    figures: { wantedMargin: 0.24 } as CostingView['figures'], workCost: { cutting: 0, grinding: 0, products: 0, fat: 0 },
    fat: { usedGrams: 0, unpricedGrams: 0, cost: 0, chargedMinor: 0 }, quotes: { meat: { compared: 0, missed: 0 }, bills: { compared: 0, missed: 0 }, missed: [] }, ...more,
  }; // prettier-ignore
}
const kind = (name: string, animals: number, incomeMinor: number, cost: number) => ({
  code: name.toLowerCase(), name, animals, incomeMinor, cost,
}); // prettier-ignore

/** The words of a picture without a fault. */
function drawn(story: ChartStory): string[] {
  expect(story.plots).not.toEqual([]);
  expect(faultsOf(story)).toEqual([]);
  return wordsOf(story);
}

describe('billed and cost by service', () => {
  const income = [
    { code: 'cutting' as const, minor: 50_000, lines: [] },
    { code: 'extras' as const, minor: 6_000, lines: [] },
  ];
  const story = (workCost: CostingView['workCost']) =>
    workMoneyStory(costing({ income, workCost }), format, '/season/costs');

  it('states the total margin, and the service with the highest', () => {
    const told = story({ cutting: 30_000, grinding: 0, products: 0, fat: 0 });
    expect(told.finding).toBe(
      '$560.00 was billed and cost $300.00: $260.00 is left, 46% of what was billed. Skinning and cutting leaves the most: $200.00.',
    );
    expect(told.table.plain).toEqual([
      ['Skinning and cutting', 50_000, 30_000, 20_000],
      ['Extras', 6_000, null, 6_000],
    ]);
    expect(drawn(told)).toContain('no cost of its own');
  });

  it('names a service that was not paid, and a season at a loss', () => {
    const told = story({ cutting: 54_000, grinding: 9_000, products: 0, fat: 0 });
    expect(told.finding).toBe(
      '$560.00 was billed and cost $630.00: a loss of $70.00. Grinding without fat falls short by $90.00.',
    );
    expect(drawn(told)).toContain('▼ $90.00 short');
  });

  it('has no picture without bills or work', () => {
    expect(workMoneyStory(costing(), format, '').plots).toEqual([]);
  });
});

describe('billed and cost by species', () => {
  const species = [
    kind('Elk', 40, 100_000, 60_000),
    kind('Mule deer', 30, 50_000, 40_000),
    kind('Bison', 1, 9_000, 0),
  ];

  it('compares species with enough animals, and names the others', () => {
    const told = speciesMoneyStory(costing({ species }), format, String);
    expect(told.finding).toBe(
      'Elk has the highest margin (40%), Mule deer the lowest (20%). Too few to tell: Bison.',
    );
    expect(told.n).toBe('n = 71 billed animals');
    drawn(told);
  });

  it('filters to the chosen species, and reports when none of it is billed', () => {
    const one = speciesMoneyStory(costing({ species }), format, String, { code: 'elk', name: 'Elk' });
    expect(one.table.rows.map(([name]) => name)).toEqual(['Elk']);
    const none = speciesMoneyStory(costing({ species }), format, String, { code: 'moose', name: 'Moose' });
    expect(none.finding).toBe('No Moose of the season is billed.');
    expect(none.plots).toEqual([]);
  });

  it('draws animals billed at zero', () => {
    drawn(speciesMoneyStory(costing({ species: [kind('Elk', 1, 0, 0)] }), format, String));
  });
});

describe('the grind fee', () => {
  it('is compared with its cost, with the break-even fee', () => {
    const told = grindFeeStory(costing(), format, '/season/costs');
    expect(told?.finding).toBe(
      'Grinding with fat: the cost is $0.38 a pound and you charge $0.45, which leaves 16%. The break-even fee, fat included, is $0.38 a pound.',
    );
    expect(told?.n).toBe('n = 12 animals billed for it, 31 batches');
    const picture = drawn(told as ChartStory);
    for (const words of ['break-even with fat $0.38', '$0.50 with fat leaves 24%', 'wages', 'grind fee'])
      expect(picture).toContain(words);
  });

  it('adds up piece by piece to what is charged and what it costs', () => {
    const [grind, fat, ...spent] = barsOf(grindFeeStory(costing(), format, '') as ChartStory);
    expect([grind, fat]).toMatchObject([{ from: 0, to: 40 }, { from: 40, to: 45 }]);
    expect(spent.map(({ from, to }) => [from, to])).toEqual([[0, 18], [18, 26], [26, 34], [34, 38]]);
  }); // prettier-ignore

  it('is drawn without a fee, and without a cost', () => {
    const unbilled = { ...GRINDING, fee: null, margin: null };
    drawn(grindFeeStory(costing({ services: [unbilled] }), format, '') as ChartStory);
    const free = { wages: 0, overhead: 0, packaging: 0, fat: 0 };
    drawn(
      grindFeeStory(
        costing({ services: [{ ...unbilled, parts: free, cost: 0, breakEven: 0, wanted: 0 }] }),
        format,
        '',
      ) as ChartStory,
    );
    expect(grindFeeStory(costing({ services: [] }), format, '')).toBeNull();
  });
});

describe('fat bought and charged', () => {
  it('are side by side, and not drawn without any', () => {
    const fat = { usedGrams: 45_359.237, unpricedGrams: 0, cost: 16_000, chargedMinor: 20_000 };
    const told = fatMoneyStory(costing({ fat }), format, '/books');
    expect(told.finding).toContain(
      'Bought fat ground this season: 100 lb, which cost $160.00. Charged for fat so far: $200.00.',
    );
    drawn(told);
    expect(fatMoneyStory(costing(), format, '').plots).toEqual([]);
  });
});
