import { describe, expect, it } from 'vitest';
import type { FatBatch, FatCounts, FatReport, SpeciesFat } from '../../../src/desk/contract/contract.ts';
import { controlStory } from '../../../src/ui/charts/fat/fat-control.ts';
import { fatStory } from '../../../src/ui/charts/fat/fat-by-batch.ts';
import { ownFatStory } from '../../../src/ui/charts/fat/fat-own.ts';
import { fatSourcesStory } from '../../../src/ui/charts/fat/fat-sources.ts';
import { fatSpeciesStory } from '../../../src/ui/charts/fat/fat-species.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { barsOf, faultsOf, linesOf, linksOf, marksOf, plotOf, pointsOf, wordsOf } from '../plots.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const KG = 1000;

function batch(id: number, figures: Partial<FatBatch>): FatBatch {
  return {
    ...{ id, name: `B-${id}`, on: '2026-11-01', product: 'Ground', species: ['Elk'] },
    ...{ target: null, planned: null, weighedIn: null, tested: null },
    ...figures,
  };
}

function look(some: Partial<Omit<FatReport, 'counts'>> & { counts?: Partial<FatCounts> }): FatReport {
  return {
    season: 2026,
    batches: [],
    control: null,
    sources: [],
    saved: { savedGrams: 0, ownUsedGrams: 0, boughtGrams: 0, animals: 0 },
    species: [],
    ...some,
    counts: {
      batches: some.batches?.length ?? 0,
      ...{ withTarget: 0, onTarget: 0, tested: 0, testedWithTarget: 0, gap: null },
      ...some.counts,
    },
  };
}

describe('fat by batch', () => {
  it('draws nothing without a batch', () => {
    const story = fatStory(look({}), format);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('Grinder');
  });

  it('counts the batches on target and reports the bias of the tests', () => {
    const counts = { batches: 3, withTarget: 2, onTarget: 1, tested: 2, gap: { n: 2, mean: -0.01 } };
    const { finding, n } = fatStory(look({ batches: [batch(1, { target: 0.1 })], counts }), format);
    expect(finding).toBe(
      '1 of 2 batches with a target were weighed in within one point of fat of it. In 2 tests the meat was on average 1.0 points leaner than weighed in.',
    );
    expect(n).toBe('n = 3 batches, 2 with a fat test');
  });

  it('draws the newest with a target or a test, lists all of the answer and states their number', () => {
    const many = Array.from({ length: 60 }, (_, i) =>
      batch(i + 1, i % 2 ? { target: 0.1 } : { weighedIn: 0.03 }),
    );
    const more = Array.from({ length: 20 }, (_, i) => batch(i + 61, { target: 0.1 }));
    const story = fatStory(look({ batches: [...many, ...more], counts: { batches: 900 } }), format);
    const { x } = plotOf(story);
    const labels = x.ticks?.map(x.written);
    expect(labels).toHaveLength(40);
    expect(labels?.at(-1)).toBe('B-80');
    expect(labels).not.toContain('B-59');
    expect(linksOf(story).at(-1)).toBe('/grinder/80');
    expect(story.table.rows).toHaveLength(80);
    expect(story.notes.slice(1)).toEqual([
      'The chart shows the newest 40 with a target or a test, out of 900 batches.',
      'The table lists the newest 80 of 900.',
    ]);
  });
});

describe('fat tests relative to their targets', () => {
  const batches = [
    batch(1, { target: 0.1, tested: 0.11 }),
    batch(2, { target: null, tested: 0.3 }),
    batch(3, { target: 0.2, tested: 0.17 }),
  ];
  const limits = { centre: -0.01, lower: -0.02, upper: 0.02 };

  it('waits for enough tests and states their number', () => {
    const story = controlStory(look({ batches, counts: { testedWithTarget: 2 } }), format);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('Only 2 batches with a target were tested');
  });

  it('names and marks the batch outside the limits', () => {
    const control = { ...limits, outside: [{ id: 3, name: 'B-3' }] };
    const story = controlStory(look({ batches, control, counts: { testedWithTarget: 2 } }), format);
    expect(story.finding).toBe(
      'On average, the tests are 1.0 points below target. B-3 is outside the limits of chance: look for what was different.',
    );
    expect(marksOf(story)[1]).toMatchObject({ label: 'B-3: -3.0', link: '/grinder/3' });
    expect(story.table.rows.map((row) => row[3])).toEqual(['1.0', '-3.0']);
    expect(pointsOf(story).map(({ look: { shape } }) => shape)).toEqual(['circle', 'rectRot']);
    const levels = linesOf(story).filter(({ dash }) => dash);
    expect(levels.map(({ points }) => points.map((point) => point?.y))).toEqual([[0.02, 0.02], [-0.01, -0.01], [-0.02, -0.02]]); // prettier-ignore
  });

  it('names a few of many outside, and states how many are not drawn', () => {
    const outside = Array.from({ length: 9 }, (_, i) => ({ id: i, name: `B-${i}` }));
    const many = Array.from({ length: 50 }, (_, i) => batch(i, { target: 0.1, tested: 0.1 }));
    const story = controlStory(
      look({ batches: many, control: { ...limits, outside }, counts: { testedWithTarget: 50 } }),
      format,
    );
    expect(story.finding).toContain('B-5, B-6, B-7, B-8 and 5 more are outside');
    expect(story.notes[1]).toBe('The chart shows the newest 40 of 50; the limits are based on all of them.');
    expect(linksOf(story)[0]).toBe('/grinder/10');
  });
});

describe('the sources of fat', () => {
  const sources = [
    { source: 'pork-back-fat', name: 'Pork back fat', grams: 300 * KG, batches: 9, costMinor: 82_500 },
    { source: 'own', name: 'Own fat', grams: 100 * KG, batches: 1, costMinor: null },
  ];

  it('names the largest with its share, and draws bars in proportion to the weights', () => {
    const story = fatSourcesStory(look({ sources, counts: { batches: 10 } }), format);
    expect(story.finding).toBe(
      'Pork back fat made up 75% of the fat: 661 lb. The bought fat of lots with a price cost $825.00.',
    );
    expect(story.table.plain).toEqual([
      ['Pork back fat', 300_000, 0.75, 9, 82_500],
      ['The animals’ own fat', 100_000, 0.25, 1, null],
    ]);
    expect(wordsOf(story)).toEqual(expect.arrayContaining(['661 lb (75%)', '220 lb (25%)', 'in 1 batch']));
    const [bought, own] = barsOf(story);
    expect((bought?.to ?? 0) / (own?.to ?? 1)).toBeCloseTo(3, 12);
    expect([bought?.paint, own?.paint]).toMatchObject(['fat', { pattern: 'hatch' }]);
  });

  it('says in a sentence that all of it was the animals’ own', () => {
    const story = fatSourcesStory(look({ sources: sources.slice(1), counts: { batches: 1 } }), format);
    expect(story.finding).toBe('All of the fat was the animals’ own: 220 lb.');
  });

  it('draws nothing without added fat', () => {
    const story = fatSourcesStory(look({}), format);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('No fat went into these batches');
    expect(story.table.rows).toEqual([]);
  });
});

describe('own fat saved, and bought fat', () => {
  const saved = (savedKg: number, usedKg: number, boughtKg: number, animals = 12) =>
    ownFatStory(
      look({
        saved: { savedGrams: savedKg * KG, ownUsedGrams: usedKg * KG, boughtGrams: boughtKg * KG, animals },
      }),
      format,
      '/season/animals',
    );

  it('states how much of it was ground and compares the rest with the bought fat', () => {
    expect(saved(100, 40, 300).finding).toBe(
      '12 animals gave 220 lb of their own fat; 40% of it was ground. The 132 lb not ground is 20% of the fat bought: where hunters want their own fat, the shop could buy that much less.',
    );
  });

  it.each([
    [saved(0, 0, 0, 0), 'No fat was saved from these animals, and none was bought for their batches.'],
    [saved(0, 0, 10, 0), 'No fat was saved from these animals.'],
    [
      saved(10, 10, 0),
      '12 animals gave 22 lb of their own fat; 100% of it was ground. No bought fat went in.',
    ],
    [
      saved(10, 10, 0, 1),
      '1 animal gave 22 lb of its own fat; 100% of it was ground. No bought fat went in.',
    ],
    [saved(5, 9, 10), '9 lb of own fat was ground without being weighed at the Table first.'],
  ])('has a sentence for every case: %#', ({ finding }, sentence) => expect(finding).toBe(sentence));

  it('draws the three side by side, and nothing when all are zero', () => {
    expect(wordsOf(saved(100, 40, 300))).toEqual(expect.arrayContaining(['220 lb', '88 lb', '661 lb']));
    expect(saved(0, 0, 0, 0).plots).toEqual([]);
    expect(faultsOf(saved(1, 0, 0, 1))).toEqual([]);
  });
});

describe('fat by species', () => {
  const species = (name: string, more: Partial<SpeciesFat>): SpeciesFat => ({
    ...{ code: name.toLowerCase(), name, animals: 10, batches: 6, boughtGrams: 45_359, ownGrams: 0 },
    ...{ target: 0.1, weighedIn: 0.104, tested: 0.09, misses: { weighedIn: null, tested: null } },
    ...more,
  });
  const miss = (mean: number, batches = 6) => ({ mean, batches });
  const story = (of: SpeciesFat[]) => fatSpeciesStory(look({ species: of }), format, (code) => `/to/${code}`);

  it('names the species that used most, and the one with the largest deviation of tests', () => {
    const told = story([
      species('Elk', { misses: { weighedIn: miss(0.004), tested: miss(-0.012) }, boughtGrams: 90_718 }),
      species('Moose', { misses: { weighedIn: miss(-0.001), tested: miss(0.03, 2) } }),
    ]);
    const { finding, table } = told;
    // Two batches of moose say little, however far off.
    expect(finding).toBe(
      'Elk took the most bought fat: 20.0 lb per animal. Among species with at least 5 tested batches, Elk is farthest off: 1.2 points below target over 6 batches.',
    );
    expect(table.rows[0]?.slice(3, 9)).toEqual(['10.0%', '10.4%', '9.0%', '+0.4', '−1.2', '20.00 lb']);
    expect(table.links).toEqual(['/to/elk', '/to/moose']);
    expect(wordsOf(told)).toEqual(expect.arrayContaining(['weighed in +0.4', 'tests −1.2 (6)', 'Elk (10)']));
    expect(linksOf(told)).toEqual(['/to/elk', '/to/moose']);
  });

  it('draws no row without a target and nothing at all without any', () => {
    const { plots, table, finding } = story([species('Elk', { target: null, boughtGrams: 0 })]);
    expect(plots).toEqual([]);
    expect(table.rows).toHaveLength(1);
    expect(finding).toBe('None of them took bought fat.');
    expect(story([]).finding).toContain('Nothing has been weighed into these batches yet');
  });

  it('draws all marks on the line when all meet their targets', () => {
    const even = { weighedIn: miss(0), tested: miss(0) };
    const drawn = story([species('Elk', { misses: even })]);
    expect(faultsOf(drawn)).toEqual([]);
    expect(wordsOf(drawn)).toContain('weighed in 0.0');
  });
});
