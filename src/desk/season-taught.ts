/** What a season's finished animals teach, boiled down to sums that can be kept and joined. */
import type { YieldRow } from '../book/sums.ts';
import type { OffSums } from '../core/order-kept.ts';
import type { SpeciesProfile } from '../core/species.ts';
import { gather, together, type YieldObservation, type YieldSums } from '../core/yield.ts';
import { cutOff } from './cuts-off.ts';
import { wholeTakeHomeGrams } from './take-home.ts';
import { observationOf } from './yield-observation.ts';

/** Plain data: kept in the book as JSON. */
export interface SeasonTaught {
  sums: YieldSums;
  cutsOff: OffSums;
  /** Finished animals left out because their weights cannot be right as they stand. */
  leftOut: number;
}

/** What one finished animal teaches. */
export interface AnimalTaught {
  observation: YieldObservation | null;
  cutOff: number | null;
  leftOut: boolean;
}

const NOTHING_TAUGHT: SeasonTaught = { sums: {}, cutsOff: { n: 0, sum: 0, squares: 0 }, leftOut: 0 };

export function animalTaught(row: YieldRow, profiles: readonly SpeciesProfile[]): AnimalTaught {
  const observation = observationOf(row, profiles);
  return {
    observation,
    cutOff: cutOff(row),
    leftOut: observation === null && wholeTakeHomeGrams(row) !== null,
  };
}

export function seasonTaught(animals: Iterable<AnimalTaught>): SeasonTaught {
  const observations: YieldObservation[] = [];
  const cutsOff = { n: 0, sum: 0, squares: 0 };
  let leftOut = 0;
  for (const animal of animals) {
    if (animal.observation) observations.push(animal.observation);
    if (animal.leftOut) leftOut += 1;
    if (animal.cutOff === null) continue;
    cutsOff.n += 1;
    cutsOff.sum += animal.cutOff;
    cutsOff.squares += animal.cutOff ** 2;
  }
  return { sums: gather(observations), cutsOff, leftOut };
}

export function joined(seasons: readonly SeasonTaught[]): SeasonTaught {
  return seasons.reduce(
    (all, one) => ({
      sums: together(all.sums, one.sums),
      cutsOff: {
        n: all.cutsOff.n + one.cutsOff.n,
        sum: all.cutsOff.sum + one.cutsOff.sum,
        squares: all.cutsOff.squares + one.cutsOff.squares,
      },
      leftOut: all.leftOut + one.leftOut,
    }),
    NOTHING_TAUGHT,
  );
}
