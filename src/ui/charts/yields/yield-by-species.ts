import type { SpeciesYield, YieldsReport } from '../../../bridge/contract.ts';
import { yieldsText as text } from '../../texts/en/season/yields.ts';
import { text as words } from '../../../words/compiled/shared/common.ts';
import type { Format } from '../../texts/format.ts';
import { FEW, type PlotStory } from '../story.ts';
import { dotsOf, drawYield } from './yield-drawing.ts';
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
): PlotStory {
  const shown = view.species
    .filter(({ spread }) => spread !== null)
    .toSorted((a, b) => countOf(b) - countOf(a));
  const animals = shown.reduce((total, species) => total + countOf(species), 0);
  const dots = dotsOf(shown);
  const share = (value: number | undefined): string => (value === undefined ? '' : format.share(value));
  return {
    title: text.title,
    finding: yieldFinding(shown, format),
    n: text.nAnimals(animals, shown.length),
    notes: [
      text.key(FEW),
      ...publishedNotes(shown, text.keyFrame),
      ...(dots.length < animals ? [text.drawn(dots.length, animals)] : []),
      ...(view.withoutShare > 0 ? [text.untold(view.withoutShare)] : []),
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
    height: yieldHeight(shown.length),
    draw: animals < 2 ? null : (colors) => drawYield(shown, colors, format),
    linkOf: (dataset, index) => {
      if (dataset === 0) return dots[index] ? `/table/${dots[index].point.ticket}` : null;
      return shown[index] ? linkOf(shown[index].code) : null;
    },
  };
}

/** Rows become lower the more species there are, so that the picture stays on one screen. */
const yieldHeight = (rows: number): number => 84 + rows * Math.round(Math.min(64, Math.max(36, 290 / rows)));
const countOf = ({ spread }: SpeciesYield): number => spread?.n ?? 0;
const middleOf = ({ spread }: SpeciesYield): number => spread?.median ?? 0;

/** The species with most animals compared with its published range, then the highest and lowest species. */
function yieldFinding(shown: readonly SpeciesYield[], format: Format): string {
  const count = shown.reduce((total, species) => total + countOf(species), 0);
  const main = shown.toSorted((a, b) => countOf(b) - countOf(a))[0];
  if (!main) return text.none;
  const first = main.points[0];
  if (count === 1 && first) return text.one(first.ticket, main.name, format.share(first.share));
  const share = (species: SpeciesYield): string => format.share(middleOf(species), 0);
  const enough = shown
    .filter((species) => countOf(species) >= FEW)
    .toSorted((a, b) => middleOf(a) - middleOf(b));
  const few = shown
    .filter((species) => countOf(species) < FEW)
    .map((one) => text.kindN(one.name, countOf(one)));
  const [least, most] = [enough[0], enough.at(-1)];
  return [
    text.main(main.name, countOf(main), share(main), against(main, middleOf(main), format)),
    ...(least && most && least !== most ? [text.ends(most.name, share(most), least.name, share(least))] : []),
    ...oddOnes(shown, format),
    ...(few.length > 0 ? [text.few(few.join(', '))] : []),
  ].join(' ');
}

/** The animals far from their species, the farthest of each species first; of many, the first few. */
function oddOnes(shown: readonly SpeciesYield[], format: Format): string[] {
  const odd = shown.flatMap((species) =>
    (whiskersOf(species)?.odd ?? []).map(({ ticket, share }) =>
      text.oddOne(species.name, ticket, format.share(share, 0)),
    ),
  );
  return odd.length === 0 ? [] : [text.odd(odd.slice(0, MAX_NAMED).join(', '), odd.length - MAX_NAMED)];
}

function against({ published }: SpeciesYield, middle: number, format: Format): string {
  if (!published) return text.nothingPublished;
  const range = format.shareRange(published.low, published.high);
  if (middle < published.low) return text.below(range);
  return middle > published.high ? text.above(range) : text.inside(range);
}

/** How the published ranges are drawn, if any, and which species have none. */
export function publishedNotes(shown: readonly SpeciesYield[], key: string): string[] {
  const without = shown.filter(({ published }) => published === null).map(({ name }) => name);
  return [
    ...(without.length < shown.length ? [key] : []),
    ...(without.length > 0 ? [text.unpublished(without.join(', '))] : []),
  ];
}

/** Each source once, with its species. */
export function publishedSources(shown: readonly SpeciesYield[]): string[] {
  const cited = shown.flatMap(({ name, published }) =>
    published ? [{ name, source: words.graded(published) }] : [],
  );
  return [...Map.groupBy(cited, ({ source }) => source)].map(([source, of]) =>
    text.publishedBy(of.map(({ name }) => name).join(', '), source),
  );
}
