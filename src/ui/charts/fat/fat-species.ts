import type { FatReport, SpeciesFat } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { drawMisses, pointsOf } from './fat-species-drawing.ts';
import { type ChartStory, FEW, NO_GAP } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

/** Each species' batches compared with their targets, and the fat used. */
export function fatSpeciesStory(
  { season, species }: FatReport,
  format: Format,
  linkOf: (species: string) => string,
): ChartStory {
  const aimed = species.filter(({ misses }) => misses.weighedIn ?? misses.tested);
  const few = aimed.some(
    ({ misses }) => Math.max(misses.weighedIn?.batches ?? 0, misses.tested?.batches ?? 0) < FEW,
  );
  const share = (value: number | null) => (value === null ? '' : format.share(value));
  const missed = (miss: { mean: number } | null) => (miss ? pointsOf(miss.mean, format) : '');
  return {
    title: text.speciesTitle,
    finding: finding(species, aimed, format),
    n: text.nSpecies({ species: species.length, animals: species.reduce((total, { animals }) => total + animals, 0) }),
    notes: [text.speciesKey, ...(few ? [text.few({ n: FEW })] : []),
      ...(aimed.length < species.length ? [text.tableOnly] : []),
    ],
    sources: [],
    table: tableOf(
      species,
      [
        column(text.species, ({ name }) => name),
        column(text.animals, ({ animals }) => String(animals), ({ animals }) => animals),
        column(text.batches, ({ batches }) => String(batches), ({ batches }) => batches),
        column(text.target, ({ target }) => share(target), ({ target }) => target),
        column(text.weighedIn, ({ weighedIn }) => share(weighedIn), ({ weighedIn }) => weighedIn),
        column(text.tested, ({ tested }) => share(tested), ({ tested }) => tested),
        column(text.missIn, ({ misses }) => missed(misses.weighedIn), ({ misses }) => misses.weighedIn?.mean ?? null),
        column(text.missTest, ({ misses }) => missed(misses.tested), ({ misses }) => misses.tested?.mean ?? null),
        ranged(text.boughtPerAnimal, (one) => format.mass(perAnimal(one)), [[`${text.boughtFat}, g`, ({ boughtGrams }) => boughtGrams]]),
        column(text.ownFat, ({ ownGrams }) => format.mass(ownGrams), ({ ownGrams }) => ownGrams, `${text.ownFat}, g`),
      ],
      ({ code }) => linkOf(code),
    ),
    fileName: `fat-species-${season}`,
    plots: aimed.length === 0 ? [] : [drawMisses(aimed, format, linkOf)],
  }; // prettier-ignore
}

const perAnimal = ({ boughtGrams, animals }: SpeciesFat): number => (animals > 0 ? boughtGrams / animals : 0);

function finding(species: readonly SpeciesFat[], aimed: readonly SpeciesFat[], format: Format): string {
  const [hungriest] = species.toSorted((a, b) => perAnimal(b) - perAnimal(a));
  if (!hungriest) return text.noSpecies;
  const usage =
    perAnimal(hungriest) === 0
      ? text.noFatBought
      : text.mostFat({ name: hungriest.name, perAnimal: format.mass(perAnimal(hungriest), 1) });
  const misses = aimed.flatMap(({ name, misses: { tested } }) =>
    tested && tested.batches >= FEW ? [{ name, ...tested }] : [],
  );
  const [far] = misses.toSorted((a, b) => Math.abs(b.mean) - Math.abs(a.mean));
  if (!far) return usage;
  const off = Math.abs(far.mean);
  const points = format.number(off * 100, 1);
  const tests =
    off < NO_GAP
      ? text.nearest({ few: FEW })
      : text.farthest({ few: FEW, name: far.name, n: far.batches, points, leaner: far.mean < 0 });
  return `${usage} ${tests}`;
}
