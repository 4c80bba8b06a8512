/** What the meat of a positive animal reached: by a shared batch, or by a grinder that was not cleaned in between. */

/** When a batch was at work. Moments are UTC ISO text, so they compare as text. */
export interface BatchTimes {
  id: number;
  /** The first weight in, or pass through the plate. */
  first: string;
  /** The last weight in, or pass through the plate. */
  ground: string;
  /**
   * From when on all that was weighed in is known to be ground: the last pass where one came after the last weight in, else
   * the first package from then on. Null while neither is there: passes need not be noted.
   */
  clear: string | null;
  /** The last weight in, pass or package. */
  last: string;
}

export interface TracedBatch extends BatchTimes {
  /** Animals whose trim or own fat was weighed in. */
  animals: readonly number[];
}

/** The grinder taken apart and cleaned. */
export interface TracedCleaning {
  at: string;
  /** The batch after which it was cleaned, where somebody said so. */
  batch: number | null;
}

/** How a batch was reached: the meat itself was weighed in, or the grinder carried it on from another batch. */
export type Reached = { by: 'meat' } | { by: 'grinder'; from: number };

/**
 * Whether a cleaning took what a batch left in the grinder. Between its last weight in and its first package, meat may wait
 * unground, so a cleaning then counts only after a pass, or where it names this batch.
 */
export function cleans({ at, batch }: TracedCleaning, { id, ground, clear }: BatchTimes): boolean {
  return at >= ground && (batch === id || (clear !== null && at >= clear));
}

/**
 * The first cleaning after a batch that counts for it; null where there is none.
 * @param cleanings sorted by their moments
 */
export function cleanedAfter<C extends TracedCleaning>(batch: BatchTimes, cleanings: Iterable<C>): C | null {
  for (const cleaning of cleanings) if (cleans(cleaning, batch)) return cleaning;
  return null;
}

/**
 * Whether what one batch left in the grinder was still there while another was at work: that was at work after the first
 * weight in, and began before the grinder was cleaned.
 * @param cleaned the moment of `cleanedAfter` of the first; null where it was not cleaned
 */
export function carriesTo(from: BatchTimes, to: BatchTimes, cleaned: string | null): boolean {
  return to.id !== from.id && to.last > from.first && (cleaned === null || to.first < cleaned);
}

/**
 * Batches that the meat of one animal reached, with the way that is shortest in batches: a breadth-first search. A batch
 * reaches others as `carriesTo` says. An animal that is reached carries nothing on: its own trim, ground elsewhere, never met
 * the positive meat. Cost: batches reached × (batches that are not + cleanings).
 * @param cleanings moments at which the grinder was taken apart and cleaned, in any order
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
