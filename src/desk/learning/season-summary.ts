/** Summarises a season's finished animals as sums that can be stored and added. */
import { createHash } from 'node:crypto';
import type { YieldRow } from '../../book/sums/sums.ts';
import {
  addShares,
  joinShares,
  kindKey,
  type KindSums,
  type PartShares,
  type ShareSums,
} from '../../core/balance/part-shares.ts';
import { shareBaseOf } from '../../core/balance/share-prior.ts';
import type { DeviationSums } from '../../core/yield/order-deviation.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import {
  summarise,
  mergeSums,
  type Group,
  type YieldObservation,
  type YieldSums,
} from '../../core/yield/yield.ts';
import { cutsDeviation } from './cuts-deviation.ts';
import { partSharesOf } from './part-shares.ts';
import { wholeTakeHomeGrams } from './take-home.ts';
import { observationOf } from './yield-observation.ts';

/** Increase it with every change to the summary, so that stored summaries are recomputed. */
const SUMMARY_VERSION = 5;

/** Everything that decides which weights are used and how: another set of species gives other summaries. */
export function summaryKey(profiles: readonly SpeciesProfile[]): string {
  const relevant = profiles.map(({ code, hangingGrams }) => [code, hangingGrams.least, hangingGrams.most]);
  return `${SUMMARY_VERSION}-${createHash('sha256').update(JSON.stringify(relevant)).digest('hex').slice(0, 16)}`;
}

/** Plain data, stored in the book as JSON. */
export interface SeasonSummary {
  sums: YieldSums;
  /** Joint shares of all parts, for the balance. */
  shares: ShareSums;
  cutsOff: DeviationSums;
  /** Finished animals left out because their weights are inconsistent. */
  leftOut: number;
}

/** The training data of one finished animal. */
export interface AnimalSummary {
  observation: YieldObservation | null;
  /** Null for inconsistent weights. */
  shares: PartShares | null;
  cutOff: number | null;
  leftOut: boolean;
}

const EMPTY_SUMMARY: SeasonSummary = {
  sums: {},
  shares: {},
  cutsOff: { n: 0, sum: 0, squares: 0 },
  leftOut: 0,
};

export function summariseAnimal(row: YieldRow, profiles: readonly SpeciesProfile[]): AnimalSummary {
  const observation = observationOf(row, profiles);
  const profile = profiles.find(({ code }) => code === row.species);
  return {
    observation,
    shares: observation && profile ? partSharesOf(row, observation, profile) : null,
    cutOff: cutsDeviation(row),
    leftOut: observation === null && wholeTakeHomeGrams(row) !== null,
  };
}

export function summariseSeason(animals: Iterable<AnimalSummary>): SeasonSummary {
  const observations: YieldObservation[] = [];
  const cutsOff = { n: 0, sum: 0, squares: 0 };
  const shares: Record<string, KindSums> = {};
  let leftOut = 0;
  for (const animal of animals) {
    const { observation } = animal;
    if (observation) observations.push(observation);
    if (observation && animal.shares) addShares(shares, keyOf(observation.group), animal.shares);
    if (animal.leftOut) leftOut += 1;
    if (animal.cutOff === null) continue;
    cutsOff.n += 1;
    cutsOff.sum += animal.cutOff;
    cutsOff.squares += animal.cutOff ** 2;
  }
  return { sums: summarise(observations), shares, cutsOff, leftOut };
}

/** The kind of animal whose sums include its shares. */
function keyOf({ species, brought, sex = 'unknown' }: Group): string {
  return kindKey(species, shareBaseOf(brought), sex);
}

export function mergeSummaries(seasons: readonly SeasonSummary[]): SeasonSummary {
  return seasons.reduce(
    (all, one) => ({
      sums: mergeSums(all.sums, one.sums),
      shares: joinShares(all.shares, one.shares),
      cutsOff: {
        n: all.cutsOff.n + one.cutsOff.n,
        sum: all.cutsOff.sum + one.cutsOff.sum,
        squares: all.cutsOff.squares + one.cutsOff.squares,
      },
      leftOut: all.leftOut + one.leftOut,
    }),
    EMPTY_SUMMARY,
  );
}
