import { describe, expect, it } from 'vitest';
import type { SeasonLook } from '../../src/desk/shapes.ts';
import { beliefStory } from '../../src/ui/charts/belief.ts';
import type { ChartColours } from '../../src/ui/charts/colours.ts';
import { controlStory } from '../../src/ui/charts/fat-control.ts';
import { fatStory } from '../../src/ui/charts/fat-by-batch.ts';
import { quotesStory } from '../../src/ui/charts/quotes-held.ts';
import { makeFormat } from '../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const colours = Object.fromEntries(
  ['ink', 'muted', 'line', 'card', 'spruce', 'blaze', 'lean', 'fat', 'steel', 'font'].map((name) => [
    name,
    name,
  ]),
) as unknown as ChartColours;

type Species = SeasonLook['species'][number];
type Batch = SeasonLook['batches'][number];

function species(name: string, shares: number[], more: Partial<Species> = {}): Species {
  return {
    code: name.toLowerCase(),
    name,
    points: shares.map((share, i) => ({ id: i + 1, ticket: `26-000${i + 1}`, share, season: 2026 })),
    n: shares.length,
    median: null,
    published: { low: 0.45, high: 0.55, source: `Source of ${name}` },
    believed: { low: 0.48, mean: 0.51, high: 0.54 },
    prior: { low: 0.4, mean: 0.5, high: 0.6 },
    ...more,
  };
}

function batch(id: number, figures: Partial<Batch>): Batch {
  return {
    id,
    name: `B-${id}`,
    at: `2026-11-0${id}T12:00:00Z`,
    target: null,
    planned: null,
    weighedIn: null,
    tested: null,
    species: ['Elk'],
    ...figures,
  };
}

function season(some: Partial<SeasonLook>): SeasonLook {
  return {
    season: 2026,
    animals: 0,
    takeHomeGrams: 0,
    species: [],
    batches: [],
    quotes: { kept: [], honest: { low: 0, high: 0 } },
    control: null,
    ...some,
  };
}

describe('what the next quote rests on', () => {
  it('tells of the species that was cut most', () => {
    const look = season({
      species: [
        species('Elk', [0.5], { believed: { low: 0.42, mean: 0.5, high: 0.58 } }),
        species('Mule deer', [0.5, 0.52]),
      ],
    });
    expect(beliefStory(look, format).finding).toBe(
      'Mule deer: after 2 animals of your own, 8 in 10 are expected to give 48–54 % take-home; before the first it was 40–60 %.',
    );
  });

  it('draws both ranges of each species with animals, and none before the first animal', () => {
    const story = beliefStory(season({ species: [species('Elk', [0.5]), species('Moose', [])] }), format);
    const config = story.draw?.(colours) as unknown as {
      data: { datasets: { data: { xMin: number; x: number; xMax: number }[] }[] };
    };
    expect(config.data.datasets.map(({ data }) => data.map(({ xMin, x, xMax }) => [xMin, x, xMax]))).toEqual([
      [[0.4, 0.5, 0.6]],
      [[0.48, 0.51, 0.54]],
    ]);
    const empty = beliefStory(season({ species: [species('Moose', [])] }), format);
    expect(empty.draw).toBeNull();
    expect(empty.finding).toContain('published figures');
  });
});

describe('fat by batch', () => {
  const batches = [
    batch(1, { target: 0.125, planned: 0.125, weighedIn: 0.127, tested: 0.117 }),
    batch(2, { target: 0.2, planned: 0.2, weighedIn: 0.225, tested: null }),
    batch(3, { weighedIn: 0.05, tested: 0.04 }),
  ];

  it('draws nothing without a batch', () => {
    const story = fatStory(season({}), format);
    expect(story.draw).toBeNull();
    expect(story.finding).toContain('Grinder');
  });

  it('counts the batches on target and says which way the tests lie', () => {
    const { finding, n } = fatStory(season({ batches }), format);
    expect(finding).toContain('1 of 2 batches with a target were weighed in within one point of fat of it.');
    expect(finding).toContain('Over 2 tests the meat came out 1.0 points leaner than weighed in.');
    expect(n).toBe('n = 3 batches, 2 fat tests');
  });

  it('counts a batch exactly one point off as on target', () => {
    const { finding } = fatStory(season({ batches: [batch(1, { target: 0.12, weighedIn: 0.13 })] }), format);
    expect(finding).toContain('The one batch with a target was weighed in within one point of fat of it.');
  });

  it('draws the newest with a target or a test, and keeps all in the table', () => {
    const many = Array.from({ length: 60 }, (_, i) =>
      batch(i + 1, i % 2 ? { target: 0.1 } : { weighedIn: 0.03 }),
    );
    const more = Array.from({ length: 20 }, (_, i) => batch(i + 61, { target: 0.1 }));
    const story = fatStory(season({ batches: [...many, ...more] }), format);
    const config = story.draw?.(colours) as unknown as { data: { labels: string[] } };
    expect(config.data.labels).toHaveLength(40);
    expect(config.data.labels.at(-1)).toBe('B-80');
    expect(config.data.labels).not.toContain('B-59');
    expect(story.linkOf?.(0, 39)).toBe('/grinder/80');
    expect(story.table.rows).toHaveLength(80);
    expect(story.notes[1]).toContain('the newest 40');
  });

  it('leads from each mark to its batch', () => {
    const story = fatStory(season({ batches }), format);
    expect(story.linkOf?.(3, 1)).toBe('/grinder/2');
    expect(story.linkOf?.(0, 9)).toBeNull();
  });
});

describe('fat tests against their targets', () => {
  const batches = [
    batch(1, { target: 0.1, tested: 0.11 }),
    batch(2, { target: null, tested: 0.3 }),
    batch(3, { target: 0.2, tested: 0.17 }),
  ];

  it('waits for enough tests and says how many there are', () => {
    const story = controlStory(season({ batches }), format);
    expect(story.draw).toBeNull();
    expect(story.finding).toContain('Only 2 batches with a target were tested');
  });

  it('names the batch outside by its place among the tests with a target', () => {
    const control = { centre: -0.01, lower: -0.02, upper: 0.02, outside: [1] };
    const story = controlStory(season({ batches, control }), format);
    expect(story.finding).toBe(
      'On average the tests lie 1.0 points below their targets. B-3 is outside the limits of chance: look for what was different.',
    );
    expect(story.linkOf?.(0, 1)).toBe('/grinder/3');
    expect(story.table.rows.map((row) => row[3])).toEqual(['1.0', '-3.0']);
  });

  it('draws the three lines where the limits are', () => {
    const control = { centre: -0.01, lower: -0.02, upper: 0.02, outside: [] };
    const config = controlStory(season({ batches, control }), format).draw?.(colours) as unknown as {
      options: { plugins: { annotation: { annotations: { yMin: number }[] } } };
    };
    expect(config.options.plugins.annotation.annotations.map(({ yMin }) => yMin)).toEqual([
      0.02, -0.01, -0.02,
    ]);
  });
});

describe('were the quotes right', () => {
  const kept = (ticket: string, takeHome: number, told = 100_000) => ({
    ticket, quote: `Q-${ticket}`, speciesName: ticket.startsWith('e') ? 'Elk' : 'Moose',
    quotedGrams: { low: 45_000, mean: 50_000, high: 55_000 }, takeHomeGrams: takeHome, toldGrams: told, hungGrams: 100_000,
  }); // prettier-ignore
  const look = (quotes: ReturnType<typeof kept>[]) =>
    season({ quotes: { kept: quotes, honest: { low: 1, high: 3 } } });

  it('says what would be needed when none came', () => {
    const story = quotesStory(look([]), format);
    expect(story.draw).toBeNull();
    expect(story.finding).toContain('No animal that was quoted first is finished yet');
  });

  it('counts what held, which way it leans and which misses were a weight told wrong', () => {
    const story = quotesStory(
      look([kept('e1', 45_000), kept('e2', 44_999, 90_000), kept('m1', 60_000, 104_000)]),
      format,
    );
    expect(story.finding).toContain('1 of 3 quotes held; with honest ranges it is 1 to 3.');
    expect(story.finding).toContain('In 1 of the 2 that missed');
    // (-10 - 10 + 20) / 3 % is none.
    expect(story.finding).toContain('On average the meat came out as quoted.');
    expect(story.notes[0]).toContain('Elk 1 of 2, Moose 0 of 1');
    expect(story.linkOf?.(1, 2)).toBe('/table/m1');
    expect(story.table.plain[1]).toEqual([
      'e2',
      'Q-e2',
      'Elk',
      45_000,
      50_000,
      55_000,
      44_999,
      90_000,
      100_000,
    ]);
  });

  it('draws each range about what was most likely, and its result on it', () => {
    const config = quotesStory(look([kept('e1', 60_000)]), format).draw?.(colours) as unknown as {
      data: { datasets: { data: { x: number; xMin?: number; xMax?: number }[]; pointStyle?: string[] }[] };
    };
    const [ranges, results] = config.data.datasets;
    expect(ranges?.data[0]).toMatchObject({ xMin: 0.9, xMax: 1.1 });
    expect(results?.data[0]?.x).toBe(1.2);
    expect(results?.pointStyle).toEqual(['rectRot']);
  });
});
