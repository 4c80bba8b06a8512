import * as v from 'valibot';
import { yearsBefore } from '../../core/values/dates.ts';
import { hunterOf } from '../animal/hunters.ts';
import { by, id, needed } from '../input/input.ts';
import { isLongBook } from '../session/make-backup.ts';
import { tidyPhotos } from '../session/photo-keeping.ts';
import { host } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { refuseWrongClock } from '../session/clock.ts';
import { knownWords } from './known-words.ts';
import type { Session } from '../session/session.ts';

/**
 * Removes a hunter's personal details after the retention period: names, numbers, addresses, and all free text about
 * the hunter's animals, batches and money (`book/privacy/personal-text.ts`). Weights, dates and money stay. The audit
 * records by whom and why, but not the removed text. Photographs of the hunter's animals go whole, because nobody can tell
 * which of them show a name, a face or a license plate: their files are deleted, and their rows say so. The file is then rewritten, so that no unused page keeps the
 * text; `wiped` is false if that failed (disk full, another program reading), and upkeep retries it. Older backups
 * still contain the details: `shop.listBackups` lists them, and `shop.renewBackups` replaces them.
 * @throws ProblemError `hunter.removed` (conflict), `hunter.animal-here`, `hunter.still-kept` (refused)
 */
export const removeDetails = host(
  v.object({ id, reason: needed(300), by }),
  (session, input) => {
    refuseWrongClock(session);
    session.book.change(() => remove(session, input));
    // Caches may still contain the details.
    session.book.changes.invalidate();
    return { id: input.id, wiped: wipeIfDue(session) };
  },
  { when: isLongBook },
);

function remove(session: Session, input: { id: number; reason: string; by: string }): void {
  const hunter = hunterOf(session, input.id);
  const { removedDetails } = session.book;
  if (removedDetails.removedAt(hunter.id) !== null) throw new ProblemError('conflict', 'hunter.removed');
  const leaving = removedDetails.leaving(hunter.id);
  if (leaving && leaving.open > 0)
    throw new ProblemError('refused', 'hunter.animal-here', { with: { name: hunter.name } });
  const years = session.settings.retentionYears;
  const last = leaving?.last ?? null;
  if (last !== null && last >= yearsBefore(session.today(), years))
    throw new ProblemError('refused', 'hunter.still-kept', {
      with: { name: hunter.name, years, date: last },
    });
  const at = session.now();
  removedDetails.remove(hunter.id, at, knownWords(session));
  session.book.photographs.removeOfHunter(hunter.id, at, input.by);
  session.book.audit.note({
    record: 'hunter', recordId: hunter.id, act: 'void', after: { details: 'removed' }, reason: input.reason, at, by: input.by,
  }); // prettier-ignore
  session.book.settings.put(WIPE_DUE, true);
}

/** Key of a stored flag: details were removed, and the file must still be rewritten. */
const WIPE_DUE = 'wipeDue';

/**
 * Rewrites the file if details were removed since. It fails if the disk is full or another program is reading.
 * @returns whether nothing is left to do
 */
export function wipeIfDue({ book }: Pick<Session, 'book'>): boolean {
  if (book.settings.all()[WIPE_DUE] !== true) return true;
  try {
    tidyPhotos(book);
    book.removedDetails.wipe();
  } catch {
    // Upkeep retries; the window shows it.
    return false;
  }
  book.settings.put(WIPE_DUE, false);
  return true;
}
