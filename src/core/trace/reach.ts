/** What the meat of a positive animal reached: through a shared batch, or through an uncleaned grinder. */

/** When a batch was in the grinder. Times are UTC ISO text, which compares chronologically. */
export interface BatchTimes {
  id: number;
  /** Time of the first weight in or pass. */
  first: string;
  /** Time of the last weight in or pass. */
  ground: string;
  /**
   * The time from which everything weighed in is known to be ground: the last pass if it follows the last weight in,
   * else the first package after it. Null without either: passes need not be recorded.
   */
  clear: string | null;
  /** Time of the last weight in, pass or package. */
  last: string;
}

export interface TracedBatch extends BatchTimes {
  /** Animals whose trim or own fat was weighed in. */
  animals: readonly number[];
}

/** A cleaning of the disassembled grinder. */
export interface TracedCleaning {
  at: string;
  /** The batch after which it was cleaned, if given. */
  batch: number | null;
}

/** How a batch was reached: its meat was weighed in, or the grinder carried residue over from another batch. */
export type Reached = { by: 'meat' } | { by: 'grinder'; from: number };

/**
 * Whether a cleaning removed a batch's residue. Between the last weight in and the first package, meat may still wait
 * unground, so a cleaning in between counts only after a pass, or if it refers to this batch.
 */
export function cleans({ at, batch }: TracedCleaning, { id, ground, clear }: BatchTimes): boolean {
  return at >= ground && (batch === id || (clear !== null && at >= clear));
}

/**
 * The first cleaning after a batch that counts for it, or null.
 * @param cleanings in chronological order
 */
export function cleanedAfter<C extends TracedCleaning>(batch: BatchTimes, cleanings: Iterable<C>): C | null {
  for (const cleaning of cleanings) if (cleans(cleaning, batch)) return cleaning;
  return null;
}

/**
 * Whether residue of one batch was still in the grinder during another: the other one was in the grinder after the
 * first weight in, and started before the cleaning.
 * @param cleaned time of `cleanedAfter` of the first batch; null if there was none
 */
export function carriesTo(from: BatchTimes, to: BatchTimes, cleaned: string | null): boolean {
  return to.id !== from.id && to.last > from.first && (cleaned === null || to.first < cleaned);
}

/**
 * Batches that the meat of one animal reached, each by the path with the fewest batches: a breadth-first search over
 * `carriesTo`. A reached animal is no new source: its own trim, ground elsewhere, never met the positive meat. Cost:
 * batches reached × (batches that are not + cleanings).
 * @param cleanings times of grinder cleanings, in any order
 * @example reachOf(1, [{ id: 7, animals: [1, 2], first: 'a', ground: 'a', clear: 'a', last: 'a' }], []) // Map { 7 → { by: 'meat' } }
 */
export function reachOf(
  animal: number,
  batches: readonly TracedBatch[],
  cleanings: readonly TracedCleaning[],
): Map<number, Reached> {
  const sorted = cleanings.toSorted((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
  const reached = new Map<number, Reached>();
  let edge: TracedBatch[] = batches.filter(({ animals }) => animals.includes(animal));
  for (const { id } of edge) reached.set(id, { by: 'meat' });
  let others = batches.filter(({ id }) => !reached.has(id));
  while (edge.length > 0) {
    const next: TracedBatch[] = [];
    for (const from of edge) {
      const cleaned = cleanedAfter(from, sorted)?.at ?? null;
      const found = others.filter((to) => carriesTo(from, to, cleaned));
      for (const { id } of found) reached.set(id, { by: 'grinder', from: from.id });
      next.push(...found);
      if (found.length > 0) others = others.filter(({ id }) => !reached.has(id));
    }
    edge = next;
  }
  return reached;
}
