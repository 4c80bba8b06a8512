/** What the shop believes of the fat of its trim and of its lots, learned from the fat tests of its finished grinds. */
import type { FatLotRecord } from '../book/fat-lots.ts';
import type { GrindSource, GrindTest } from '../book/tested-grinds.ts';
import { fatOfKind, oneOfKind, withOneOfKind } from '../core/fat-kind.ts';
import { updateFatBeliefs, type FatBelief, type FatGuess } from '../core/fat.ts';
import { Trouble } from './problem.ts';
import type { SpeciesShelf } from './species-shelf.ts';

/** Beliefs at one point of the shop's tests. Where the arithmetic ends below 0 or above 1, it is cut off there. */
export interface FatBelieved {
  trim(animal: { id: number; species: string }): FatGuess;
  lot(lot: Pick<FatLotRecord, 'id' | 'fat' | 'fat_sd'>): FatGuess;
}

export interface FatKnowledge {
  /** After every test so far. */
  readonly now: FatBelieved;
  /** After the tests of the batches begun before this one and none of its own: no test changes its own batch. */
  before(batchId: number): FatBelieved;
}

/** What went into a grind: of a lot, or of an animal's trim. */
export interface WeighedSource {
  animal_id: number | null;
  species: string | null;
  fat_lot_id: number | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
}

/** What is believed of the fat in one weighed part: of its lot, or of its animal's trim. */
export function fatOfSource(believed: FatBelieved, source: WeighedSource): FatGuess {
  const { animal_id: id, species, fat_lot_id: lotId, lot_fat: fat, lot_fat_sd: sd } = source;
  if (lotId !== null && fat !== null) return believed.lot({ id: lotId, fat, fat_sd: sd ?? 0 });
  if (id === null || species === null) throw new Trouble('broken', 'weighing.of-nothing');
  return believed.trim({ id, species });
}

/** What is believed at one point, and the last batch that each source which is gone was met in. */
export interface FatState {
  readonly beliefs: readonly FatBelief[];
  readonly gone: ReadonlyMap<string, number>;
}

export const NOTHING_TESTED: FatState = { beliefs: [], gone: new Map() };

/**
 * The state after the tests of one more batch. Each test moves the fat of all that went in, and with it the mean of their
 * species: so it teaches of the animals to come. What cannot be met again is dropped, so that many seasons cost no more
 * than one.
 */
export function afterTests(
  before: FatState,
  batch: number,
  sources: readonly GrindSource[],
  tests: readonly GrindTest[],
  shelf: Pick<SpeciesShelf, 'of'>,
): FatState {
  let beliefs = before.beliefs;
  const gone = new Map(before.gone);
  for (const source of sources) {
    beliefs = withSource(beliefs, source, shelf);
    if (source.until !== null) gone.set(keyOf(source), source.until);
  }
  const parts = sources.map((source) => ({ id: keyOf(source), grams: source.grams }));
  for (const { fat, sd } of tests)
    beliefs = updateFatBeliefs(beliefs, { parts, measuredFat: fat, measuredSd: sd });
  for (const [id, until] of gone)
    if (until <= batch) {
      gone.delete(id);
      beliefs = beliefs.filter((belief) => belief.id !== id);
    }
  return { beliefs, gone };
}

const trimKey = (id: number): string => `trim ${id}`;
const lotKey = (id: number): string => `fat ${id}`;
const kindKey = (species: string): string => `species ${species}`;

function keyOf({ animal, lot }: GrindSource): string {
  return lot === null ? trimKey(animal ?? 0) : lotKey(lot);
}

/** The beliefs with this source among them, and with its species where it is trim. */
function withSource(
  beliefs: readonly FatBelief[],
  source: GrindSource,
  shelf: Pick<SpeciesShelf, 'of'>,
): readonly FatBelief[] {
  const id = keyOf(source);
  if (beliefs.some((belief) => belief.id === id)) return beliefs;
  const { species, lot_fat: fat, lot_fat_sd: sd } = source;
  if (fat !== null) return [...beliefs, { id, mean: fat, sd: sd ?? 0 }];
  const kind = kindKey(species ?? '');
  const { mean, ownSd } = fatOfKind(shelf.of(species ?? '').trimFat);
  const known = beliefs.some((belief) => belief.id === kind);
  return withOneOfKind(known ? beliefs : [...beliefs, { id: kind, ...mean }], { id, kind, ownSd });
}

export function believedOf(beliefs: readonly FatBelief[], shelf: Pick<SpeciesShelf, 'of'>): FatBelieved {
  const guesses = new Map(beliefs.map(({ id, mean, sd }) => [id, { mean, sd }]));
  return {
    trim({ id, species }) {
      const { trimFat } = shelf.of(species);
      const own = guesses.get(trimKey(id));
      const kind = guesses.get(kindKey(species));
      if (own || !kind) return within(own ?? trimFat);
      return within(oneOfKind({ mean: kind, ownSd: fatOfKind(trimFat).ownSd }));
    },
    lot: ({ id, fat, fat_sd: sd }) => within(guesses.get(lotKey(id)) ?? { mean: fat, sd }),
  };
}

function within({ mean, sd }: FatGuess): FatGuess {
  return { mean: Math.min(1, Math.max(0, mean)), sd };
}
