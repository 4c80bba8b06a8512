/** Ids of what a station made before the desk had answered: later entries of it name a UUID, which stands in for the id. */
import type { Made } from '../contract/stations.ts';
import { ProblemError } from '../contract/problem.ts';
import { wholeNumbers, type ActorSeed } from '../session/actor.ts';
import type { Session } from '../session/session.ts';

/**
 * The input with the ids that its names stand for.
 * @throws ProblemError `entry.not-made`: what it belongs to is not in the book
 */
export function withIds(session: Session, input: unknown): unknown {
  if (typeof input !== 'object' || input === null) return input;
  if (isMade(input)) return idOf(session, input.made);
  if (Array.isArray(input)) return input.map((one) => withIds(session, one));
  return Object.fromEntries(Object.entries(input).map(([key, value]) => [key, withIds(session, value)]));
}

/** Notes which row a name stands for. @throws ProblemError `entry.made-twice` */
export function noteMade(session: Session, seed: ActorSeed, made: string, answer: unknown): void {
  const { stationEntries } = session.book;
  const recordId = wholeNumbers(answer).id;
  if (recordId === undefined) throw new ProblemError('invalid', 'entry.unreadable');
  if (stationEntries.madeAs(made) !== undefined) throw new ProblemError('refused', 'entry.made-twice');
  const stamp = { at: session.now(), by: seed.person };
  stationEntries.addMade({ stationId: seed.stationId, made, call: seed.call, recordId, ...stamp });
}

const isMade = (value: object): value is Made =>
  Object.keys(value).join() === 'made' && typeof (value as Made).made === 'string';

function idOf(session: Session, made: string): number {
  const id = session.book.stationEntries.madeAs(made);
  if (id === undefined) throw new ProblemError('refused', 'entry.not-made');
  return id;
}
