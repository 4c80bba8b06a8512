import { describe, expect, it } from 'vitest';
import type { FlowReport } from '../../../src/desk/contract/contract.ts';
import { addDays } from '../../../src/core/values/dates.ts';
import { daysFrom } from '../../../src/core/forecast/day-counts.ts';
import { hangingStory } from '../../../src/ui/charts/flow/hanging-story.ts';
import { intakeStory } from '../../../src/ui/charts/flow/intake-story.ts';
import type { ChartStory } from '../../../src/ui/charts/story.ts';
import { waitQuantile, waitBins } from '../../../src/ui/charts/flow/wait-bins.ts';
import { waitSpeciesStory } from '../../../src/ui/charts/flow/wait-species-story.ts';
import { waitsStory } from '../../../src/ui/charts/flow/waits-story.ts';
import { backlogSentence, hoursText } from '../../../src/ui/season/backlog-words.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { barsOf, faultsOf, linksOf, plotOf, wordsOf } from '../plots.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const FIRST = '2026-10-05';

const BACKLOG = {
  animals: 0,
  grams: 0,
  unweighed: 0,
  hours: 0,
  trimGrams: 0,
  grindHours: 0,
  ownMinutes: true,
};
function flow(hanging: number[], more: Partial<FlowReport> = {}): FlowReport {
  return {
    season: 2026,
    days: hanging.map((count, i) => ({ on: addDays(FIRST, i), taken: count, hanging: count, ready: 0 })),
    places: 20,
    forecast: [],
    pace: null,
    waits: [],
    waitOf: [],
    backlog: BACKLOG,
    ...more,
  };
}
/** A forecast from the day after the days of `flow`, each mean with two below and three above. */
const ahead = (after: number, means: number[]): Pick<FlowReport, 'forecast' | 'pace'> => ({
  forecast: means.map((mean, i) => ({ on: addDays(FIRST, after + i), low: mean - 2, mean, high: mean + 3 })),
  pace: { takenPerDay: 3.2, cutPerDay: 2.5, days: 18, earlierSeasons: 2 },
});
/** The words of a picture without a fault. */
function drawn(story: ChartStory): string[] {
  expect(story.plots).not.toEqual([]);
  expect(faultsOf(story)).toEqual([]);
  return wordsOf(story);
}

describe('the chart of hanging animals', () => {
  const says = (look: FlowReport, narrowed = false) => hangingStory(look, narrowed, format).finding;

  it('states the day on which the coolers fill, and the earliest possible one', () => {
    const said = says(flow([10, 15], ahead(2, [16, 17, 18, 20, 22, 22, 22])));
    expect(said).toContain('15 animals hang now in 20 spaces.');
    expect(said).toContain('The coolers will most likely be full on Sat, Oct 10.');
    expect(said).toContain('It could be as early as Thu, Oct 8.');
    expect(said).toContain('About 3.2 a day are expected, based on 2 earlier seasons');
    expect(said).toContain('About 2.5 are cut on an open day, as on 18 open days');
  });

  it('states that they may fill, or that they do not', () => {
    const perhaps = says(flow([10], ahead(1, new Array<number>(14).fill(17))));
    expect(perhaps).toContain(
      'will most likely not fill in the next 2 weeks, but they could from Tue, Oct 6 on',
    );
    const not = says(flow([10], ahead(1, new Array<number>(21).fill(9))));
    expect(not).toContain('The coolers will not fill in the next 3 weeks: at most 12 animals hang (80%).');
  });

  it('states that they are full, and when there is room again', () => {
    const said = says(flow([21], ahead(1, [22, 21, 19])));
    expect(said).toContain('21 animals hang now in 20 spaces: the coolers are full.');
    expect(said).toContain('Most likely there is room again on Thu, Oct 8.');
  });

  it('mentions no capacity without coolers', () => {
    const look = flow([1], { places: null, ...ahead(1, [3]) });
    expect(says(look)).toContain('1 animal hangs now. Set up coolers in Shop');
    expect(says(look)).toContain('On Tue, Oct 6 it will be 1–6 (80%).');
    expect(drawn(hangingStory(look, false, format)).join()).not.toContain('spaces');
  });

  it('of a past season states the peak', () => {
    expect(says(flow([5, 22, 21, 3]))).toBe(
      'At most 22 animals hung at once, on Tue, Oct 6. On 2 days more hung than today’s 20 spaces.',
    );
    expect(says(flow([1]))).toBe('At most 1 animal hung at once, on Mon, Oct 5.');
  });

  it('draws no capacity for a filtered view, and says why', () => {
    const story = hangingStory(flow([5, 22]), true, format);
    expect(story.finding).not.toContain('spaces');
    expect(story.notes.join()).toContain('The filter is on');
    expect(drawn(story)).not.toContain('20 spaces');
  });

  it('draws the band from today on, and the table has the same days', () => {
    const story = hangingStory(flow([5, 6, 7], ahead(3, [8, 9])), false, format);
    expect(JSON.stringify(plotOf(story).layers)).toContain('hatch');
    expect(drawn(story)).toContain('today');
    expect(story.table.plain).toHaveLength(5);
    expect(story.table.plain[4]).toEqual(['2026-10-09', null, 7, 9, 12]);
    expect(story.table.rows[3]).toEqual(['Thu, Oct 8', '', '8 (6–11)']);
  });

  it('has no picture without days, and one of a single day or of four hundred', () => {
    expect(hangingStory(flow([]), false, format).plots).toEqual([]);
    drawn(hangingStory(flow([0]), false, format));
    drawn(hangingStory(flow(new Array<number>(400).fill(7)), false, format));
    drawn(intakeStory(flow(new Array<number>(400).fill(7)), format, String));
  });

  it('labels each of a few days, and the Mondays of many', () => {
    const labels = (days: number) => plotOf(intakeStory(flow(new Array<number>(days).fill(1)), format, String)).x;
    expect(labels(9).ticks).toHaveLength(9);
    const { ticks, written } = labels(35);
    // Monday, October 5 is the first day.
    expect(ticks).toEqual([0, 7, 14, 21, 28]);
    expect(ticks?.map(written)).toEqual(['Oct 5', 'Oct 12', 'Oct 19', 'Oct 26', 'Nov 2']);
  }); // prettier-ignore
});

describe('intake by day', () => {
  it('names the busiest day and the busiest weekday', () => {
    const sundays = daysFrom('2026-09-01', '2026-10-31').map((on) => {
      const taken = new Date(on).getUTCDay() === 0 ? 6 : on === '2026-10-14' ? 9 : 1;
      return { on, taken, hanging: taken, ready: 0 };
    });
    const { finding } = intakeStory({ ...flow([]), days: sundays }, format, String);
    expect(finding).toContain('The busiest day was Wed, Oct 14 with 9');
    expect(finding).toMatch(/Sundays bring the most: \d\d% of all\./);
  });

  it('reports no weekday pattern for few animals', () => {
    expect(intakeStory(flow([1]), format, String).finding).toBe('1 animal, received on Mon, Oct 5.');
    expect(intakeStory(flow([1, 0, 1]), format, String).finding).toBe(
      '2 animals came in over 3 days, never more than one a day.',
    );
    expect(intakeStory(flow([2, 0, 1]), format, String).finding).not.toContain('bring most');
  });

  it('links from a bar to the animals of the day', () => {
    const story = intakeStory(flow([2, 0, 3]), format, (on) => `/behind/${on}`);
    expect(linksOf(story)).toEqual(['/behind/2026-10-05', '/behind/2026-10-07']);
    expect(story.table.links).toEqual(['/behind/2026-10-05', '/behind/2026-10-07']);
  });
});

describe('days from intake to ready', () => {
  const waits = [
    { days: 2, animals: 3 },
    { days: 4, animals: 4 },
    { days: 5, animals: 2 },
    { days: 30, animals: 1 },
  ];

  it('states the interquartile range and the number of long waits', () => {
    // 2 2 2 4 4 4 4 5 5 30: quarters at 2.5, 4, 4.75.
    expect(waitsStory(flow([1], { waits }), format, String).finding).toBe(
      'Half of 10 animals took 2.5–4.8 days; the median is 4. 1 animal took more than 8 days.',
    );
  });

  it('describes one animal, and many equal ones, in a sentence', () => {
    const said = (rows: FlowReport['waits']) => waitsStory(flow([1], { waits: rows }), format, String);
    expect(said([]).finding).toContain('is ready yet');
    expect(said([]).plots).toEqual([]);
    expect(said([{ days: 1, animals: 1 }]).finding).toBe(
      'One animal so far took 1 day. One animal shows no spread.',
    );
    expect(said([{ days: 1, animals: 1 }]).plots).toEqual([]);
    expect(said([{ days: 6, animals: 8 }]).finding).toBe('All 8 animals took 6 days.');
    drawn(said([{ days: 6, animals: 8 }]));
    drawn(said([{ days: 0, animals: 2 }]));
    expect(
      said([
        { days: 3, animals: 1 },
        { days: 5, animals: 1 },
      ]).finding,
    ).toContain('That is too few to tell what is typical.');
  });

  it('puts every animal into one bar, and outliers into the last', () => {
    const many = [
      ...Array.from({ length: 12 }, (_, i) => ({ days: i + 1, animals: 20 })),
      { days: 380, animals: 1 },
    ];
    for (const rows of [
      waits,
      many,
      [
        { days: 0, animals: 1 },
        { days: 900, animals: 1 },
      ],
    ]) {
      const bins = waitBins(rows);
      const sum = (all: readonly { animals: number }[]) =>
        all.reduce((total, { animals }) => total + animals, 0);
      expect(sum(bins)).toBe(sum(rows));
      expect(bins.length).toBeLessThanOrEqual(33);
      bins.slice(1).forEach((bin, i) => expect(bin.least).toBe((bins[i]?.most ?? 0) + 1));
    }
    expect(waitBins(many).at(-1)).toEqual({ least: 13, most: 380, label: '13+', animals: 1 });
    const story = waitsStory(flow([1], { waits: many }), format, (least, most) => `/${least}-${most}`);
    expect(linksOf(story).at(-1)).toBe('/13-380');
    // The last bar is the first to get its label.
    expect(plotOf(story).x.ticks?.[0]).toBe(12);
  });

  it('uses the common definition of quartiles', () => {
    expect(waitQuantile(waits, 0.5)).toBe(4);
    expect(waitQuantile(waits, 0.25)).toBe(2.5);
    expect(waitQuantile(waits, 1)).toBe(30);
  });

  const kind = (name: string, n: number, median: number) => ({
    code: name.toLowerCase(),
    name,
    spread: { n, low: median - 2, q1: median - 1, median, q3: median + 1, high: median + 4, mean: median },
  });

  it('names the slowest and the fastest species with enough animals', () => {
    const said = (kinds: FlowReport['waitOf']) =>
      waitSpeciesStory(flow([1], { waitOf: kinds }), format, String).finding;
    expect(said([kind('Elk', 40, 8), kind('Mule deer', 60, 5.5), kind('Bison', 1, 30)])).toBe(
      'Elk takes longest (median 8 days), Mule deer is ready soonest (median 5.5).',
    );
    expect(said([kind('Elk', 40, 8), kind('Mule deer', 60, 8)])).toBe(
      'All take about as long: median 8 days.',
    );
    expect(said([kind('Elk', 2, 8)])).toBe('Elk: median 8 days. That is too few to tell what is typical.');
    expect(said([])).toContain('is ready yet');
  });

  it('draws no box for few animals', () => {
    const bars = (n: number) => {
      const story = waitSpeciesStory(flow([1], { waitOf: [kind('Elk', n, 8)] }), format, String);
      drawn(story);
      return barsOf(story).map(({ from, to }) => [from, to]);
    };
    expect(bars(5)).toEqual([[6, 7], [9, 12], [7, 9]]);
    expect(bars(4)).toEqual([[6, 12]]);
  }); // prettier-ignore
});

describe('the backlog', () => {
  it('is stated in hours, without empty parts', () => {
    expect(
      backlogSentence({ ...BACKLOG, animals: 2, grams: 90_718.474, unweighed: 1, hours: 3.24 }, format),
    ).toBe(
      '2 animals wait to be cut, 200 lb hanging: about 3.2 h at the Table for one cutter. One of them is not weighed yet and counts as typical of its species.',
    );
    expect(backlogSentence({ ...BACKLOG, trimGrams: 45_359.237, grindHours: 12.4 }, format)).toBe(
      '100 lb of trim waits for the grinder, about 12 h.',
    );
    expect(backlogSentence(BACKLOG, format)).toContain('No backlog');
    expect(hoursText(0, format)).toBe('0');
  });
});
