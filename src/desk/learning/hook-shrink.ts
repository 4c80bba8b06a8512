/** The loss between received and hanging weight, learned from animals weighed twice. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { Book } from '../../book/book.ts';
import type { HookPair } from '../../book/records/hook-pairs.ts';
import { daysBetween } from '../../core/values/dates.ts';
import { learnShrink, type ShrinkModel, type ShrinkPair } from '../../core/cold/shrink-model.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';

export interface HookShrink {
  /**
   * The lost share of the received weight at the hanging weight, learned from the other animals.
   * @param hungAt moment of the hanging weight; null: not weighed, so only hide and head count
   */
  lost(animal: Came, species: SpeciesProfile, receivedGrams: number, hungAt: string | null): Lost;
}

interface ShrinkLearning {
  /** The current model. */
  knowledge(profiles: readonly SpeciesProfile[], zone: string): HookShrink;
}

type Came = Pick<AnimalRow, 'id' | 'species' | 'brought' | 'legs' | 'sex' | 'received_on'>;
type Lost = { mean: number; sd: number };

/** Caches the pairs and rereads only changed animals. @param dayOf the shop's date at a moment, by its zone */
export function shrinkLearning(
  book: Pick<Book, 'hookPairs' | 'changes'>,
  dayOf: (moment: string) => string,
): ShrinkLearning {
  let pairs: Map<number, HookPair> | undefined;
  let mark = 0;
  let known: { profiles: readonly SpeciesProfile[]; zone: string; shrink: HookShrink } | undefined;

  function read(): void {
    const changed = pairs && book.changes.since(mark);
    mark = changed?.mark ?? book.changes.mark();
    if (!pairs || !changed) {
      pairs = new Map(book.hookPairs.newest().map((pair) => [pair.id, pair]));
      known = undefined;
      return;
    }
    for (const id of changed.animals.keys()) {
      const pair = book.hookPairs.of(id);
      // Cut parts change an animal too, but not its loss on the hook.
      if (isSame(pair, pairs.get(id))) continue;
      if (pair) pairs.set(id, pair);
      else pairs.delete(id);
      known = undefined;
    }
  }

  return {
    knowledge(profiles, zone) {
      read();
      if (known?.profiles !== profiles || known.zone !== zone)
        known = { profiles, zone, shrink: shrinkOf(pairs?.values() ?? [], profiles, dayOf) };
      return known.shrink;
    },
  };
}

/**
 * Longest time on the hook. More days come from a wrong date or clock, or from a file with intake dates only; the
 * loss would then be unbounded. Our choice, no source.
 */
const MAX_DAYS = 60;

function isSame(one: HookPair | undefined, other: HookPair | undefined): boolean {
  if (!one || !other) return one === other;
  return (Object.keys(one) as (keyof HookPair)[]).every((key) => one[key] === other[key]);
}

function shrinkOf(
  pairs: Iterable<HookPair>,
  profiles: readonly SpeciesProfile[],
  dayOf: (moment: string) => string,
): HookShrink {
  const byCode = new Map(profiles.map((profile) => [profile.code, profile]));
  const days = (from: string, to: string): number =>
    Math.min(MAX_DAYS, Math.max(0, daysBetween(from, dayOf(to))));
  const model: ShrinkModel = learnShrink(
    Array.from(pairs, ({ received_on, hung_at, received, hanging, ...pair }): ShrinkPair => ({
      ...pair,
      receivedGrams: received,
      hangingGrams: hanging,
      days: days(received_on, hung_at),
    })),
    (code) => byCode.get(code),
  );
  return {
    lost: ({ id, species, brought, legs, sex, received_on }, profile, receivedGrams, hungAt) =>
      model.expected(
        { species, brought, legs, sex, receivedGrams, days: hungAt === null ? 0 : days(received_on, hungAt) },
        profile,
        id,
      ),
  };
}
