/** What a blend is asked with and answered with. Masses in grams, fat and shares as fractions, money in minor units. */

/** One tub on the grinder's bench: trim or fat of one kind. */
export interface BlendSource {
  readonly id: string;
  /** Fat as a fraction of the weight, 0 to 1. */
  readonly fat: number;
  /** Standard deviation of that fraction; 0 when left out. */
  readonly fatSd?: number;
  /**
   * Covariance of that fraction with other sources' by their id, in fractions²: what they share, e.g. the doubt about the
   * mean of their kind. Absent means none. Naming a pair once is enough; all together must be of one joint distribution.
   */
  readonly fatCovariance?: Readonly<Record<string, number>>;
  readonly availableGrams: number;
  /** Minor units per kilogram; negative when using it up saves money. */
  readonly costPerKg: number;
  /** All of it goes in, e.g. the hunter's own trim; `stepGrams` is then ignored, for it is weighed already. */
  readonly useAll?: boolean;
  /** Least and greatest share of the finished batch. */
  readonly minShare?: number;
  readonly maxShare?: number;
  /** Weigh it in whole steps of the scale. */
  readonly stepGrams?: number;
  /**
   * Place in the queue, 0 first: of sources that cost the same, one with a later turn goes in only when those with an
   * earlier turn are used up (first in, first out). Left aside only where no batch can be made that way.
   */
  readonly queuePosition?: number;
}

export interface FatLimits {
  readonly min: number;
  readonly max: number;
}

export interface BlendRequest {
  readonly sources: readonly BlendSource[];
  /** Fixed size of the batch; when left out, at least one source must be `useAll`. */
  readonly batchGrams?: number;
  readonly fat: FatLimits;
  /** The batch must stay at or below `fat` with this probability (0.5 to below 1). */
  readonly sureBelow?: { readonly fat: number; readonly probability: number };
}

export interface BlendPart {
  id: string;
  grams: number;
  share: number;
}

/** A batch that can be weighed out. `parts` follow the order of the sources asked; unused ones hold 0 g. */
export interface Batch {
  parts: BlendPart[];
  batchGrams: number;
  fat: number;
  /** Cost of the parts in minor units, not rounded. */
  cost: number;
  /**
   * Range that holds the finished batch's fat 9 times in 10, from `fatSd` and `fatCovariance`: the sources' fat is
   * taken as jointly normal, and the range is cut off at 0 and 1, where fat cannot go.
   */
  fatRange: { low: number; high: number; level: number };
  /** Probability of staying at or below `sureBelow.fat`; only when that was asked. */
  probabilityBelow?: number;
}

export interface BlendPlan extends Batch {
  kind: 'plan';
}

/**
 * Why no batch meets every wish; the first that applies, in this order:
 * - `shares`: the share limits contradict each other, the size or the trim that must all go in;
 * - `too-little`: less on hand than the batch; `too-much`: the trim that must all go in is more than the batch;
 * - `too-lean`, `too-fat`: the fattest (leanest) batch that can be made is still below (above) the wanted fat,
 *   `because` the sources themselves are, or there is too little on hand, or size and share limits forbid more;
 * - `not-sure`: the fat can be met, but not as surely as asked (`nearest.probabilityBelow` tells how surely);
 * - `steps`: the scale's whole steps jump over the wanted fat or size (`proven`), or no batch in whole steps that
 *   meets them was found in two seconds.
 */
export type InfeasibleReason =
  | { code: 'shares' }
  | { code: 'too-little'; mostGrams: number; missingGrams: number }
  | { code: 'too-much'; leastGrams: number; surplusGrams: number }
  | { code: 'too-lean'; highestFat: number; because: 'sources' | 'amounts' | 'limits' }
  | { code: 'too-fat'; lowestFat: number; because: 'sources' | 'amounts' | 'limits' }
  | { code: 'not-sure' }
  | { code: 'steps'; proven: boolean };

export interface InfeasibleBlend {
  kind: 'impossible';
  why: InfeasibleReason;
  /**
   * The nearest batch that can be made: a smaller one with the wanted fat if there is one, else one of the
   * wanted size (or as near to it as can be) with its fat as near as possible. `null` when there is none at all, or none was found in time.
   * `fatOff` = distance from the wanted range; `gramsOff` = made minus asked.
   */
  nearest: (Batch & { fatOff: number; gramsOff: number }) | null;
  /** Leanest and fattest batch reachable at that size, scale steps left aside; `null` when there is none. */
  reach: { lowest: number; highest: number } | null;
  /** The least extra material that would make it possible; empty when no amount of these sources would. */
  missing: { id: string; grams: number }[];
}
