/** What the shop believes of the fat of its trim and of its lots, learned from the fat tests of its finished grinds. */
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
  /** After the tests of the batches begun before this one and none of its own: no test changes its own batch. */
  before(batchId: number): FatEstimates;
}

/** What is believed at one point, and the last batch that each source which is gone was met in. */
export interface FatState {
  readonly beliefs: readonly CorrelatedFatEstimate[];
  /** How far the animals of each species lie apart, by its code; those not named were never tested. */
  readonly spreads: ReadonlyMap<string, FatSpread>;
  readonly gone: ReadonlyMap<string, number>;
}

export const PRIOR_STATE: FatState = { beliefs: [SHOP], spreads: new Map(), gone: new Map() };

/**
 * The state after the tests of one more batch. Each test moves the fat of all that went in, and with it the mean of their
 * species and, less so, of the shop: so it teaches of the animals to come. How far it lies from its prediction teaches how
 * far animals lie apart. What cannot be met again is dropped, so that many seasons cost no more than one.
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
  let beliefs = withSources(before.beliefs, sources, spreads, shelf);
  for (const { fat, sd } of tests)
    beliefs = updateFatEstimates(beliefs, { parts, measuredFat: fat, measuredSd: sd });
  for (const [id, until] of gone)
    if (until <= batch) {
      gone.delete(id);
      beliefs = beliefs.filter((belief) => belief.id !== id);
    }
  return { beliefs, spreads, gone };
}

/** What the shop's desk asks of a state. */
export function estimatesAt({ beliefs, spreads }: FatState, shelf: FatShelf): FatEstimates {
  return estimatesFrom(beliefs, (species) => varianceRatio(spreads.get(species) ?? PRIOR_SPREAD), shelf);
}

/** Only an animal that no earlier test met tells how far animals lie apart: of the others their own part is known already. */
function spreadsAfter(
  { beliefs, spreads }: FatState,
  sources: readonly GrindSource[],
  test: FatTest,
  shelf: FatShelf,
): ReadonlyMap<string, FatSpread> {
  const grams = sources.reduce((sum, source) => sum + source.grams, 0);
  const known = new Set(beliefs.map(({ id }) => id));
  const own = new Map<string, number>();
  for (const source of sources) {
    if (source.lot !== null || known.has(keyOf(source)) || grams === 0) continue;
    const species = source.species ?? '';
    const { ownSd } = fatOfKind(shelf.of(species).trimFat);
    own.set(species, (own.get(species) ?? 0) + ((source.grams / grams) * ownSd) ** 2);
  }
  if (own.size === 0) return spreads;
  const told = fatTestInnovation(withSources(beliefs, sources, spreads, shelf), test);
  const after = new Map(spreads);
  for (const [species, ownVariance] of own)
    after.set(species, updateSpread(spreads.get(species) ?? PRIOR_SPREAD, { ...told, ownVariance }));
  return after;
}

/** Tests of one batch as one test: their mean weighted by precision tells all that they tell apart. */
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

/** The beliefs with these sources among them, and with their species where they are trim. */
function withSources(
  beliefs: readonly CorrelatedFatEstimate[],
  sources: readonly GrindSource[],
  spreads: ReadonlyMap<string, FatSpread>,
  shelf: FatShelf,
): readonly CorrelatedFatEstimate[] {
  return sources.reduce((all, source) => withSource(all, source, spreads, shelf), beliefs);
}

function withSource(
  beliefs: readonly CorrelatedFatEstimate[],
  source: GrindSource,
  spreads: ReadonlyMap<string, FatSpread>,
  shelf: FatShelf,
): readonly CorrelatedFatEstimate[] {
  const id = keyOf(source);
  if (beliefs.some((belief) => belief.id === id)) return beliefs;
  const { lot_fat: fat, lot_fat_sd: sd } = source;
  if (fat !== null) return [...beliefs, { id, mean: fat, sd: sd ?? 0 }];
  const species = source.species ?? '';
  const kind = kindKey(species);
  const { mean, shopSd, kindSd, ownSd } = fatOfKind(shelf.of(species).trimFat);
  const known = beliefs.some((belief) => belief.id === kind)
    ? beliefs
    : withOneOfKind(beliefs, { id: kind, kind: SHOP.id, offset: mean.mean, loading: shopSd, ownSd: kindSd });
  const ratio = varianceRatio(spreads.get(species) ?? PRIOR_SPREAD);
  return withOneOfKind(known, { id, kind, ownSd: ownSd * Math.sqrt(ratio) });
}
