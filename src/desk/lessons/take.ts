/** Takes in what other shops have learned, sets it aside and uses it again. */
import { ProblemError } from '../contract/problem.ts';
import { lessonText, readLessonText, type LessonText } from '../learning/lesson-text.ts';
import type { Session } from '../session/session.ts';

/** Each other shop is one more step of the fit. */
const MOST_USED = 20;

interface Given {
  /** As the other shop wrote it. */
  text: string;
  /** What this shop calls the other. */
  label: string;
  by: string;
}

/**
 * Takes in a file. One of a shop that taught before takes the place of the older.
 * @throws ProblemError `lessons.own`, `lessons.known`, `lessons.older`, `lessons.too-many` (refused), and those of
 *   `readLessonText`
 */
export function takeLesson(session: Session, given: Given): { id: number } {
  const lesson = readLessonText(given.text);
  const reason = reasonAgainst(session, lesson);
  if (reason) throw new ProblemError('refused', reason.code, { with: { name: reason.name } });
  return keep(session, lesson, { ...given, via: 'file' });
}

/**
 * The entrance for the owner's ledger (`ledger/teaching.ts`), within a transaction of the book. A text may come any number of times.
 * @returns null where nothing changed: the text is known, older than the one in use, this shop's own, or of a shop whose lesson
 *   somebody set aside
 * @throws ProblemError `lessons.too-many` (refused), and those of `readLessonText`
 */
export function takeFromLedger(session: Session, given: Given): { id: number } | null {
  const lesson = readLessonText(given.text);
  if (session.book.lessons.latestOf(lesson.source)?.used === 0) return null;
  return reasonAgainst(session, lesson) ? null : keep(session, lesson, { ...given, via: 'ledger' });
}

function reasonAgainst({ book }: Session, lesson: LessonText): { code: string; name: string } | null {
  const before = book.lessons.used().find(({ source }) => source === lesson.source);
  const name = before?.label ?? '';
  if (book.lessons.given()?.source === lesson.source) return { code: 'lessons.own', name };
  if (before?.body === lessonText(lesson)) return { code: 'lessons.known', name };
  return before && before.madeOn > lesson.made ? { code: 'lessons.older', name } : null;
}

function keep(
  session: Session,
  lesson: LessonText,
  { label, by, via }: Given & { via: 'file' | 'ledger' },
): { id: number } {
  const { lessons } = session.book;
  const used = lessons.used();
  const before = used.find(({ source }) => source === lesson.source);
  if (!before && used.length >= MOST_USED)
    throw new ProblemError('refused', 'lessons.too-many', { with: { count: MOST_USED } });
  const stamp = { at: session.now(), by };
  if (before) lessons.use(before.id, false, stamp);
  const { source, made: madeOn, animals, batches } = lesson;
  const body = lessonText(lesson);
  return { id: lessons.take({ source, label, via, madeOn, animals, batches, body, ...stamp }) };
}

/**
 * Sets a lesson aside, or uses it again. What is so already stays so.
 * @throws ProblemError `lessons.unknown` (missing), `lessons.same-shop`, `lessons.too-many` (refused)
 */
export function useLesson(session: Session, input: { id: number; used: boolean; by: string }): void {
  const { book } = session;
  const lesson = book.lessons.get(input.id);
  if (!lesson) throw new ProblemError('missing', 'lessons.unknown', { field: 'id' });
  if ((lesson.used === 1) === input.used) return;
  const others = book.lessons.used();
  const same = others.find(({ source }) => source === lesson.source);
  if (input.used && same)
    throw new ProblemError('refused', 'lessons.same-shop', { with: { name: same.label } });
  if (input.used && others.length >= MOST_USED)
    throw new ProblemError('refused', 'lessons.too-many', { with: { count: MOST_USED } });
  book.lessons.use(input.id, input.used, { at: session.now(), by: input.by });
}
