/** Holds a station's outbox against the desk's book, which may be another or an older one than that which answered. */
import type { AnsweredLine, BookHas, HeldDecision } from '../../../desk/contract/stations.ts';
import { lacking, type KeptEntry, type LinePlace, type OutboxStore } from './outbox.ts';

export interface ComparedStore extends OutboxStore {
  /** Every entry, oldest first. */
  all(): Promise<KeptEntry[]>;
  /** Deletes entries. */
  forget(entries: readonly KeptEntry[]): Promise<void>;
}

/** Entries that stay though they stand in a backup: an older backup may be restored. Our choice, no source. */
const KEPT = 2_000;

/**
 * Lets everything wait again that the book does not have, and forgets old entries that stand in a verified backup of it.
 * @param ask asks the desk what its book has of these lines
 * @returns what the shop decided of the entries of another book; null for nothing yet
 */
export async function compareOutbox(
  store: ComparedStore,
  ask: (lines: readonly AnsweredLine[]) => Promise<BookHas>,
): Promise<HeldDecision | null> {
  const place = await store.line();
  const entries = await store.all();
  const { lines, decision } = await ask(answeredLines(entries, place));
  const known = new Map(lines.map((one) => [one.line, one]));
  const lost = entries.filter(
    ({ line, number }) => line !== null && (number ?? 0) > (known.get(line)?.has ?? 0),
  );
  const last = Math.min(place.last, known.get(place.id)?.has ?? 0);
  if (lost.length > 0 || last < place.last) {
    // What was typed after them may name what only they made.
    const later = entries.filter(({ outcome }) => outcome.state === 'waiting');
    const changed = [...lost.map(lacking), ...later.map((one) => ({ ...one, lineage: '' }))];
    await store.settle(changed, { ...place, last });
  }
  const old = entries.slice(0, -KEPT).filter(({ line, number, outcome }) => {
    const isOpen = outcome.state === 'asks' || outcome.state === 'refused';
    return !isOpen && line !== null && (number ?? Infinity) <= (known.get(line)?.backedUp ?? 0);
  });
  if (old.length > 0) await store.forget(old);
  return decision;
}

/** The lines under which the desk answered something that is still here. A device that was paired anew has several. */
function answeredLines(entries: readonly KeptEntry[], place: LinePlace): AnsweredLine[] {
  const last = new Map([[place.id, place.last]]);
  for (const { line, number } of entries)
    if (line !== null && number !== null) last.set(line, Math.max(last.get(line) ?? 0, number));
  return [...last].map(([line, number]) => ({ line, last: number }));
}

/**
 * What becomes of the entries of another book by the shop's decision.
 * @param lineage of the desk's book
 * @returns those that change. Taken in, they wait to be sent in the order of typing, also those that were left out before
 */
export function decided(entries: readonly KeptEntry[], decision: HeldDecision, lineage: string): KeptEntry[] {
  const waits = ({ outcome, lineage: of }: KeptEntry) => outcome.state === 'waiting' && of !== lineage;
  if (decision === 'leave')
    return entries.filter(waits).map((one) => ({ ...one, outcome: { state: 'left' } as const }));
  return entries
    .filter((one) => waits(one) || one.outcome.state === 'left')
    .map((one) => ({ ...one, lineage, outcome: { state: 'waiting' } as const }));
}
