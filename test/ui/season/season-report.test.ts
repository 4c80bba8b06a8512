import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SplitGroup } from '../../../src/ui/charts/yields/split-rows.ts';
import { halves, poundsStories, speciesStories } from '../../../src/ui/season/report-stories.ts';
import { coverFigures, coverRow, lastPage } from '../../../src/ui/season/report-words.ts';
import { faultsOf, linksOf } from '../plots.ts';
import { format, pounds, species, spreadOf, yields } from '../season-looks.ts';

const spread = (...values: number[]) => spreadOf(values) as NonNullable<ReturnType<typeof spreadOf>>;

describe('the cover', () => {
  it('has the figures of the season, and no share of explained weight without weighed parts', () => {
    const look = yields({ animals: 20, takeHomeGrams: 45_359.237, species: [species('Elk', [0.5])] });
    expect(coverFigures(look, pounds(), format).map(({ figure }) => figure)).toEqual([
      '20',
      '100 lb',
      '1',
      '99.0%',
    ]);
    expect(coverFigures(look, pounds({ n: 0, baseGrams: 0, unexplainedGrams: 0 }), format)).toHaveLength(3);
  });

  it('shows a dash for a species without data', () => {
    expect(coverRow(species('Elk', [], { published: null }), 2026, format)).toEqual({
      name: 'Elk',
      n: '0',
      middle: '–',
      half: '–',
      published: '–',
      before: '–',
    });
  });

  it('compares a species with the last season before, not with its own', () => {
    const seasons = [2023, 2025, 2026].map((season, i) => ({
      season,
      n: 9,
      q1: 0.4,
      median: 0.5 + i / 100,
      q3: 0.6,
    }));
    expect(coverRow(species('Elk', [0.5, 0.54], { seasons }), 2026, format)).toMatchObject({
      middle: '52.0%',
      half: '51.0–53.0%',
      published: '45–55%',
      before: '51.0%',
    });
  });
});

describe('the page of a species', () => {
  const parted = (rows: number): SplitGroup => ({
    title: String(rows),
    rows: Array.from({ length: rows }, (_, i) => ({
      label: `${i}`,
      inSentence: `${i}`,
      spread: spread(0.5),
      filter: {},
    })),
  });

  it('keeps every group, in order, in two halves', () =>
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 2, max: 6 }), { maxLength: 6 }), (sizes) => {
        const groups = sizes.map(parted);
        const parts = halves(groups);
        expect(parts.flat()).toEqual(groups);
        expect(parts.length).toBeLessThanOrEqual(2);
        if (groups.length > 1) expect(parts).toHaveLength(2);
      }),
    ));

  it('shows its own breakdown, and has no links', () => {
    const shares = { 'whole cuts': 0.4, trim: 0.2, 'fat saved': 0, bone: 0.3, sinew: 0.05, damage: 0, shrink: 0.05, unexplained: 0 }; // prettier-ignore
    const of = (code: string, n: number) => ({ code, name: code, n, baseGrams: 1000, shares });
    const elk = species('elk', [0.5, 0.51, 0.52, 0.53, 0.54], {
      splits: {
        brought: ['whole', 'skinned'].map((value) => ({ value, spread: spread(0.5, 0.51, 0.52, 0.53, 0.54) })),
        sex: [], age: [], damaged: [], detail: [], cutter: [],
      },
    }); // prettier-ignore
    const stories = speciesStories(elk, pounds({ species: [of('deer', 7), of('elk', 9)] }), format);
    expect(stories.bars?.n).toBe('n = 9 animals weighed in every part');
    expect(stories.bars?.finding).toBe('elk: 60% of the weight went home.');
    const [narrow] = stories.parted;
    if (!narrow) throw new Error('nothing parted');
    expect(faultsOf(narrow)).toEqual([]);
    expect(linksOf(narrow)).toEqual([]);
    expect(speciesStories(elk, pounds({ species: [of('deer', 7)] }), format).bars).toBeNull();
  });
});

it('the last page lists each source and note once', () => {
  const [flow, losses] = poundsStories(pounds(), format);
  if (!flow || !losses) throw new Error('no charts');
  const table = { said: '', published: 'One table' };
  const another = { said: 'Official.', published: 'Another' };
  const last = lastPage([
    { ...flow, sources: [table] },
    { ...losses, sources: [{ ...table }, another] },
  ]);
  expect(last.sources).toEqual([table, another]);
  expect(last.notes.map(({ title }) => title)).toEqual([flow.title, losses.title]);
  expect(last.notes[0]?.note).toMatch(/^n = 12 animals weighed in every part, 3 more were not\. Hatched/);
});
