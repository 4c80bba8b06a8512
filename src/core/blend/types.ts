/** Input and result of a blend. Masses in grams, fat and shares as fractions, money in minor units. */

/** One source at the grinder: trim or fat of one kind. */
export interface BlendSource {
  readonly id: string;
  /** Fat as a fraction of the weight, 0 to 1. */
  readonly fat: number;
  /** Standard deviation of that fraction; 0 when left out. */
  readonly fatSd?: number;
  /**
   * Covariance of that fraction with other sources' by their id, in fractions²: the shared component, e.g. the
   * uncertainty of the mean of their kind. Absent means none. Naming a pair once is enough; all pairs must form one
   * valid joint distribution.
   */
  readonly fatCovariance?: Readonly<Record<string, number>>;
  readonly availableGrams: number;
  /** Minor units per kilogram; negative when using it up saves money. */
  readonly costPerKg: number;
  /**
   * Mandatory: all of it goes in, e.g. the hunter's own trim; `stepGrams` is then ignored, because it is weighed
   * already.
   */
  readonly useAll?: boolean;
  /** Minimum and maximum share of the finished batch. */
  readonly minShare?: number;
  readonly maxShare?: number;
  /** Weighed in whole steps of the scale. */
  readonly stepGrams?: number;
  /**
   * Queue position, 0 first: of sources of equal cost, a later one is used only when the earlier ones are used up
   * (first in, first out). Ignored only where no batch is feasible that way.
   */
  readonly queuePosition?: number;
}

export interface FatLimits {
  readonly min: number;
  readonly max: number;
}

export interface BlendRequest {
  readonly sources: readonly BlendSource[];
  /** Fixed size of the batch; when absent, at least one source must be `useAll`. */
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

/** A batch that can be weighed. `parts` follow the order of the requested sources; unused ones have 0 g. */
export interface Batch {
  parts: BlendPart[];
  batchGrams: number;
  fat: number;
  /** Cost of the parts in minor units, not rounded. */
  cost: number;
  /**
   * Range that contains the finished batch's fat 9 times in 10, from `fatSd` and `fatCovariance`: the sources' fat
   * is taken as jointly normal, and the range is clamped to 0 and 1.
   */
  fatRange: { low: number; high: number; level: number };
  /** Probability of staying at or below `sureBelow.fat`; only when requested. */
  probabilityBelow?: number;
}

export interface BlendPlan extends Batch {
  kind: 'plan';
}

/**
 * Why no batch meets every requirement; the first that applies, in this order:
 * - `shares`: the share limits contradict each other, the size or the mandatory trim;
 * - `too-little`: less on hand than the batch; `too-much`: the mandatory trim exceeds the batch;
 * - `too-lean`, `too-fat`: the fattest (leanest) feasible batch is still below (above) the wanted fat, `because`
 *   the sources themselves are, or there is too little on hand, or size and share limits forbid more;
 * - `not-sure`: the fat is feasible, but not with the requested probability (`nearest.probabilityBelow` is
 * reachable);
 * - `steps`: no batch in whole scale steps meets the wanted fat or size (`proven`), or none was found in two
 * seconds.
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
   * The nearest feasible batch: a smaller one with the wanted fat if possible, else one of the wanted size (or as
   * near as possible) with its fat as near as possible. `null` when none is feasible, or none was found in time.
   * `fatOff` = distance from the wanted range; `gramsOff` = made minus requested.
   */
  nearest: (Batch & { fatOff: number; gramsOff: number }) | null;
  /** Leanest and fattest feasible batch at that size, without scale steps; `null` when there is none. */
  reach: { lowest: number; highest: number } | null;
  /** The least extra material that would make it feasible; empty when no amount of these sources does. */
  missing: { id: string; grams: number }[];
}
