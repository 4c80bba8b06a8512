import type { BatchPage, FatLotRow, FatSourceCard } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/labels.ts';

/** The fields of an animal that an ingredient list needs. */
interface Whose {
  ticket: string;
  species: { name: string };
}

/** The raw materials of a batch. */
export interface MadeFrom {
  batch: Pick<BatchPage, 'species' | 'weighedIn'>;
  lots: readonly FatLotRow[];
  animals: readonly Whose[];
  fatSources: readonly Pick<FatSourceCard, 'code' | 'name' | 'animal'>[];
}

/**
 * The ingredients of a batch, heaviest first, each once, without voided weights. Fat always names its species,
 * because pork and beef matter for allergies and religion. Order by weight: common practice, no source for custom
 * packs.
 * @example weighedIngredients(…) // ['Elk', 'Pork back fat']
 */
export function weighedIngredients(made: MadeFrom): string[] {
  const grams = new Map<string, number>();
  for (const row of made.batch.weighedIn) {
    if (row.voided !== null) continue;
    const name = nameOf(row, made);
    grams.set(name, (grams.get(name) ?? 0) + row.grams);
  }
  return [...grams].sort((a, b) => b[1] - a[1]).map(([name]) => name);
}

function nameOf(row: MadeFrom['batch']['weighedIn'][number], made: MadeFrom): string {
  const speciesOf = (ticket: string | null): string =>
    made.animals.find((animal) => animal.ticket === ticket)?.species.name ?? made.batch.species.join(' + ');
  if (row.fatLot === null) return speciesOf(row.ticket);
  const lot = made.lots.find(({ code }) => code === row.fatLot);
  if (!lot) return row.fatLot;
  if (lot.ticket !== null) return text.fatOf({ species: speciesOf(lot.ticket) });
  const source = made.fatSources.find(({ code }) => code === lot.source);
  // The supplied names of bought fat say its animal, in every language.
  const named = !source || source.animal === 'own' || lot.name === source.name;
  return named ? lot.name : text.ofAnimal({ name: lot.name, animal: source.animal });
}
