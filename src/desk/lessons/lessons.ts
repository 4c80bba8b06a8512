/** Gives others what this shop has learned, and takes in what they have. */
import { isDeepStrictEqual } from 'node:util';
import * as v from 'valibot';
import { LEAST_ANIMALS } from '../../core/yield/yield.ts';
import { by, id, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { GivenLessons, LessonsPage } from '../contract/contract.ts';
import { lessonText, MAX_LESSON_TEXT } from '../learning/lesson-text.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { countsOf, ownLessons, textOf, type KeptLessons } from './own-lessons.ts';
import { takeLesson, useLesson } from './take.ts';

/** More than any owner has shops; older ones are not shown. */
const SHOWN = 50;

/** What this shop could give, and what it took in. */
export const get = read(v.object({}), (session): LessonsPage => {
  const given = session.book.lessons.given();
  return {
    ...countsOf(session),
    givenOn: given ? session.dayOf(given.at) : null,
    taken: session.book.lessons.newest(SHOWN).map((row) => ({
      id: row.id,
      label: row.label,
      animals: row.animals,
      batches: row.batches,
      madeOn: row.madeOn,
      takenOn: session.dayOf(row.at),
      by: row.by,
      used: row.used === 1,
    })),
  };
});

/** Writes the file for others. @throws ProblemError `lessons.none` (refused) while there are fewer than five of every kind */
export const give = write(
  v.object({ by }),
  (session, input): GivenLessons => {
    const kept = giveLesson(session, input.by);
    if (!kept) throw new ProblemError('refused', 'lessons.none', { with: { count: LEAST_ANIMALS } });
    const { animals, batches } = kept;
    return { name: `learned-${session.today()}.json`, text: lessonText(textOf(kept)), animals, batches };
  },
  { long: { when: () => true } },
);

/**
 * Notes what is given now. Call it inside a transaction.
 * @param again whether what was given last is given anew as well; otherwise it stands as it was, day included
 * @returns null while there are fewer than five of every kind
 */
export function giveLesson(session: Session, initials: string, again = true): KeptLessons | null {
  const before = keptOf(session);
  const kept = ownLessons(session, before);
  if (kept.yields.length === 0 && kept.losses.length === 0 && kept.fat === null) return null;
  if (!again && before && isDeepStrictEqual({ ...kept, made: before.made }, before)) return before;
  const { source } = kept;
  session.book.lessons.give({ source, body: JSON.stringify(kept), at: session.now(), by: initials });
  return kept;
}

/**
 * Takes in a file of another shop as a source of first guesses. A newer one of the same shop replaces it.
 * @throws ProblemError as `takeLesson`
 */
export const take = write(
  v.object({
    text: v.pipe(v.string('lessons.not-lessons'), v.maxLength(MAX_LESSON_TEXT, 'lessons.too-large')),
    label: needed(60),
    by,
  }),
  (session, input) => takeLesson(session, input),
);

/** Sets one aside, or uses it again. @throws ProblemError as `useLesson` */
export const use = write(v.object({ id, used: v.boolean(), by }), (session, input) => {
  useLesson(session, input);
  return { id: input.id };
});

function keptOf({ book }: Session): KeptLessons | null {
  const given = book.lessons.given();
  return given ? (JSON.parse(given.body) as KeptLessons) : null;
}
