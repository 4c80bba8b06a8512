/** What stations hold that the book does not have, as they told, and what the shop decides of it. In memory: each tells it again. */
import * as v from 'valibot';
import type { AnsweredLine, BookHas, HeldDecision, HeldEntries, StationRow } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';

interface Noted {
  held: HeldEntries;
  decision: HeldDecision | null;
}

const of = new WeakMap<Session, Map<number, Noted>>();

function notedIn(session: Session): Map<number, Noted> {
  const noted = of.get(session) ?? new Map<number, Noted>();
  of.set(session, noted);
  return noted;
}

export function heldBy(session: Session, stationId: number): Pick<StationRow, 'held' | 'decision'> {
  return notedIn(session).get(stationId) ?? { held: null, decision: null };
}

/** @returns whether the office should look: a number of a long outbox that goes down entry by entry is not worth it */
export function noteHeld(session: Session, stationId: number, held: HeldEntries): boolean {
  const before = notedIn(session).get(stationId);
  const isDone = held.ofOtherBook === 0 && (before?.decision === 'leave' || held.left === 0);
  notedIn(session).set(stationId, { held, decision: isDone ? null : (before?.decision ?? null) });
  return shown(before?.held) !== shown(held);
}

const shown = (held: HeldEntries | undefined): string =>
  held ? [held.waiting > 0, held.unanswered, held.ofOtherBook, held.left].join(' ') : '';

/** What the book has of these lines. A line that it does not know has no entry in it. */
export function compareLines(session: Session, stationId: number, lines: readonly AnsweredLine[]): BookHas {
  const { stationEntries } = session.book;
  return {
    lines: lines.map(({ line }) => {
      const known = stationEntries.line(line);
      if (!known) return { line, has: 0, backedUp: 0 };
      const backedUp = stationEntries.lastUpTo(known.id, session.backups.entriesIn);
      return { line, has: stationEntries.last(known.id), backedUp };
    }),
    decision: heldBy(session, stationId).decision,
  };
}

/**
 * Takes in, or leaves on the device, what a station holds of a book that this one does not continue. The station does it, entry by
 * entry and each once.
 * @throws ProblemError `station.unknown`, `station.holds-nothing`
 */
export const decide = write(v.object({ id, take: v.boolean(), by }), (session, input) => {
  const noted = notedIn(session).get(input.id);
  if (!session.book.stations.get(input.id)) throw new ProblemError('missing', 'station.unknown');
  if (!noted || noted.held.ofOtherBook + noted.held.left === 0)
    throw new ProblemError('conflict', 'station.holds-nothing');
  const decision = input.take ? 'take' : 'leave';
  session.book.audit.note({
      record: 'station', recordId: input.id, act: 'change', before: noted.held, after: { decision },
      at: session.now(), by: input.by,
    }); // prettier-ignore
  noted.decision = decision;
  return { id: input.id };
});
