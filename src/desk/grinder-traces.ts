/** Tracing held meat through the grinder. */
import type { CleaningRow } from '../book/grinder-cleanings.ts';
import type { DeskRoom } from './room.ts';
import type { BatchPage, Cleaning, HeldGrind } from './shapes.ts';

/** Later than every moment in the book: text is compared. */
const NOT_YET = '9999';

/**
 * What went through the grinder after a batch with held meat, up to the first cleaning recorded once the batch was
 * ground; null where no held meat is in it. Without a cleaning it is all that went through since.
 * With a ticket only where that animal's meat is in it.
 * A batch counts as at work from its first weight in to its last package, since passes need not be noted.
 */
export function heldGrind(
  room: DeskRoom,
  { id, name }: { id: number; name: string },
  ticket?: string,
): HeldGrind | null {
  const { grinderCleanings, batches } = room.book;
  const held = grinderCleanings.heldIn(id);
  const asked = ticket === undefined ? held.length > 0 : held.some((one) => one.ticket === ticket);
  const span = asked ? grinderCleanings.span(id) : undefined;
  if (!span) return null;
  const clean = grinderCleanings.firstFrom(span.ground);
  return {
    batchId: id,
    batch: name,
    held: held.map(({ ticket, positive }) => ({ ticket, positive: positive === 1 })),
    cleaned: clean ? cleaningOf(clean) : null,
    between: grinderCleanings
      .between(id, span.first, clean?.at ?? NOT_YET)
      .map((batch) => ({ ...batch, tickets: batches.animals(batch.id).map(({ ticket }) => ticket) })),
  };
}

/** Batches of the season with held meat after which no cleaning of the grinder is recorded. */
export function uncleaned(room: DeskRoom): HeldGrind[] {
  return room.book.grinderCleanings
    .withHeld(room.season())
    .flatMap((batch) => heldGrind(room, batch) ?? [])
    .filter(({ cleaned }) => cleaned === null);
}

/** Held meat that went through the grinder before or beside this batch, without a cleaning in between. */
export function throughBefore(room: DeskRoom, { id, season }: { id: number; season: number }) {
  const { grinderCleanings } = room.book;
  const own = grinderCleanings.span(id);
  if (!own) return [];
  return grinderCleanings.withHeld(season).flatMap((other): BatchPage['throughBefore'] => {
    const span = other.id === id ? undefined : grinderCleanings.span(other.id);
    if (!span || own.last <= span.first) return [];
    const clean = grinderCleanings.firstFrom(span.ground);
    if (clean && own.first >= clean.at) return [];
    const held = grinderCleanings.heldIn(other.id);
    return [
      {
        batchId: other.id,
        batch: other.name,
        held: held.map(({ ticket, positive }) => ({ ticket, positive: positive === 1 })),
      },
    ];
  });
}

export function cleaningOf({ id, how, at, by }: CleaningRow): Cleaning {
  return { id, how, at, by };
}
