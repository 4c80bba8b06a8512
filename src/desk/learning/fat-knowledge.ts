/** The estimated fat of the shop's trim and lots, learned from the fat tests of its finished grinds. */
import type { GrindSource, GrindTest } from '../../book/records/tested-grinds.ts';
import { fatOfKind, withOneOfKind } from '../../core/fat/kind.ts';
import { PRIOR_SPREAD, updateSpread, varianceRatio, type FatSpread } from '../../core/fat/spread.ts';
import {
  fatTestInnovation,
  updateFatEstimates,
  type CorrelatedFatEstimate,
  type FatTest,
} from '../../core/fat/fat.ts';
import {
  estimatesFrom,
  kindKey,
  lotKey,
  SHOP,
  trimKey,
  type FatEstimates,
  type FatShelf,
} from './fat-estimates.ts';

export interface FatKnowledge {
  /** After every test so far. */
  readonly now: FatEstimates;
  /** After the tests of earlier batches only: no test affects its own batch. */
  before(batchId: number): FatEstimates;
}

/** The estimates at one point, and the last batch of each source that has left. */
export interface FatState {
  readonly estimates: readonly CorrelatedFatEstimate[];
  /** Animal-to-animal spread of each species, by its code; absent ones were never tested. */
  readonly spreads: ReadonlyMap<string, FatSpread>;
  readonly gone: ReadonlyMap<string, number>;
}

export const PRIOR_STATE: FatState = { estimates: [SHOP], spreads: new Map(), gone: new Map() };

/**
 * The state after the tests of one more batch. Each test updates the fat of all its sources, and through them the
 * mean of their species and, less, of the shop, so it informs future animals. Its distance from its prediction
 * informs the animal-to-animal spread. Sources that cannot recur are dropped, so that many seasons cost no more
 * than one.
 */
export function afterTests(
  before: FatState,
  batch: number,
  sources: readonly GrindSource[],
  tests: readonly GrindTest[],
  shelf: FatShelf,
): FatState {
  const gone = new Map(before.gone);
  for (const source of sources) if (source.until !== null) gone.set(keyOf(source), source.until);
  const parts = sources.map((source) => ({ id: keyOf(source), grams: source.grams }));
  const spreads =
    tests.length > 0
      ? spreadsAfter(before, sources, { parts, ...meanOfTests(tests) }, shelf)
      : before.spreads;
  let estimates = withSources(before.estimates, sources, spreads, shelf);
  for (const { fat, sd } of tests)
    estimates = updateFatEstimates(estimates, { parts, measuredFat: fat, measuredSd: sd });
  for (const [id, until] of gone)
    if (until <= batch) {
      gone.delete(id);
      estimates = estimates.filter((belief) => belief.id !== id);
    }
  return { estimates: estimates, spreads, gone };
}

/** The estimates of a state for the desk. */
export function estimatesAt({ estimates: estimates, spreads }: FatState, shelf: FatShelf): FatEstimates {
  return estimatesFrom(estimates, (species) => varianceRatio(spreads.get(species) ?? PRIOR_SPREAD), shelf);
}

/** Only animals without an earlier test inform the spread: the others' own deviations are partly known already. */
function spreadsAfter(
  { estimates: estimates, spreads }: FatState,
  sources: readonly GrindSource[],
  test: FatTest,
  shelf: FatShelf,
): ReadonlyMap<string, FatSpread> {
  const grams = sources.reduce((sum, source) => sum + source.grams, 0);
  const known = new Set(estimates.map(({ id }) => id));
  const own = new Map<string, number>();
  for (const source of sources) {
    if (source.lot !== null || known.has(keyOf(source)) || grams === 0) continue;
    const species = source.species ?? '';
    const { ownSd } = fatOfKind(shelf.of(species).trimFat);
    own.set(species, (own.get(species) ?? 0) + ((source.grams / grams) * ownSd) ** 2);
  }
  if (own.size === 0) return spreads;
  const innovation = fatTestInnovation(withSources(estimates, sources, spreads, shelf), test);
  const after = new Map(spreads);
  for (const [species, ownVariance] of own)
    after.set(species, updateSpread(spreads.get(species) ?? PRIOR_SPREAD, { ...innovation, ownVariance }));
  return after;
}

/** Combines the tests of one batch into one: the precision-weighted mean is sufficient. */
function meanOfTests(tests: readonly GrindTest[]): { measuredFat: number; measuredSd: number } {
  const precision = tests.reduce((sum, { sd }) => sum + 1 / sd ** 2, 0);
  return {
    measuredFat: tests.reduce((sum, { fat, sd }) => sum + fat / sd ** 2, 0) / precision,
    measuredSd: Math.sqrt(1 / precision),
  };
}

function keyOf({ animal, lot }: GrindSource): string {
  return lot === null ? trimKey(animal ?? 0) : lotKey(lot);
}

/** The estimates extended by these sources, and by their species for trim. */
function withSources(
  estimates: readonly CorrelatedFatEstimate[],
  sources: readonly GrindSource[],
  spreads: ReadonlyMap<string, FatSpread>,
  shelf: FatShelf,
): readonly CorrelatedFatEstimate[] {
  return sources.reduce((all, source) => withSource(all, source, spreads, shelf), estimates);
}

function withSource(
  estimates: readonly CorrelatedFatEstimate[],
  source: GrindSource,
  spreads: ReadonlyMap<string, FatSpread>,
  shelf: FatShelf,
): readonly CorrelatedFatEstimate[] {
  const id = keyOf(source);
  if (estimates.some((belief) => belief.id === id)) return estimates;
  const { lot_fat: fat, lot_fat_sd: sd } = source;
  if (fat !== null) return [...estimates, { id, mean: fat, sd: sd ?? 0 }];
  const species = source.species ?? '';
  const kind = kindKey(species);
  const { mean, shopSd, kindSd, ownSd } = fatOfKind(shelf.of(species).trimFat);
  const known = estimates.some((belief) => belief.id === kind)
    ? estimates
    : withOneOfKind(estimates, {
        id: kind,
        kind: SHOP.id,
        offset: mean.mean,
        loading: shopSd,
        ownSd: kindSd,
      });
  const ratio = varianceRatio(spreads.get(species) ?? PRIOR_SPREAD);
  return withOneOfKind(known, { id, kind, ownSd: ownSd * Math.sqrt(ratio) });
}
