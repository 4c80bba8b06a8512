/** Further hanging weights in a table: another side or piece, or the same carcass weighed again. */
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/** The hanging weights of one animal so far, in the book and in the rows above. */
export interface HangingSoFar {
  count: number;
  grams: number;
  /** Whether every one is noted as a side or a piece. */
  inPieces: boolean;
  /** Number of rows that a table may add without confirmation. */
  free: number;
}

/** Words of the trade for parts of a carcass in a note. No source. */
const PIECE = /\b(sides?|half|halves|quarters?|left|right|fore|front|hind|rear|shoulders?|hams?|saddle)\b/i;

/**
 * The hanging weights in the book. A carcass has one; an animal in pieces has as many as came in, or any number if
 * that is unknown.
 */
export function hangingInBook(session: Session, animalId: number): HangingSoFar {
  const rows = session.book.weighings
    .ofAnimal(animalId)
    .filter(({ stage, void_at }) => stage === 'hanging' && void_at === null);
  const brought = session.book.animals.get(animalId)?.brought;
  const whole = isWholeCarcass(brought);
  const came = session.book.animals.parts(animalId).reduce((total, { count }) => total + count, 0);
  return {
    count: rows.length,
    grams: rows.reduce((total, { grams }) => total + grams, 0),
    inPieces: rows.every(({ note }) => PIECE.test(note)),
    free: whole ? 1 : came || Infinity,
  };
}

/**
 * Adds one more hanging weight. The doubt is null for the first one, if the notes of all rows name sides or pieces,
 * and for as many pieces as came in.
 */
export function addHanging(
  hanging: HangingSoFar,
  ticket: string,
  grams: number,
  note = '',
): ProblemError | null {
  const before = { ticket, count: hanging.count, grams: hanging.grams };
  hanging.count += 1;
  hanging.grams += grams;
  hanging.inPieces &&= PIECE.test(note);
  return hanging.count <= hanging.free || hanging.inPieces
    ? null
    : new ProblemError('conflict', 'sheet.hung-again', { with: before });
}
