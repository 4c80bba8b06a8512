import type { SpeciesYield, YieldsReport } from '../../../bridge/contract.ts';
import { text as words } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FEW, type Cited, type ChartStory } from '../story.ts';
import { drawYield } from './yield-drawing.ts';
import { whiskersOf } from './whiskers.ts';

/** More odd animals in a sentence are a list that nobody reads. */
const MAX_NAMED = 3;

/**
 * Take-home as a share of hanging weight: a point per animal, a box per species, published ranges. `linkOf` links
 * to the animals of a species.
 */
export function yieldStory(
  view: YieldsReport,
  format: Format,
  linkOf: (species: string) => string,
): ChartStory {
  const shown = view.species
    .filter(({ spread }) => spread !== null)
    .toSorted((a, b) => countOf(b) - countOf(a));
  const animals = shown.reduce((total, species) => total + countOf(species), 0);
  const drawn = shown.reduce((total, { points }) => total + points.length, 0);
  const share = (value: number | undefined): string => (value === undefined ? '' : format.share(value));
  return {
    title: text.title,
    finding: yieldFinding(shown, format),
    n: text.nAnimals({ animals, species: shown.length }, format),
    notes: [
      text.key({ fewest: FEW }),
      ...publishedNotes(shown),
      ...(drawn < animals ? [text.drawn({ drawn, of: animals })] : []),
      ...(view.withoutShare > 0 ? [text.untold({ n: view.withoutShare })] : []),
    ],
    sources: publishedSources(shown),
    table: {
      head: [
        text.species,
        text.animals,
        text.lowest,
        text.lowerQuarter,
        text.middle,
        text.upperQuarter,
        text.highest,
      ],
      rows: shown.map(({ name, spread: of }) => [
        name,
        String(of?.n ?? 0),
        ...[of?.low, of?.q1, of?.median, of?.q3, of?.high].map(share),
      ]),
      links: shown.map(({ code }) => linkOf(code)),
      plainHead: [text.species, text.ticket, text.takeHomeShare],
      plain: shown.flatMap(({ name, points }) => points.map((point) => [name, point.ticket, point.share])),
    },
    fileName: `take-home-${view.season}`,
    plots: animals < 2 ? [] : [drawYield(shown, format, linkOf)],
  };
}

const countOf = ({ spread }: SpeciesYield): number => spread?.n ?? 0;
const middleOf = ({ spread }: SpeciesYield): number => spread?.median ?? 0;

/** The species with most animals compared with its published range, then the highest and lowest species. */
function yieldFinding(shown: readonly SpeciesYield[], format: Format): string {
  const count = shown.reduce((total, species) => total + countOf(species), 0);
  const main = shown.toSorted((a, b) => countOf(b) - countOf(a))[0];
  if (!main) return text.none;
  const first = main.points[0];
  if (count === 1 && first)
    return text.one({ ticket: first.ticket, species: main.name, share: format.share(first.share) });
  const share = (species: SpeciesYield): string => format.share(middleOf(species), 0);
  const enough = shown
    .filter((species) => countOf(species) >= FEW)
    .toSorted((a, b) => middleOf(a) - middleOf(b));
  const few = shown
    .filter((species) => countOf(species) < FEW)
    .map((one) => text.kindN({ name: one.name, n: countOf(one) }));
  const [least, most] = [enough[0], enough.at(-1)];
  return [
    text.main({
      species: main.name,
      n: countOf(main),
      share: share(main),
      against: against(main, middleOf(main)),
      range: main.published ? format.shareRange(main.published.low, main.published.high) : '',
    }),
    ...(least && most && least !== most
      ? [text.ends({ most: most.name, mostShare: share(most), least: least.name, leastShare: share(least) })]
      : []),
    ...oddOnes(shown, format),
    ...(few.length > 0 ? [text.few({ names: few.join(', ') })] : []),
  ].join(' ');
}

/** The animals far from their species, the farthest of each species first; of many, the first few. */
function oddOnes(shown: readonly SpeciesYield[], format: Format): string[] {
  const odd = shown.flatMap((species) =>
    (whiskersOf(species)?.odd ?? []).map(({ ticket, share }) =>
      text.oddOne({ species: species.name, ticket, share: format.share(share, 0) }),
    ),
  );
  return odd.length === 0
    ? []
    : [text.odd({ names: odd.slice(0, MAX_NAMED).join(', '), more: Math.max(0, odd.length - MAX_NAMED) })];
}

/** Where a median lies in relation to the published range; `other` without one. */
function against({ published }: SpeciesYield, median: number): 'inside' | 'above' | 'below' | 'other' {
  if (!published) return 'other';
  if (median < published.low) return 'below';
  return median > published.high ? 'above' : 'inside';
}

/** How the published ranges are drawn, if any, and which species have none. */
export function publishedNotes(shown: readonly SpeciesYield[]): string[] {
  const without = shown.filter(({ published }) => published === null).map(({ name }) => name);
  return [
    ...(without.length < shown.length ? [text.keyFrame] : []),
    ...(without.length > 0 ? [text.unpublished({ names: without.join(', ') })] : []),
  ];
}

/** Each source once, with its species. */
export function publishedSources(shown: readonly SpeciesYield[]): Cited[] {
  const cited = shown.flatMap(({ name, published }) => (published ? [{ name, published }] : []));
  return [...Map.groupBy(cited, ({ published }) => published.source)].map(([published, of]) => {
    const names = of.map(({ name }) => name).join(', ');
    return { said: text.publishedBy({ names, grade: words.graded(of[0]!.published) }), published };
  });
}
