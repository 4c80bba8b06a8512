/** What an entry of a station's outbox asks for, carried out inside the transaction of its receipt. */
import * as v from 'valibot';
import type { Place } from '../trade/place.ts';
import { bookErrorIn } from './contract/book-problems.ts';
import { ProblemError, type Answer, type Problem } from './contract/problem.ts';
import type { OutboxEntry } from './contract/stations.ts';
import { problemForFloor } from './floor/problem.ts';
import { mayWrite, procedureOf } from './listed.ts';
import { noteWrite, wholeNumbers, type ActorSeed } from './session/actor.ts';
import { problemOf, problemOfInput } from './session/problem-of.ts';
import type { Procedure } from './session/procedure.ts';
import type { Session } from './session/session.ts';
import { noteMade, withIds } from './stations/made.ts';

/** Whether somebody has to be signed in where people sign in: to write. Queries are answered whoever asks. */
export function needsPerson(name: string): boolean {
  const procedure = procedureOf(name);
  return procedure !== undefined && mayWrite(procedure);
}

/**
 * A refusal is an answer, for good: its rows are rolled back and its receipt stays, so that the line goes on.
 * @throws the error of a file or disk, after which nothing of the entry stands and the station asks again
 */
export function carryOutEntry(
  session: Session,
  place: Place,
  seed: ActorSeed,
  { input, makes }: Pick<OutboxEntry, 'input' | 'makes'>,
  onBroken: (error: unknown) => void,
): Answer<Record<string, number>> {
  try {
    const value = session.book.change(() => {
      const procedure = allowed(seed.call, place);
      const checked = v.safeParse(procedure.input, withIds(session, input) ?? {}, { abortPipeEarly: true });
      if (!checked.success) return { invalid: problemOfInput(checked.issues[0]) };
      if (procedure.long?.when(session, checked.output) === true)
        throw new ProblemError('refused', 'entry.not-offline');
      const answer = procedure.run(session, checked.output);
      noteWrite(session, seed, answer);
      if (makes !== undefined) noteMade(session, seed, makes, answer);
      return { answer };
    });
    return value.invalid ? refused(value.invalid, place) : { ok: true, value: wholeNumbers(value.answer) };
  } catch (error) {
    // After some errors SQLite has rolled back the whole transaction, and the receipt would stand alone.
    if (bookErrorIn(error, session.book.path) || !session.book.db.inTransaction) throw error;
    return refused(problemOf(error, session.book.path, onBroken), place);
  }
}

/** @throws ProblemError `call.unknown`, `station.place`, `entry.not-offline` */
function allowed(name: string, place: Place): Procedure {
  const procedure = procedureOf(name);
  if (!procedure) throw new ProblemError('missing', 'call.unknown');
  if (!procedure.places.includes(place))
    throw new ProblemError('refused', 'station.place', { with: { place } });
  if (procedure.kind !== 'write') throw new ProblemError('refused', 'entry.not-offline');
  return procedure;
}

function refused(problem: Problem, place: Place): { ok: false; problem: Problem } {
  return { ok: false, problem: place === 'office' ? problem : problemForFloor(problem) };
}
