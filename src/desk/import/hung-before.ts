/** Further hanging weights in a table: another side or piece, or the same carcass weighed again? */
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/** The hanging weights of one animal so far, in the book and in the rows above. */
export interface Hung {
  count: number;
  grams: number;
  /** Whether every one of them is said to be a side or a piece. */
  inPieces: boolean;
  /** Rows that a table may add without being asked about. */
  free: number;
}

/** What a note calls a part of a carcass: words of the trade, no source. */
const PIECE = /\b(sides?|half|halves|quarters?|left|right|fore|front|hind|rear|shoulders?|hams?|saddle)\b/i;

/**
 * What hangs in the book. A carcass is one weight; of an animal that came in pieces as many are expected as came in, and any
 * number where nobody said how many.
 */
export function hungInBook(session: Session, animalId: number): Hung {
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
 * Adds one more hanging weight. The doubt is null for the first, for sides and pieces that the notes of all rows name, and
 * for as many pieces as came in.
 */
export function hangMore(hung: Hung, ticket: string, grams: number, note = ''): ProblemError | null {
  const before = { ticket, count: hung.count, grams: hung.grams };
  hung.count += 1;
  hung.grams += grams;
  hung.inPieces &&= PIECE.test(note);
  return hung.count <= hung.free || hung.inPieces
    ? null
    : new ProblemError('conflict', 'sheet.hung-again', { with: before });
}
