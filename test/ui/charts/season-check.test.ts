import { describe, expect, it } from 'vitest';
import type {
  PredictionPath,
  CheckedQuote,
  CheckReport,
  QuoteCoverage,
} from '../../../src/desk/contract/contract.ts';
import { bandBefore } from '../../../src/ui/charts/yields/prediction-band.ts';
import { pathStory } from '../../../src/ui/charts/yields/prediction-path.ts';
import { predictionStory } from '../../../src/ui/charts/yields/prediction.ts';
import { coverageStory } from '../../../src/ui/charts/yields/coverage.ts';
import { quotesStory } from '../../../src/ui/charts/yields/quotes-story.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { barsOf, faultsOf, linksOf, marksOf, plotOf, pointsOf } from '../plots.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });

const kept = (
  n: number,
  held: number,
  low: number,
  high: number,
  bias: number | null = 0,
): QuoteCoverage => ({
  n,
  held,
  honest: { low, high },
  bias,
});
function look(some: Partial<CheckReport>): CheckReport {
  const all = { ...kept(0, 0, 0, 0, null), wrongWeight: 0 };
  return { season: 2026, quotes: [], species: [], paths: [], all, ...some };
}

describe('the chart of quotes', () => {
  const quote = (ticket: string, takeHomeGrams: number): CheckedQuote => ({
    ticket, quote: `Q-${ticket}`, code: 'elk', speciesName: 'Elk', quotedGrams: { low: 45_000, mean: 50_000, high: 55_000 },
    takeHomeGrams, quotedWeightGrams: 90_000, hangingGrams: 100_000,
  }); // prettier-ignore

  it('says what is needed when there are none', () => {
    const story = quotesStory(look({}), format);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('No finished animal here came from a quote');
  });

  it('counts covered quotes, their bias and misses due to a wrong weight', () => {
    const all = { ...kept(3, 1, 1, 3, 0.042), wrongWeight: 1 };
    const story = quotesStory(look({ quotes: [quote('e1', 45_000), quote('e2', 60_000)], all }), format);
    expect(story.finding).toBe(
      '1 of 3 quotes came out within the quoted range; 1–3 is normal for an 80% range. On average, the meat weighed 4% more than quoted. In 1 of the 2 that missed, the quoted weight was more than 5% off the hanging weight.',
    );
    expect(story.notes.at(-1)).toBe('The table lists the newest 2 of 3.');
    expect(linksOf(story)[1]).toBe('/table/e2');
    expect(story.table.plain[1]).toEqual(['e2', 'Q-e2', 'Elk', 45_000, 50_000, 55_000, 60_000, 90_000, 100_000]);
  }); // prettier-ignore

  it('draws each range around its mean, with the observed value', () => {
    const quotes = [quote('e1', 60_000)];
    const story = quotesStory(look({ quotes }), format);
    expect(barsOf(story)).toMatchObject([{ from: 0.9, to: 1.1 }]);
    expect(pointsOf(story).at(-1)).toMatchObject({ x: 1.2, y: 0, look: { shape: 'rectRot' } });
  });
});

describe('coverage of the quotes', () => {
  const species = [
    { code: 'elk', name: 'Elk', ...kept(40, 25, 27, 37, 0.03) },
    { code: 'moose', name: 'Moose', ...kept(10, 8, 5, 10, -0.001) },
    { code: 'bison', name: 'Bison', ...kept(2, 2, 0, 2, -0.1) },
  ];
  const all = { ...kept(52, 35, 36, 47, 0.02), wrongWeight: 3 };
  const story = coverageStory(look({ species, all }), format, (code) => `/to/${code}`);

  it('names the species with an unlikely coverage', () => {
    expect(story.finding).toBe(
      'Quotes for Elk came out within range too rarely: its ranges are too narrow, or off to one side.',
    );
    expect(story.notes[1]).toContain('Fewer than 5 quotes');
    const [elk, moose, bison] = species;
    if (!elk || !moose || !bison) throw new Error('three species');
    const good = look({ species: [moose, bison], all });
    expect(coverageStory(good, format, String).finding).toBe(
      'Quotes of every species come out within range as often as an 80% range should.',
    );
    const wide = look({
      species: [
        { ...elk, held: 40 },
        { ...moose, held: 11 },
      ],
      all,
    });
    expect(coverageStory(wide, format, String).finding).toBe(
      'Quotes for Elk, Moose came out within range more often than they should: their ranges could be narrower.',
    );
  });

  it('draws the total first, each row with its count and bias', () => {
    const rows = marksOf(story);
    expect(rows.map(({ label: says }) => says)).toEqual([
      'All: 35 of 52, 2% heavier',
      'Elk: 25 of 40, 3% heavier',
      'Moose: 8 of 10, as quoted',
      'Bison: 2 of 2, 10% lighter',
    ]);
    expect(rows.map(({ link }) => link)).toEqual(['', '/to/elk', '/to/moose', '/to/bison']);
    expect(faultsOf(story)).toEqual([]);
  });

  it('draws one row for one species, and none without quotes', () => {
    const one = look({ species: species.slice(0, 1), all });
    expect(coverageStory(one, format, String).table.rows).toHaveLength(1);
    const none = coverageStory(look({}), format, String);
    expect(none.plots).toEqual([]);
    expect(none.finding).toContain('No finished animal here came from a quote');
  });
});

const step = (n: number, low: number, high: number) => ({
  ...{ on: '2026-10-01', n },
  ...{ low, mean: (low + high) / 2, high },
});
function path(some: Partial<PredictionPath> = {}): PredictionPath {
  return {
    ...{ code: 'elk', name: 'Elk', earlier: 12, points: [] },
    steps: [step(0, 0.4, 0.6), step(5, 0.42, 0.58), step(10, 0.44, 0.56)],
    ...some,
  };
}
const point = (nth: number, share: number) => ({ ticket: `26-000${nth}`, on: '2026-10-02', nth, share });

describe('the prediction for the next quote', () => {
  it('describes the species with most animals', () => {
    const moose = path({ code: 'moose', name: 'Moose', steps: [step(0, 0.3, 0.5), step(3, 0.35, 0.45)] });
    const story = predictionStory(look({ paths: [moose, path()] }), format);
    expect(story.finding).toBe(
      'Elk: the typical range (80%) of take-home is 44–56% after 10 animals of this season; before the season it was 40–60%.',
    );
    expect(barsOf(story).map(({ from, to }) => [from, to])).toEqual([[0.3, 0.5], [0.4, 0.6], [0.35, 0.45], [0.44, 0.56]]); // prettier-ignore
  });

  it('draws nothing before the first animal of the season', () => {
    const story = predictionStory(look({}), format);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('Quotes are based on what was known before the season');
  });
});

describe('the path of a prediction', () => {
  const asked = { season: 2026, filtered: false };

  it('compares each animal with the band before it', () => {
    const { steps } = path();
    expect(bandBefore(steps, { nth: 1 }).low).toBe(0.4);
    expect(bandBefore(steps, { nth: 5 }).low).toBe(0.4);
    expect(bandBefore(steps, { nth: 6 }).low).toBe(0.42);
    // 41 % is inside the first band and outside the second.
    const story = pathStory(path({ points: [point(5, 0.41), point(6, 0.41)] }), asked, format);
    expect(story.finding).toBe(
      'The typical range (80%) was 40.0–60.0% before the first animal and is 44.0–56.0% now: 8.0 points narrower. 1 of 2 came out within the range expected before they came in.',
    );
    expect(story.n).toBe('n = 10 animals, after 12 of earlier seasons');
    expect(story.table.rows[1]).toEqual(['26-0006', 'Fri, Oct 2', '6', '41.0%', '42.0–58.0%']);
    expect(marksOf(story).map(({ link, quiet }) => [link, quiet])).toEqual([
      ['/table/26-0005', true],
      ['/table/26-0006', true],
    ]);
    expect(pointsOf(story).map(({ look: { paint } }) => paint)).toEqual(['spruce', 'ink']);
  });

  it('reports a wider or unchanged band', () => {
    const wider = pathStory(path({ steps: [step(0, 0.44, 0.56), step(3, 0.4, 0.6)] }), asked, format);
    expect(wider.finding).toContain('8.0 points wider');
    expect(wider.notes.at(-1)).toBe('Fewer than 5 animals are too few to go by.');
    const same = pathStory(path({ steps: [step(0, 0.44, 0.56), step(9, 0.44, 0.5601)] }), asked, format);
    expect(same.finding).toContain('as wide as it was');
  });

  it('keeps an outlier at the edge of the drawing, so that it does not flatten the band', () => {
    const points = [point(1, 0.02), point(2, 0.5)];
    const story = pathStory(path({ points }), { season: 2026, filtered: true }, format);
    expect(story.notes).toEqual([
      expect.stringContaining('Band:'),
      expect.stringContaining('The band is based on all animals'),
      expect.stringContaining('The chart shows 2 of them: none that came in pieces'),
      'One is off the chart and is shown at its edge.',
    ]);
    expect(plotOf(story).y.min).toBeGreaterThan(0.15);
    expect(faultsOf(story)).toEqual([]);
  });

  it('draws a single animal', () => {
    const one = path({ steps: [step(0, 0.4, 0.6), step(1, 0.41, 0.6)], points: [point(1, 0.5)] });
    expect(faultsOf(pathStory(one, asked, format))).toEqual([]);
  });
});
