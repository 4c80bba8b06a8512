import type { YieldRow } from '../book/sums.ts';
import type { SpeciesProfile } from '../core/species.ts';
import {
  gather,
  learn,
  modelFrom,
  rangeOfShares,
  type Group,
  type Part,
  type Range,
  type YieldModel,
  type YieldObservation,
  without,
} from '../core/yield.ts';
import { SPECIES } from './resources.ts';

/** The yield model as the shop's book stands, and what it says of a kind of animal. */
export interface YieldKnowledge {
  model: YieldModel;
  /** Finished animals left out because their weights cannot be right as they stand. */
  leftOut: number;
  /** Shares of the base (hanging or received weight) that 8 in 10 animals of this kind fall in. */
  shares(group: Group): Record<Part, Range>;
  /** The same of the other animals alone: a finished one is not judged by what it taught itself. */
  sharesBeside(animal: Pick<YieldRow, 'id' | 'species' | 'brought' | 'sex' | 'age'>): Record<Part, Range>;
}

export const LEVEL = 0.8;

/** Parts that outweigh their animal by more than this are a mistype waiting to be mended, and teach nothing. */
const MOST_OVER = 1.02;

export function yieldKnowledge(
  finished: readonly YieldRow[],
  profiles: readonly SpeciesProfile[] = SPECIES,
): YieldKnowledge {
  const taught = new Map(
    finished.flatMap((row) => {
      const observation = observationOf(row, profiles);
      return observation ? [[row.id, observation] as const] : [];
    }),
  );
  const sums = gather([...taught.values()]);
  const known = knowledgeOf(modelFrom(profiles, sums));
  return {
    ...known,
    leftOut: finished.filter((row) => wholeTakeHomeGrams(row) !== null).length - taught.size,
    sharesBeside(animal) {
      const own = taught.get(animal.id);
      if (!own) return known.shares(groupOf(animal));
      return rangeOfShares(modelFrom(profiles, without(sums, own)), groupOf(animal), LEVEL);
    },
  };
}

const untaught = new WeakMap<readonly SpeciesProfile[], YieldKnowledge>();

/** What is believed before any of the shop's own animals: the published figures alone. */
export function beforeAnyAnimal(profiles: readonly SpeciesProfile[] = SPECIES): YieldKnowledge {
  let known = untaught.get(profiles);
  if (known) return known;
  const model = knowledgeOf(learn(profiles, []));
  known = { ...model, leftOut: 0, sharesBeside: (animal) => model.shares(groupOf(animal)) };
  untaught.set(profiles, known);
  return known;
}

function knowledgeOf(model: YieldModel): Pick<YieldKnowledge, 'model' | 'shares'> {
  const kept = new Map<string, Record<Part, Range>>();
  return {
    model,
    shares(group) {
      const key = [group.species, group.brought, group.sex, group.age, group.damage].join('/');
      let found = kept.get(key);
      if (!found) kept.set(key, (found = rangeOfShares(model, group, LEVEL)));
      return found;
    },
  };
}

/** The group of an animal as the yield model sees it. */
export function groupOf(animal: Pick<YieldRow, 'species' | 'brought' | 'sex' | 'age'>): Group {
  return { species: animal.species, brought: animal.brought, sex: animal.sex, age: animal.age };
}

/** The weight that shares are shares of: hanging, or as received when it came skinned or in pieces. */
export function baseGrams(animal: Pick<YieldRow, 'brought' | 'hanging' | 'received'>): number | null {
  const onTheHook = animal.brought === 'whole' || animal.brought === 'skinned';
  if (!onTheHook) return animal.received ?? animal.hanging;
  return animal.hanging ?? (animal.brought === 'skinned' ? animal.received : null);
}

/** The animal's own meat and saved fat that goes home, before any fat is added; null while it is not known. */
export function takeHomeGrams(
  row: Omit<YieldRow, 'id' | 'ticket' | 'season' | 'damage_note'>,
): number | null {
  // Steaks packed without being weighed at the table count by their packages, but only when the grind went through a batch.
  const cuts = row.whole_cuts ?? (row.trim_ground > 0 ? row.packed : null);
  if (cuts !== null || row.trim !== null)
    return (cuts ?? 0) + (row.trim ?? row.trim_ground) + (row.fat_saved ?? row.own_fat_ground);
  if (row.packed === null && row.trim_ground === 0) return null;
  return (row.packed ?? 0) + row.trim_ground + row.own_fat_ground;
}

/** As `takeHomeGrams`, but null too while steaks were only packed and their trim still waits for the grinder. */
export function wholeTakeHomeGrams(row: YieldRow): number | null {
  return row.whole_cuts === null && row.trim !== null && row.trim_ground === 0 ? null : takeHomeGrams(row);
}

/** What a finished animal teaches; null while its weights do not tell or cannot be right. */
export function observationOf(
  row: YieldRow,
  profiles: readonly SpeciesProfile[] = SPECIES,
): YieldObservation | null {
  const base = baseGrams(row);
  const takeHome = wholeTakeHomeGrams(row);
  const profile = profiles.find((species) => species.code === row.species);
  if (base === null || takeHome === null || !profile || !canBe(base, row, profile)) return null;
  const { whole_cuts: wholeCuts, trim, fat_saved: fatSaved, bone, sinew, damage } = row;
  if (takeHome + (bone ?? 0) + (sinew ?? 0) + (damage ?? 0) > base * MOST_OVER) return null;
  const known = { wholeCuts, trim, fatSaved, bone, sinew, damage };
  const parts = Object.fromEntries(Object.entries(known).filter(([, grams]) => grams !== null));
  if (bone !== null && sinew !== null)
    parts.shrink = Math.max(0, base - takeHome - bone - sinew - (damage ?? 0));
  return { hangingGrams: base, takeHomeGrams: takeHome, parts, group: groupOf(row) };
}

function canBe(base: number, row: YieldRow, { hangingGrams }: SpeciesProfile): boolean {
  if (row.brought === 'whole' || row.brought === 'skinned')
    return base >= hangingGrams.least && base <= hangingGrams.most;
  return base <= hangingGrams.most;
}
