/** A station as the one who writes: its row is read in each transaction, and the trail names it. */
import { actor, type Actor } from '../../book/changes/acting.ts';
import type { StationNow } from '../../book/records/stations/stations.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from './session.ts';

/** What an actor is made of; a plain value, for the worker thread. */
export interface ActorSeed {
  stationId: number;
  person: string;
  checked: boolean;
  call: string;
}

/** The actor of the running call as a plain value; null at the desk itself. */
export function seedOf(call: string): ActorSeed | null {
  const acting = actor();
  if (!acting) return null;
  const { stationId, person, checked } = acting;
  return { stationId, person, checked, call };
}

/**
 * Notes each transaction of a call.
 * @param session the book in which this thread writes
 */
export function actorOf(session: Session, seed: ActorSeed): Actor {
  return {
    ...seed,
    within(work) {
      openStation(session.book.stations.get(seed.stationId));
      const answer = work();
      noteWrite(session, seed, answer);
      return answer;
    },
  };
}

/** Leaves the note to whoever writes: an entry of an outbox may be refused, and is kept all the same. */
export function entryActor(session: Session, seed: ActorSeed): Actor {
  return {
    ...seed,
    within(work) {
      openStation(session.book.stations.get(seed.stationId));
      return work();
    },
  };
}

/** Puts a write into the trail. @param answer of the call, which names the row that it wrote */
export function noteWrite(session: Session, seed: ActorSeed, answer: unknown): void {
  const stamp = { at: session.now(), by: seed.person };
  session.book.stations.noteWrite({ ...seed, recordId: recordIn(answer), ...stamp });
}

/**
 * A station that may come in.
 * @throws ProblemError `station.unknown` (missing), `station.paused`, `station.removed` (refused)
 */
export function openStation(found: StationNow | undefined): StationNow {
  if (!found) throw new ProblemError('missing', 'station.unknown');
  if (found.state === 'paused') throw new ProblemError('refused', 'station.paused');
  if (found.state === 'removed') throw new ProblemError('refused', 'station.removed');
  return found;
}

/** The id that a write answers with: its own, else the only one (`weighingId`). */
function recordIn(answer: unknown): string {
  const ids = Object.entries(wholeNumbers(answer)).filter(([key]) => /^id$|Id$/.test(key));
  const own = ids.find(([key]) => key === 'id') ?? ids[0];
  return own ? String(own[1]) : '';
}

/** The whole numbers at the top of an answer: what a station needs of it later (`id`, `batchId`), and no text. */
export function wholeNumbers(answer: unknown): Record<string, number> {
  if (typeof answer !== 'object' || answer === null) return {};
  return Object.fromEntries(
    Object.entries(answer).filter((pair): pair is [string, number] => Number.isSafeInteger(pair[1])),
  );
}
