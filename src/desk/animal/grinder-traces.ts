/** Tracing held meat through the grinder. */
import type { BatchSpan, CleaningRow } from '../../book/records/grinder-cleanings.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage, Cleaning, HeldGrind, HeldIn, Uncleaned } from '../contract/contract.ts';

/** Later than every moment in the book: text is compared. */
const NOT_YET = '9999';

interface BatchName {
  id: number;
  name: string;
  season: number;
}

/**
 * What went through the grinder after a batch with held meat, up to the first cleaning recorded once the batch was
 * ground; null where no held meat is in it. Without a cleaning it is all that went through since.
 * With a ticket only where that animal's meat is in it.
 * A batch counts as at work from its first weight in to its last package, since passes need not be noted.
 */
export function heldGrind(
  session: Session,
  { id, name, season }: BatchName,
  ticket?: string,
): HeldGrind | null {
  const { grinderCleanings, batches } = session.book;
  const held = heldIn(session, id);
  const asked = ticket === undefined ? held.length > 0 : held.some((one) => one.ticket === ticket);
  const span = asked ? grinderCleanings.span(id) : undefined;
  if (!span) return null;
  const clean = grinderCleanings.firstFrom(span.ground);
  const between = grinderCleanings
    .atWork(season, span.first, clean?.at ?? NOT_YET)
    .filter((other) => other.id !== id)
    .map((other) => ({
      id: other.id,
      name: other.name,
      tickets: batches.animals(other.id).map((animal) => animal.ticket),
    }));
  return { batchId: id, batch: name, held, cleaned: clean ? cleaningOf(clean) : null, between };
}

/** Batches of the season with held meat after which no cleaning of the grinder is recorded. */
export function uncleaned(session: Session): Uncleaned[] {
  const { grinderCleanings } = session.book;
  const season = session.season();
  const open = grinderCleanings.withHeld(season).flatMap(({ id, name }) => {
    const span = grinderCleanings.span(id);
    return span && !grinderCleanings.firstFrom(span.ground) ? [{ id, name, span }] : [];
  });
  if (open.length === 0) return [];
  const earliest = open.reduce((first, { span }) => (span.first < first ? span.first : first), NOT_YET);
  const since = grinderCleanings.atWork(season, earliest, NOT_YET);
  return open.map(({ id, name, span }) => ({
    batchId: id,
    batch: name,
    held: heldIn(session, id),
    since: since.filter((other) => other.id !== id && other.last > span.first).length,
  }));
}

/** Held meat that went through the grinder before or beside this batch, without a cleaning in between. */
export function throughBefore(
  session: Session,
  { id, season }: Pick<BatchName, 'id' | 'season'>,
): BatchPage['throughBefore'] {
  const { grinderCleanings } = session.book;
  const own = grinderCleanings.span(id);
  if (!own) return [];
  return grinderCleanings
    .withHeld(season)
    .filter((other) => other.id !== id && reaches(session, other.id, own))
    .map((other) => ({ batchId: other.id, batch: other.name, held: heldIn(session, other.id) }));
}

/** Whether what a batch left in the grinder was still there while another was at work. */
function reaches(session: Session, batchId: number, other: BatchSpan): boolean {
  const span = session.book.grinderCleanings.span(batchId);
  if (!span || other.last <= span.first) return false;
  const clean = session.book.grinderCleanings.firstFrom(span.ground);
  return !clean || other.first < clean.at;
}

const heldIn = (session: Session, batchId: number): HeldIn[] =>
  session.book.grinderCleanings
    .heldIn(batchId)
    .map(({ ticket, positive }) => ({ ticket, positive: positive === 1 }));

export function cleaningOf({ id, how, at, by }: CleaningRow): Cleaning {
  return { id, how, at, by };
}
