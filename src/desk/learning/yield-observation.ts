/** Converts a finished animal to an observation of the yield model. */
import type { YieldRow } from '../../book/sums/sums.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { Group, YieldObservation } from '../../core/yield/yield.ts';
import { SPECIES } from '../supplied/resources.ts';
import { baseGrams, wholeTakeHomeGrams } from './take-home.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/** Parts that outweigh their animal by more than this are an uncorrected slip and are not used. */
const MAX_OVER = 1.02;

/** The group of an animal in the yield model. */
export function groupOf(animal: Pick<YieldRow, 'species' | 'brought' | 'sex' | 'age'>): Group {
  return { species: animal.species, brought: animal.brought, sex: animal.sex, age: animal.age };
}

/** The observation of a finished animal; null while its weights are incomplete or inconsistent. */
export function observationOf(
  row: YieldRow,
  profiles: readonly SpeciesProfile[] = SPECIES,
): YieldObservation | null {
  const base = baseGrams(row);
  const takeHome = wholeTakeHomeGrams(row);
  const profile = profiles.find((species) => species.code === row.species);
  if (base === null || takeHome === null || !profile || !canHang(base, row.brought, profile)) return null;
  const { whole_cuts: wholeCuts, trim, fat_saved: fatSaved, bone, sinew, damage } = row;
  if (takeHome + (bone ?? 0) + (sinew ?? 0) + (damage ?? 0) > base * MAX_OVER) return null;
  const known = { wholeCuts, trim, fatSaved, bone, sinew, damage };
  // A part that was not weighed is unknown, not zero.
  const parts = Object.fromEntries(Object.entries(known).filter(([, grams]) => grams !== null));
  if (bone !== null && sinew !== null && damage !== null)
    parts.shrink = Math.max(0, base - takeHome - bone - sinew - damage);
  return { hangingGrams: base, takeHomeGrams: takeHome, parts, group: groupOf(row) };
}

/** Whether an animal can have this weight; pieces may weigh less than a whole one. */
export function canHang(grams: number, brought: string, { hangingGrams }: SpeciesProfile): boolean {
  const whole = isWholeCarcass(brought);
  return grams <= hangingGrams.most && (!whole || grams >= hangingGrams.least);
}
