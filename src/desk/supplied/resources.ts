/** Data supplied with the program: species, fats, cautions and the example prices. */
import exampleJson from '../../../resources/example-prices.json' with { type: 'json' };
import cautionsJson from '../../../resources/cautions.json' with { type: 'json' };
import fatsJson from '../../../resources/fats.json' with { type: 'json' };
import speciesJson from '../../../resources/species.json' with { type: 'json' };
import { GROUND_HEAT } from '../../core/cold/ground-heat.ts';
import type { Caution, Grade, Sourced, SpeciesProfile } from '../../core/species/species.ts';
import { ProblemError } from '../contract/problem.ts';
import type { FatChoice, FatSourceCard, PriceLineRow, SpeciesCard } from '../contract/contract.ts';

interface FatSource extends FatSourceCard, Sourced {
  grade: Grade;
  sd: number;
}

export const SPECIES = speciesJson as unknown as readonly SpeciesProfile[];
export const FATS = fatsJson as readonly FatSource[];
export const CAUTIONS = cautionsJson as readonly Caution[];
type Example = Omit<PriceLineRow, 'recipes' | 'least'>;
const withoutMinimum = (lines: readonly Example[]): PriceLineRow[] =>
  lines.map((line) => ({ ...line, recipes: [], least: null }));
/** Invented prices per unit system: an example to be replaced, not advice. */
export const EXAMPLE_PRICES: Readonly<Record<'lb' | 'kg', PriceLineRow[]>> = {
  lb: withoutMinimum(exampleJson.lb as Example[]),
  kg: withoutMinimum(exampleJson.kg as Example[]),
};

const byCode = new Map(SPECIES.map((species) => [species.code, species]));

/** @throws ProblemError `species.unknown` */
export function speciesOf(code: string): SpeciesProfile {
  const found = byCode.get(code);
  if (!found)
    throw new ProblemError('missing', 'species.unknown', { field: 'species', with: { species: code } });
  return found;
}

/** The supplied estimate of an animal's own saved fat. */
export function ownFatSource(species: SpeciesProfile): FatSource {
  const code = species.family === 'pig' ? 'own-fat-boar' : 'own-fat';
  const own = FATS.find((fat) => fat.code === code);
  if (!own) throw new ProblemError('broken', 'resources.own-fat');
  return own;
}

/** @throws ProblemError `fat.unknown` */
export function boughtFatSource(code: string): FatSource {
  const found = FATS.find((fat) => fat.code === code && fat.animal !== 'own');
  if (!found) throw new ProblemError('missing', 'fat.unknown', { field: 'source', with: { source: code } });
  return found;
}

/** None, the animal's own, or a bought source. @throws ProblemError `fat.unknown` */
export function requireFatChoice(choice: FatChoice): void {
  if (choice !== 'none' && choice !== 'own') boughtFatSource(choice);
}

export function speciesCard(species: SpeciesProfile, own = false): SpeciesCard {
  const { code, name, many, body, words, primals, cautions } = species;
  return {
    code,
    name,
    many,
    body,
    words,
    primals: primals.map(({ code: primal, name: called, pair, share }) => ({
      code: primal,
      name: called,
      pair,
      share,
    })),
    cookTo: GROUND_HEAT,
    cautions: [...cautions],
    own,
  };
}
