import type { SeasonChoices, SeasonFilter } from '../../bridge/contract.ts';

/** The sides of a comparison with their groups. */
export type Side = 'a' | 'b';
export type Groups = Record<Side, SeasonFilter>;

/** The default comparison: the two most frequent species, or one species by carcass condition. */
export function firstGroups(base: SeasonFilter, choices: SeasonChoices | null): Groups {
  const [one, two] = (choices?.species ?? []).toSorted((a, b) => b.animals - a.animals);
  if (base.species === undefined && one && two) {
    return { a: { ...base, species: one.code }, b: { ...base, species: two.code } };
  }
  return { a: { ...base, brought: 'skinned' }, b: { ...base, brought: 'whole' } };
}
