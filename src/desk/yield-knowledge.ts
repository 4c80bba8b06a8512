import type { YieldRow } from '../book/sums.ts';
import type { OffForetold } from '../core/order-kept.ts';
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
  type YieldSums,
  together,
  without,
} from '../core/yield.ts';
import { cutsOffOf } from './cuts-off.ts';
import { SPECIES } from './resources.ts';
import { baseGrams, wholeTakeHomeGrams } from './take-home.ts';

/** The yield model as the shop's book stands, and what it says of a kind of animal. */
export interface YieldKnowledge {
  model: YieldModel;
  /** Finished animals left out because their weights cannot be right as they stand. */
  leftOut: number;
  /** How far the share kept whole comes out from what is ordered. */
  cutsOff: OffForetold;
  /** Shares of the base (hanging or received weight) that 8 in 10 animals of this kind fall in. */
  shares(group: Group): Record<Part, Range>;
  /** The same of the other animals alone: a finished one is not judged by what it taught itself. */
  sharesBeside(animal: Pick<YieldRow, 'id' | 'species' | 'brought' | 'sex' | 'age'>): Record<Part, Range>;
  /** What the animals of the seasons before this one add up to. */
  before(season: number): YieldSums;
  /** What a finished animal taught; undefined where its weights do not tell or cannot be right. */
  taught(animalId: number): YieldObservation | undefined;
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
  const bySeason = [...Map.groupBy(finished, ({ season }) => season)].map(([season, rows]) => ({
    season,
    sums: gather(rows.flatMap(({ id }) => taught.get(id) ?? [])),
  }));
  const sumsOf = (seasons: typeof bySeason): YieldSums =>
    seasons.reduce((all, one) => together(all, one.sums), {} as YieldSums);
  const sums = sumsOf(bySeason);
  const known = knowledgeOf(modelFrom(profiles, sums));
  const beside = new Map<number, Record<Part, Range>>();
  return {
    ...known,
    leftOut: finished.filter((row) => wholeTakeHomeGrams(row) !== null).length - taught.size,
    cutsOff: cutsOffOf(finished),
    before: (season) => sumsOf(bySeason.filter((one) => one.season < season)),
    taught: (animalId) => taught.get(animalId),
    sharesBeside(animal) {
      const own = taught.get(animal.id);
      if (!own) return known.shares(groupOf(animal));
      let found = beside.get(animal.id);
      if (!found) {
        const others = modelFrom(profiles, without(sums, own));
        beside.set(animal.id, (found = rangeOfShares(others, groupOf(animal), LEVEL)));
      }
      return found;
    },
  };
}

const untaught = new WeakMap<readonly SpeciesProfile[], YieldKnowledge>();

/** What is believed before any of the shop's own animals: the published figures alone. */
export function beforeAnyAnimal(profiles: readonly SpeciesProfile[] = SPECIES): YieldKnowledge {
  let known = untaught.get(profiles);
  if (known) return known;
  const model = knowledgeOf(learn(profiles, []));
  known = {
    ...model,
    leftOut: 0,
    cutsOff: cutsOffOf([]),
    sharesBeside: (animal) => model.shares(groupOf(animal)),
    before: () => ({}),
    taught: () => undefined,
  };
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

/** What a finished animal teaches; null while its weights do not tell or cannot be right. */
export function observationOf(
  row: YieldRow,
  profiles: readonly SpeciesProfile[] = SPECIES,
): YieldObservation | null {
  const base = baseGrams(row);
  const takeHome = wholeTakeHomeGrams(row);
  const profile = profiles.find((species) => species.code === row.species);
  if (base === null || takeHome === null || !profile || !canHang(base, row.brought, profile)) return null;
  const { whole_cuts: wholeCuts, trim, fat_saved: fatSaved, bone, sinew, damage } = row;
  if (takeHome + (bone ?? 0) + (sinew ?? 0) + (damage ?? 0) > base * MOST_OVER) return null;
  const known = { wholeCuts, trim, fatSaved, bone, sinew, damage };
  const parts = Object.fromEntries(Object.entries(known).filter(([, grams]) => grams !== null));
  if (bone !== null && sinew !== null)
    parts.shrink = Math.max(0, base - takeHome - bone - sinew - (damage ?? 0));
  return { hangingGrams: base, takeHomeGrams: takeHome, parts, group: groupOf(row) };
}

/** Whether an animal can weigh so much; what came in pieces may weigh less than a whole one. */
export function canHang(grams: number, brought: string, { hangingGrams }: SpeciesProfile): boolean {
  const whole = brought === 'whole' || brought === 'skinned';
  return grams <= hangingGrams.most && (!whole || grams >= hangingGrams.least);
}
