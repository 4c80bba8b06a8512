import type { FatReport, SpeciesFat } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { drawMisses, pointsOf } from './fat-species-drawing.ts';
import { FEW, NO_GAP, type SceneStory } from '../story.ts';

/** Each species' batches compared with their targets, and the fat used. */
export function fatSpeciesStory(
  { season, species }: FatReport,
  format: Format,
  linkOf: (species: string) => string,
): SceneStory {
  const aimed = species.filter(({ misses }) => misses.weighedIn ?? misses.tested);
  const few = aimed.some(
    ({ misses }) => Math.max(misses.weighedIn?.batches ?? 0, misses.tested?.batches ?? 0) < FEW,
  );
  const share = (value: number | null) => (value === null ? '' : format.share(value));
  return {
    title: text.speciesTitle,
    finding: finding(species, aimed, format),
    n: text.nSpecies({ species: species.length, animals: species.reduce((total, { animals }) => total + animals, 0) }),
    notes: [text.speciesKey, ...(few ? [text.few({ n: FEW })] : []),
      ...(aimed.length < species.length ? [text.tableOnly] : []),
    ],
    sources: [],
    table: {
      head: [
        ...[text.species, text.animals, text.batches, text.target, text.weighedIn, text.tested],
        ...[text.missIn, text.missTest, text.boughtPerAnimal, text.ownFat],
      ],
      rows: species.map((one) => [
        ...[one.name, String(one.animals), String(one.batches)],
        ...[share(one.target), share(one.weighedIn), share(one.tested)],
        ...[one.misses.weighedIn, one.misses.tested].map((miss) => (miss ? pointsOf(miss.mean, format) : '')),
        ...[format.mass(perAnimal(one)), format.mass(one.ownGrams)],
      ]),
      links: species.map(({ code }) => linkOf(code)),
      plainHead: [
        ...[text.species, text.animals, text.batches, text.target, text.weighedIn, text.tested],
        ...[text.missIn, text.missTest, `${text.boughtFat}, g`, `${text.ownFat}, g`],
      ],
      plain: species.map((one) => [
        ...[one.name, one.animals, one.batches, one.target, one.weighedIn, one.tested],
        ...[one.misses.weighedIn?.mean ?? null, one.misses.tested?.mean ?? null, one.boughtGrams, one.ownGrams],
      ]),
    },
    fileName: `fat-species-${season}`,
    scene: aimed.length === 0 ? null : (colors, width) => drawMisses(aimed, format, linkOf, colors, width),
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
