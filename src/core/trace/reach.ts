/** What the meat of a positive animal reached: by a shared batch, or by a grinder that was not cleaned in between. */

/** A batch at work. Moments are UTC ISO text, so they compare as text. */
export interface TracedBatch {
  id: number;
  /** Animals whose trim or own fat was weighed in. */
  animals: readonly number[];
  /** The first weight in. */
  first: string;
  /** The last weight in, or pass through the plate. */
  ground: string;
  /** The same, or the last package where that came later: passes need not be noted. */
  last: string;
}

/** How a batch was reached: the meat itself was weighed in, or the grinder carried it on from another batch. */
export type Reached = { by: 'meat' } | { by: 'grinder'; from: number };

/**
 * Batches that the meat of one animal reached, with the way that is shortest in batches: a breadth-first search. A batch
 * reaches each batch that was at work after its first weight in and began before the first cleaning that followed it. An
 * animal that is reached carries nothing on: its own trim, ground elsewhere, never met the positive meat.
 * Cost: batches reached × (batches + log of cleanings).
 * @param cleanings moments at which the grinder was taken apart and cleaned, in any order
 * @example reachOf(1, [{ id: 7, animals: [1, 2], first: 'a', ground: 'a', last: 'a' }], []) // Map { 7 → { by: 'meat' } }
 */
export function reachOf(
  animal: number,
  batches: readonly TracedBatch[],
  cleanings: readonly string[],
): Map<number, Reached> {
  const cleaned = [...cleanings].sort();
  const reached = new Map<number, Reached>();
  let edge: TracedBatch[] = batches.filter(({ animals }) => animals.includes(animal));
  for (const { id } of edge) reached.set(id, { by: 'meat' });
  while (edge.length > 0) {
    const next: TracedBatch[] = [];
    for (const from of edge) {
      const until = firstFrom(cleaned, from.ground);
      for (const to of batches) {
        if (reached.has(to.id) || to.last <= from.first || (until !== null && to.first >= until)) continue;
        reached.set(to.id, { by: 'grinder', from: from.id });
        next.push(to);
      }
    }
    edge = next;
  }
  return reached;
}

/** The first moment at or after another, in a sorted list; null where there is none. */
function firstFrom(sorted: readonly string[], moment: string): string | null {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? '') < moment) low = middle + 1;
    else high = middle;
  }
  return sorted[low] ?? null;
}
