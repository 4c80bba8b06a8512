import type { SeasonLook } from '../../bridge/contract.ts';
import { seasonText as text } from '../texts/en-season.ts';
import type { Format } from '../texts/format.ts';
import { quantile } from '../../core/quantile.ts';
import type { ChartStory } from './story.ts';
import { drawYield, FEWEST_FOR_A_BOX, sharesOf, yieldLink, type Species } from './yield-drawing.ts';

/** Take-home as a share of hanging weight: one dot for each animal, a box for each species, published ranges. */
export function yieldStory(look: SeasonLook, format: Format): ChartStory {
  const shown = look.species.filter((species) => species.points.length > 0);
  const animals = shown.flatMap((species) => species.points.map((point) => ({ species, point })));
  const ordered = animals.toSorted(
    (a, b) => a.species.name.localeCompare(b.species.name) || a.point.share - b.point.share,
  );
  return {
    title: text.yieldTitle,
    finding: yieldFinding(shown, format),
    n: text.nAnimals(animals.length, shown.length),
    notes: [text.yieldKey(FEWEST_FOR_A_BOX)],
    sources: publishedSources(shown),
    table: {
      head: [text.ticket, text.species, text.takeHomeShare],
      rows: ordered.map(({ species, point }) => [point.ticket, species.name, format.share(point.share)]),
      links: ordered.map(({ point }) => `/table/${point.ticket}`),
      plain: ordered.map(({ species, point }) => [point.ticket, species.name, point.share]),
    },
    fileName: `take-home-${look.season}`,
    height: 110 + 64 * shown.length,
    draw: animals.length < 2 ? null : (colours) => drawYield(shown, colours, format),
    linkOf: (dataset, index) => yieldLink(shown, dataset, index),
  };
}

/** What there is to see: the species with most animals against its published range, then the two ends. */
export function yieldFinding(shown: readonly Species[], format: Format): string {
  const count = shown.reduce((total, species) => total + species.points.length, 0);
  const main = shown.toSorted((a, b) => b.points.length - a.points.length)[0];
  if (!main) return text.noYield;
  const first = main.points[0];
  if (count === 1 && first) return text.oneYield(first.ticket, main.name, format.share(first.share));
  const middle = middleOf(main);
  const sentences = [
    text.mainYield(main.name, main.points.length, format.share(middle, 0), against(main, middle, format)),
  ];
  const ends = shown
    .filter((species) => species.points.length >= 3)
    .toSorted((a, b) => middleOf(a) - middleOf(b));
  const [least, most] = [ends[0], ends.at(-1)];
  if (least && most && least !== most) {
    sentences.push(
      text.yieldEnds(
        most.name,
        format.share(middleOf(most), 0),
        least.name,
        format.share(middleOf(least), 0),
      ),
    );
  }
  return sentences.join(' ');
}

function against(species: Species, middle: number, format: Format): string {
  const published = species.published;
  if (!published) return text.nothingPublished;
  const range = format.shareRange(published.low, published.high);
  if (middle < published.low) return text.belowPublished(range);
  return middle > published.high ? text.abovePublished(range) : text.insidePublished(range);
}

function middleOf(species: Species): number {
  return quantile(sharesOf(species), 0.5);
}

function publishedSources(shown: readonly Species[]): string[] {
  const sources = new Map<string, string[]>();
  for (const { name, published } of shown) {
    if (published) sources.set(published.source, [...(sources.get(published.source) ?? []), name]);
  }
  return [...sources].map(([source, names]) => text.publishedBy(names.join(', '), source));
}
