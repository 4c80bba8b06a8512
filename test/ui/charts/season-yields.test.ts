import { describe, expect, it } from 'vitest';
import { groupsOfSpecies, groupsOfSplit } from '../../../src/ui/charts/yields/split-rows.ts';
import { splitsStory } from '../../../src/ui/charts/yields/splits-story.ts';
import { trendStory } from '../../../src/ui/charts/yields/trend-story.ts';
import { yieldStory } from '../../../src/ui/charts/yields/yield-by-species.ts';
import type { SpeciesYield } from '../../../src/bridge/contract.ts';
import { barsOf, faultsOf, linksOf, marksOf, pointsOf, wordsOf } from '../plots.ts';
import { format, species, spreadOf, yields } from '../season-looks.ts';

const byName = (code: string): string => `/behind/${code}`;
const spread = (...values: number[]) => spreadOf(values) as NonNullable<ReturnType<typeof spreadOf>>;
const five = (middle: number) => spread(middle - 0.02, middle - 0.01, middle, middle + 0.01, middle + 0.02);

describe('take-home by species', () => {
  it('draws nothing and explains what to do without weights', () => {
    const story = yieldStory(yields({ species: [species('Elk', [])] }), format, byName);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('Weigh them at the Table');
    expect(story.table.rows).toEqual([]);
  });

  it('names a single animal instead of drawing a distribution', () => {
    const story = yieldStory(yields({ species: [species('Elk', [0.512])] }), format, byName);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('26-0001 (Elk) gave 51.2%');
  });

  it.each([
    [[0.5, 0.52, 0.54], 'median yield 52% (3 animals), within the published 45–55%'],
    [[0.6, 0.61, 0.62], 'median yield 61% (3 animals), above the published 45–55%'],
    [[0.3, 0.31, 0.32], 'median yield 31% (3 animals), below the published 45–55%'],
  ])('compares the median of %j with the published range', (shares, said) => {
    expect(yieldStory(yields({ species: [species('Elk', shares)] }), format, byName).finding).toContain(said);
  });

  it('starts with the species of most animals, names highest and lowest, and those with too few', () => {
    const look = yields({
      species: [
        species('Elk', [0.49, 0.5, 0.51, 0.52, 0.53]),
        species('Mule deer', [0.55, 0.56, 0.57, 0.57, 0.58, 0.59]),
        species('Moose', [0.99]),
      ],
    });
    const { finding, n } = yieldStory(look, format, byName);
    expect(finding).toMatch(/^Mule deer: median yield 57% \(6 animals\)/);
    expect(finding).toContain('Highest: Mule deer (57%). Lowest: Elk (51%).');
    expect(finding).toContain('Too few to tell: Moose (1).');
    expect(n).toBe('n = 12 animals of 3 species');
  });

  it('draws a point per animal, a box only from five animals on, and each published band', () => {
    const look = yields({
      species: [
        species('Elk', [0.5, 0.51, 0.52, 0.53, 0.54]),
        species('Moose', [0.5, 0.6], { published: null }),
      ],
    });
    const story = yieldStory(look, format, byName);
    expect(pointsOf(story).filter(({ look: { shape } }) => shape === 'circle')).toHaveLength(7);
    const [band, ...boxed] = barsOf(story);
    expect(band).toMatchObject({ at: 0, from: 0.45, to: 0.55 });
    // Two whiskers and a box of the first row; the second has too few animals.
    expect(boxed.map(({ at, from, to }) => [at, from, to])).toEqual([[0, 0.5, 0.51], [0, 0.53, 0.54], [0, 0.51, 0.53]]); // prettier-ignore
    expect(faultsOf(story)).toEqual([]);
  });

  it('draws whiskers to 1.5 box lengths, and names the animals beyond them', () => {
    // Quartiles 0.51 and 0.53: whiskers reach no farther than 0.48 and 0.56.
    const shares = [0.5, 0.51, 0.52, 0.53, 0.54, 0.8];
    const elk = species('Elk', shares, { spread: { ...five(0.52), n: 6, high: 0.8 } });
    const story = yieldStory(yields({ species: [elk] }), format, byName);
    expect(story.finding).toContain('Unusual, worth a look: Elk 26-0006 (80%).');
    expect(barsOf(story).slice(1, 3)).toMatchObject([{ from: 0.5 }, { to: 0.54 }]);
    expect(pointsOf(story)[5]).toMatchObject({ x: 0.8, y: 0, look: { shape: 'rectRot' } });
    const few = species('Elk', [0.5, 0.8]);
    expect(yieldStory(yields({ species: [few] }), format, byName).finding).not.toContain('Odd');
  });

  it('links each point to its animal, and each box to all of its species', () => {
    const story = yieldStory(yields({ species: [species('Elk', [0.52, 0.5])] }), format, byName);
    // By share: the keys walk through a row from left to right. Two animals have no box.
    expect(marksOf(story).map(({ label, link, quiet }) => [label, link, quiet])).toEqual([
      ['26-0002: 50.0%', '/table/26-0002', true],
      ['26-0001: 52.0%', '/table/26-0001', true],
    ]);
    const five = yieldStory(yields({ species: [species('Elk', [0.5, 0.51, 0.52, 0.53, 0.54])] }), format, byName);
    expect(marksOf(five)[0]).toMatchObject({ label: 'Elk (5): 52.0%', link: '/behind/elk' });
  }); // prettier-ignore

  it('counts all animals when only a sample is drawn, and says so', () => {
    const shown = species('Elk', [0.5, 0.52, 0.54], { spread: { ...spread(0.5, 0.52, 0.54), n: 4000 } });
    const story = yieldStory(yields({ species: [shown], withoutShare: 1 }), format, byName);
    expect(story.n).toBe('n = 4,000 animals of 1 species');
    expect(story.notes[2]).toContain('3 of 4000');
    expect(story.notes[3]).toMatch(/^1 more animal is not shown/);
  });

  it('names each source once, with its species', () => {
    const one = { low: 0.4, high: 0.5, grade: 'extension' as const, source: 'One table' };
    const look = yields({
      species: [species('Elk', [0.5], { published: one }), species('Moose', [0.5], { published: one })],
    });
    expect(yieldStory(look, format, byName).sources).toEqual([
      { said: 'Published range for Elk, Moose: University extension.', published: 'One table' },
    ]);
  });

  it('draws no band for an assumption, and marks it', () => {
    const elk = species('Elk', [0.5, 0.52]);
    const deer = species('Deer', [0.5, 0.52, 0.54], { published: null });
    const story = (shown: SpeciesYield[]) => yieldStory(yields({ species: shown }), format, byName);
    const bands = (shown: SpeciesYield[]): number =>
      barsOf(story(shown)).filter(({ paint }) => typeof paint === 'object' && 'strength' in paint).length;
    expect(bands([deer, elk])).toBe(1);
    expect(bands([deer])).toBe(0);
    expect(story([deer, elk]).finding).toContain('no published range to compare');
    expect(story([deer, elk]).notes.join(' ')).toContain('Gray band');
    expect(story([deer, elk]).notes.join(' ')).toContain('No published range is drawn for Deer');
    expect(story([deer]).notes.join(' ')).not.toContain('Gray band');
    expect(story([elk]).notes.join(' ')).not.toContain('No published range');
    expect(story([deer]).sources).toEqual([]);
  });
});

describe('this season against earlier ones', () => {
  const seasons = (...medians: [season: number, n: number, median: number][]) =>
    medians.map(([season, n, median]) => ({ season, n, q1: median - 0.02, median, q3: median + 0.02 }));
  const story = (...shown: ReturnType<typeof species>[]) =>
    trendStory(yields({ species: shown }), format, (code, season) => `/${code}/${season}`);

  it('waits for a second season', () => {
    const first = story(species('Elk', [0.5], { seasons: seasons([2026, 9, 0.5]) }));
    expect(first.plots).toEqual([]);
    expect(first.finding).toContain('from one season.');
  });

  it.each([
    [0.52, 'Elk: median yield 52.0%, 2.0 points more than in 2025.'],
    [0.49, 'Elk: median yield 49.0%, 1.0 points less than in 2025.'],
    [0.5, 'Elk: median yield 50.0%, the same as in 2025.'],
  ])('describes a change to %d', (now, said) => {
    const elk = species('Elk', [now], { seasons: seasons([2024, 9, 0.4], [2025, 9, 0.5], [2026, 9, now]) });
    expect(story(elk).finding).toBe(said);
  });

  it('does not compare too few animals', () => {
    const elk = species('Elk', [0.5], { seasons: seasons([2025, 4, 0.5], [2026, 9, 0.6]) });
    expect(story(elk).finding).toContain('too few');
  });

  it('draws a bar only from five animals on, links to each season, and keeps older ones in the table', () => {
    const many = Array.from({ length: 12 }, (_, i): [number, number, number] => [
      2015 + i,
      i < 11 ? 4 : 8,
      0.5,
    ]);
    const elk = species('Elk', [0.5], { seasons: seasons(...many) });
    const told = story(elk, species('Moose', [0.6], { seasons: seasons([2026, 1, 0.6]), published: null }));
    expect(linksOf(told)).toEqual([
      ...Array.from({ length: 8 }, (_, i) => `/elk/${2019 + i}`),
      '/moose/2026',
    ]);
    const said = marksOf(told).map(({ label }) => label);
    expect(said).toContain('Elk 2026: 50.0%, n = 8');
    expect(said).toContain('Elk 2025: 50.0%, n = 4, too few to tell');
    expect(barsOf(told)).toMatchObject([{ at: 7, from: 0.48, to: 0.52 }]);
    expect(told.table.rows).toHaveLength(13);
    expect(faultsOf(told)).toEqual([]);
  });
});

describe('splits of the take-home', () => {
  const split = (of: Record<string, ReturnType<typeof spread>>) =>
    Object.entries(of).map(([value, one]) => ({ value, spread: one }));
  const elk = species('Elk', [0.5], {
    splits: {
      brought: split({ skinned: five(0.55), whole: five(0.5) }),
      sex: split({ male: five(0.52) }),
      age: [],
      damaged: split({ yes: spread(0.4), no: five(0.53) }),
      detail: [],
      cutter: split({ DV: five(0.5), JB: five(0.53) }),
    },
  });
  const told = { title: 'x', n: 'n = 10', fileName: 'y' };

  it('report the largest difference between groups with enough animals', () => {
    const story = splitsStory(groupsOfSpecies(elk), format, () => '/', told);
    expect(story.finding).toMatch(
      /^Widest gap: How it came in. Skinned: median 55.0%; Hide on: 50.0% \(5 and 5 animals\)/,
    );
  });

  it('keep the initials of a cutter unchanged', () => {
    const story = splitsStory(groupsOfSplit([elk], 'cutter'), format, () => '/', told);
    expect(story.finding).toMatch(/^Widest gap: Elk. JB: median 53.0%; DV: 50.0%/);
  });

  it('report groups that are too small, and link each row to its animals', () => {
    const story = splitsStory(
      groupsOfSplit([elk], 'damaged'),
      format,
      (filter) => JSON.stringify(filter),
      told,
    );
    expect(story.finding).toContain('No two groups have enough animals');
    expect(wordsOf(story)).toContain('n = 1, too few to tell');
    expect(linksOf(story).map((link) => JSON.parse(link) as unknown)).toEqual([
      { species: 'elk', damaged: false },
      { species: 'elk', damaged: true },
    ]);
    expect(faultsOf(story)).toEqual([]);
  });

  it('draw equal animals, and an outlier', () => {
    const same = species('Elk', [0.5], {
      splits: { ...elk.splits, sex: split({ male: spread(0.5, 0.5, 0.5, 0.5, 0.5) }) },
    });
    expect(faultsOf(splitsStory(groupsOfSplit([same], 'sex'), format, () => '/', told))).toEqual([]);
    const wild = species('Elk', [0.5], {
      splits: { ...elk.splits, sex: split({ male: spread(0.5, 0.5, 0.5, 0.5, 900) }) },
    });
    expect(faultsOf(splitsStory(groupsOfSplit([wild], 'sex'), format, () => '/', told))).toEqual([]);
  });

  it('draw nothing without a split', () => {
    expect(splitsStory(groupsOfSplit([elk], 'age'), format, () => '/', told).plots).toEqual([]);
  });
});
