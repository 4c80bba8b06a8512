/** The current yield model, and its predictions for a kind of animal. */
import type { YieldRow } from '../../book/sums/sums.ts';
import { kindKey, withoutShares } from '../../core/balance/part-shares.ts';
import { shareModel, type ShareModel } from '../../core/balance/share-model.ts';
import { shareBaseOf, sharePrior } from '../../core/balance/share-prior.ts';
import { shiftMean, poolSexes, sexShift } from '../../core/balance/share-sexes.ts';
import type { StudentT } from '../../core/stats/student-t.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import {
  modelFrom,
  rangeOfShare,
  rangeOfShares,
  removeObservation,
  type Group,
  type Part,
  type Range,
  type YieldLesson,
  type YieldModel,
  type YieldObservation,
  type YieldSums,
} from '../../core/yield/yield.ts';
import { predictCutsDeviation } from './cuts-deviation.ts';
import { SPECIES } from '../supplied/resources.ts';
import {
  summariseAnimal,
  mergeSummaries,
  summariseSeason,
  type AnimalSummary,
  type SeasonSummary,
} from './season-summary.ts';
import { groupOf } from './yield-observation.ts';

export interface YieldKnowledge {
  model: YieldModel;
  /** Finished animals left out because their weights are inconsistent. */
  leftOut: number;
  /** Deviation of the whole cuts from the order. */
  cutsOff: StudentT;
  /** Shares of the base (hanging or received weight) with their 8-in-10 ranges. */
  shares(group: Group): Record<Part, Range>;
  /** One part of the same, without computing the others. */
  share(group: Group, part: Part): Range;
  /** The same from the other animals only: a finished animal is not compared with itself. */
  sharesBeside(animal: Pick<YieldRow, 'id' | 'species' | 'brought' | 'sex' | 'age'>): Record<Part, Range>;
  /**
   * The joint distribution of all parts for this kind of animal, learned from the other animals only. @throws
   * ValidationError `yield.species-unknown`
   */
  partShares(animal: Pick<YieldRow, 'id' | 'species' | 'brought' | 'sex'>): ShareModel;
  /** The sums over all of the shop's own animals. */
  readonly sums: YieldSums;
  /** What other shops teach: the same in every season. */
  readonly shops: OtherShops;
  /** The sums over all earlier seasons. */
  before(season: number): YieldSums;
  /** The season's observations by animal id, without uninformative ones. */
  summaryOf(season: number): ReadonlyMap<number, YieldObservation>;
}

/** The data behind the model: each season's sums, and single animals on demand. */
interface LearnedFrom {
  seasons: readonly (SeasonSummary & { season: number })[];
  /** The summary of one finished animal; undefined before it is finished. */
  ofAnimal(id: number): AnimalSummary | undefined;
  ofSeason(season: number): ReadonlyMap<number, YieldObservation>;
}

export const LEVEL = 0.8;
/** What each other shop teaches. */
export type OtherShops = readonly (readonly YieldLesson[])[];

export function knowledgeFrom(
  { seasons, ofAnimal, ofSeason }: LearnedFrom,
  profiles: readonly SpeciesProfile[],
  shops: OtherShops = [],
): YieldKnowledge {
  const { sums, shares, cutsOff, leftOut } = mergeSummaries(seasons);
  const known = knowledgeOf(modelFrom(profiles, sums, shops));
  const beside = new Map<number, Record<Part, Range>>();
  const models = new Map<string, ShareModel>();
  return {
    ...known,
    sums,
    shops,
    leftOut,
    cutsOff: predictCutsDeviation(cutsOff),
    before: (season) => mergeSummaries(seasons.filter((one) => one.season < season)).sums,
    summaryOf: ofSeason,
    sharesBeside(animal) {
      let found = beside.get(animal.id);
      if (found) return found;
      const own = ofAnimal(animal.id)?.observation;
      found = own
        ? rangeOfShares(modelFrom(profiles, removeObservation(sums, own), shops), groupOf(animal), LEVEL)
        : known.shares(groupOf(animal));
      beside.set(animal.id, found);
      return found;
    },
    partShares({ id, species, brought, sex }) {
      const profile = profiles.find(({ code }) => code === species);
      if (!profile) throw new ValidationError('yield.species-unknown', 'species', { species });
      const base = shareBaseOf(brought);
      const kind = kindKey(species, base, sex);
      const own = ofAnimal(id)?.shares;
      const key = own ? `${id}` : kind;
      let model = models.get(key);
      if (!model) {
        const summed = shares[kind];
        const others = summed && own ? { ...shares, [kind]: withoutShares(summed, own) } : shares;
        const both = shareModel(sharePrior(profile, base), poolSexes(others, profile, base));
        model = shiftMean(both, sexShift(profile, base, sex));
        models.set(key, model);
      }
      return model;
    },
  };
}

/** The model from these finished animals, learned in one pass. */
export function yieldKnowledge(
  finished: readonly YieldRow[],
  profiles: readonly SpeciesProfile[] = SPECIES,
): YieldKnowledge {
  const observations = (rows: readonly YieldRow[]) =>
    new Map(
      rows.flatMap((row) => {
        const { observation } = summariseAnimal(row, profiles);
        return observation ? [[row.id, observation] as const] : [];
      }),
    );
  const bySeason = Map.groupBy(finished, ({ season }) => season);
  const byId = new Map(finished.map((row) => [row.id, summariseAnimal(row, profiles)]));
  return knowledgeFrom(
    {
      seasons: [...bySeason].map(([season, rows]) => ({
        season,
        ...summariseSeason(rows.map((row) => summariseAnimal(row, profiles))),
      })),
      ofAnimal: (id) => byId.get(id),
      ofSeason: (season) => observations(bySeason.get(season) ?? []),
    },
    profiles,
  );
}

const withoutAnimals = new WeakMap<readonly SpeciesProfile[], YieldKnowledge>();

/** The prior: the published figures alone, without any of the shop's animals. */
export function priorKnowledge(profiles: readonly SpeciesProfile[] = SPECIES): YieldKnowledge {
  let known = withoutAnimals.get(profiles);
  if (!known) {
    known = knowledgeFrom({ seasons: [], ofAnimal: () => undefined, ofSeason: () => new Map() }, profiles);
    withoutAnimals.set(profiles, known);
  }
  return known;
}

function knowledgeOf(model: YieldModel): Pick<YieldKnowledge, 'model' | 'shares' | 'share'> {
  const cache = new Map<string, Record<Part, Range>>();
  const single = new Map<string, Range>();
  const keyOf = ({ species, brought, sex, age, damage }: Group): string =>
    [species, brought, sex, age, damage].join('/');
  return {
    model,
    shares(group) {
      const key = keyOf(group);
      let found = cache.get(key);
      if (!found) cache.set(key, (found = rangeOfShares(model, group, LEVEL)));
      return found;
    },
    share(group, part) {
      const key = `${keyOf(group)}/${part}`;
      let found = cache.get(keyOf(group))?.[part] ?? single.get(key);
      if (!found) single.set(key, (found = rangeOfShare(model, group, part, LEVEL)));
      return found;
    },
  };
}
