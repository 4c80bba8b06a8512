/** Traces held meat through the grinder. */
import type { CleaningRow } from '../../book/records/grinder-cleanings.ts';
import { carriesTo, cleanedAfter, type BatchTimes } from '../../core/trace/reach.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage, Cleaning, HeldGrind, HeldIn, Uncleaned } from '../contract/contract.ts';

interface BatchName {
  id: number;
  name: string;
  season: number;
}

/**
 * What went through the grinder after a batch with held meat, up to the first cleaning that counts for it (`cleans`);
 * without a cleaning, everything since. Null if the batch has no held meat. With a ticket, only if that animal's meat
 * is in the batch.
 * A batch is in the grinder from its first weight in to its last package, since passes need not be recorded.
 */
export function heldGrind(
  session: Session,
  { id, name, season }: BatchName,
  ticket?: string,
): HeldGrind | null {
  const { grinderCleanings, batches } = session.book;
  const held = heldIn(session, id);
  const isAffected = ticket === undefined ? held.length > 0 : held.some((one) => one.ticket === ticket);
  const times = isAffected ? grinderCleanings.times(id) : undefined;
  if (!times) return null;
  const clean = cleaningAfter(session, times);
  const between = grinderCleanings
    .atWork(season)
    .filter((other) => carriesTo(times, other, clean?.at ?? null))
    .map((other) => ({
      id: other.id,
      name: other.name,
      tickets: batches.animals(other.id).map((animal) => animal.ticket),
    }));
  return { batchId: id, batch: name, held, cleaned: clean ? cleaningOf(clean) : null, between };
}

/** Batches of the season with held meat and no recorded cleaning of the grinder afterwards. */
export function uncleaned(session: Session): Uncleaned[] {
  const { grinderCleanings } = session.book;
  const season = session.season();
  const open = grinderCleanings.withHeld(season).flatMap(({ id, name }) => {
    const times = grinderCleanings.times(id);
    return times && !cleaningAfter(session, times) ? [{ id, name, times }] : [];
  });
  if (open.length === 0) return [];
  const all = grinderCleanings.atWork(season);
  return open.map(({ id, name, times }) => ({
    batchId: id,
    batch: name,
    held: heldIn(session, id),
    since: all.filter((other) => carriesTo(times, other, null)).length,
  }));
}

/** Held meat that went through the grinder before or during this batch, without a cleaning in between. */
export function throughBefore(
  session: Session,
  { id, season }: Pick<BatchName, 'id' | 'season'>,
): BatchPage['throughBefore'] {
  const { grinderCleanings } = session.book;
  const own = grinderCleanings.times(id);
  if (!own) return [];
  return grinderCleanings
    .withHeld(season)
    .filter((other) => {
      const times = other.id === id ? undefined : grinderCleanings.times(other.id);
      return times && carriesTo(times, own, cleaningAfter(session, times)?.at ?? null);
    })
    .map((other) => ({ batchId: other.id, batch: other.name, held: heldIn(session, other.id) }));
}

/** The first recorded cleaning that counts for a batch. */
const cleaningAfter = (session: Session, times: BatchTimes): CleaningRow | null =>
  cleanedAfter(times, session.book.grinderCleanings.since(times.ground));

const heldIn = (session: Session, batchId: number): HeldIn[] =>
  session.book.grinderCleanings
    .heldIn(batchId)
    .map(({ ticket, positive }) => ({ ticket, positive: positive === 1 }));

export function cleaningOf({ id, how, at, by }: CleaningRow): Cleaning {
  return { id, how, at, by };
}
