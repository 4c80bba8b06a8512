import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { fateName } from '../pounds/fates.ts';
import { type ChartStory, FEW } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { unweighedNote } from '../pounds/pounds-story.ts';
import { HOME } from '../engine/part-paint.ts';
import { type BarPart, drawSpeciesBars, ORDER } from './species-bars-drawing.ts';

type Species = PoundsReport['species'][number];

/** The same fates by species as bars of equal length. */
export function speciesBarsStory(
  view: PoundsReport,
  format: Format,
  linkOf: (species: string, part: BarPart) => string,
): ChartStory {
  const shown = view.species.toSorted((a, b) => b.n - a.n || a.name.localeCompare(b.name));
  return {
    title: text.speciesTitle,
    finding: barsFinding(shown, format),
    n: text.n({ n: view.n, others: view.others }),
    notes: [text.speciesKey, ...unweighedNote(view)],
    sources: [],
    table: tableOf(
      shown,
      [
        column(text.kind, ({ name }) => name),
        column('n', ({ n }) => String(n), ({ n }) => n),
        column(text.weight, ({ baseGrams }) => format.mass(baseGrams, 0), ({ baseGrams }) => baseGrams, `${text.weight}, g`),
        ...ORDER.map((part) => column<Species>(fateName(view, part), ({ shares }) => format.share(shares[part]), ({ shares }) => shares[part])),
      ],
      ({ code }) => linkOf(code, 'whole cuts'),
    ),
    fileName: `kinds-${view.season}`,
    plots: shown.length === 0 ? [] : [drawSpeciesBars(view, shown, format, linkOf)],
  }; // prettier-ignore
}

const homeOf = ({ shares }: Species): number => HOME.reduce((total, part) => total + shares[part], 0);

function barsFinding(shown: readonly Species[], format: Format): string {
  const enough = shown.filter(({ n }) => n >= FEW).sort((a, b) => homeOf(b) - homeOf(a));
  const few = shown.filter(({ n }) => n < FEW).map(({ name, n }) => text.kindN({ name, n }));
  const [most, least] = [enough[0], enough.at(-1)];
  const finding =
    !most || !least
      ? []
      : most === least
        ? [text.speciesOne({ name: most.name, share: format.share(homeOf(most), 0) })]
        : [
            text.speciesFinding({
              most: most.name,
              mostShare: format.share(homeOf(most), 0),
              least: least.name,
              leastShare: format.share(homeOf(least), 0),
            }),
          ];
  return [...finding, ...(few.length > 0 ? [text.speciesFew({ names: few.join(', ') })] : [])].join(' ');
}
