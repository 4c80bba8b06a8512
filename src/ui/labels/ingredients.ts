import type { BatchPage, FatLotRow, FatSourceCard } from '../../bridge/contract.ts';
import { text as labelText } from '../../words/compiled/window/labels.ts';

/** The fields of an animal that an ingredient list needs. */
interface Whose {
  ticket: string;
  species: { name: string };
}

/** The animal of a fat as its name says it, in the languages of labels. */
const ANIMAL_IN_NAME = {
  pork: /(?<!\p{L})(pork|cerdo|porc)(?!\p{L})/iu,
  beef: /(?<!\p{L})(beef|res|bœuf)(?!\p{L})/iu,
};

/** The raw materials of a batch. */
export interface MadeFrom {
  batch: Pick<BatchPage, 'species' | 'weighedIn'>;
  lots: readonly FatLotRow[];
  animals: readonly Whose[];
  fatSources: readonly Pick<FatSourceCard, 'code' | 'animal'>[];
}

/**
 * The ingredients of a batch, heaviest first, each once, without voided weights. Fat always names its species,
 * because pork and beef matter for allergies and religion. Order by weight: common practice, no source for custom
 * packs.
 * @example weighedIngredients(…) // ['Elk', 'Pork back fat']
 */
export function weighedIngredients(made: MadeFrom, text: typeof labelText = labelText): string[] {
  const grams = new Map<string, number>();
  for (const row of made.batch.weighedIn) {
    if (row.voided !== null) continue;
    const name = nameOf(row, made, text);
    grams.set(name, (grams.get(name) ?? 0) + row.grams);
  }
  return [...grams].sort((a, b) => b[1] - a[1]).map(([name]) => name);
}

function nameOf(row: MadeFrom['batch']['weighedIn'][number], made: MadeFrom, text: typeof labelText): string {
  const speciesOf = (ticket: string | null): string =>
    made.animals.find((animal) => animal.ticket === ticket)?.species.name ?? made.batch.species.join(' + ');
  if (row.fatLot === null) return speciesOf(row.ticket);
  const lot = made.lots.find(({ code }) => code === row.fatLot);
  if (!lot) return row.fatLot;
  if (lot.ticket !== null) return text.fatOf({ species: speciesOf(lot.ticket) });
  const animal = made.fatSources.find(({ code }) => code === lot.source)?.animal;
  const named = !animal || animal === 'own' || ANIMAL_IN_NAME[animal].test(lot.name);
  return named ? lot.name : text.ofAnimal({ name: lot.name, animal });
}
