/** Backups, and the way back to one; most of it works also while the book does not open. */
import { existsSync } from 'node:fs';
import * as v from 'valibot';
import { makeLock, type Lock } from '../../book/file/locked-file.ts';
import { othersCanRead } from '../../book/file/private-files.ts';
import type { Source } from '../../book/file/books-aside.ts';
import type { Opening } from '../../book/file/restore.ts';
import type { BookError } from '../../book/file/book-error.ts';
import { isLongBook, makeBackup, storedLock, longBackup, backupProblem } from '../session/make-backup.ts';
import { problemOfBookError, bookErrorIn } from '../contract/book-problems.ts';
import {
  holdsRemovedDetails,
  isOurs,
  ourBook,
  placeOf,
  removedAtOf,
  rowsOf,
  unreadableOf,
} from './backup-list.ts';
import type { Session } from '../session/session.ts';
import { by, text } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { door, host, write, type Door } from '../session/procedure.ts';
import { shopView } from '../shop/shop.ts';
import { tryOut } from './try-out.ts';
import type {
  BackupMade,
  BackupRow,
  BackupsView,
  BackupTried,
  MendedTime,
  Restored,
} from '../contract/contract.ts';

/** The longest path that Linux takes. */
const MAX_PATH = 4096;
const folder = text(1000);
const passphrase = v.optional(v.pipe(v.string('passphrase.needed'), v.maxLength(200, 'text.too-long')), '');
const wanted = v.object({
  path: v.pipe(
    v.string('text.needed'),
    v.minLength(1, 'text.needed'),
    v.maxLength(MAX_PATH, 'text.too-long'),
  ),
  folder,
  passphrase,
  /** Takes the records over into a clean book: for a backup that is not built as Gambrel builds a book. */
  recordsOnly: v.optional(v.boolean('input.invalid'), false),
});

/** `VACUUM INTO` may not run inside a transaction, so this is no `write`. */
export const backUpNow = host(v.object({}), backUp, { ...longBackup, onlyReads: true });

function backUp(session: Session): BackupMade {
  const kept = makeBackup(session, new Date(session.now()));
  if (!kept.ok) throw backupProblem(session, kept.trouble);
  return {
    at: kept.backup.at,
    path: kept.backup.path,
    second: kept.second?.path ?? null,
    secondProblem: session.backups.secondProblem,
  };
}

/** What there is to go back to: beside the book, in the second place or in `folder`, and books that were set aside. */
export const list = door(
  v.object({ folder }),
  (at, input): BackupsView => {
    const { session, trouble } = at;
    const second = placeOf(at, input.folder);
    const lock = session && !session.demo ? storedLock(session.book) : null;
    const bookPath = session?.book.path ?? at.bookPath;
    const rows = worded(() => rowsOf(at, input.folder));
    return {
      at: (session ? new Date(session.now()) : at.now()).toISOString(),
      trouble: trouble && problemOfBookError(trouble),
      bookPath,
      rows,
      removedAt: removedAtOf(at),
      locked: Boolean(lock),
      second: second ? { folder: second, there: existsSync(second) } : null,
      othersRead: {
        here: [bookPath, ...rows.filter(({ place }) => place !== 'away').map(({ path }) => path)].some(
          othersCanRead,
        ),
        away: rows.some(
          ({ place, locked, own, path }) =>
            place === 'away' && !locked && own !== false && othersCanRead(path),
        ),
      },
      unreadable: unreadableOf(at, input.folder),
      problem: session?.backups.problem ?? null,
      secondProblem: session?.backups.secondProblem ?? null,
    };
  },
  true,
);

/** Opens a backup as restoring it would, and tells what is in it. */
export const tryBackup = door(
  wanted,
  (at, input): BackupTried =>
    worded(() => {
      const source = sourceOf(at, input);
      const { opening, mended } = openingOf(at, source, input);
      const held = tryOut(at.session?.book.path ?? at.bookPath, source, at.now(), opening);
      const { animals, weighings, payments, lastEntry, book, shop } = held;
      const own = isOurs(book, ourBook(at));
      const holdsRemoved = holdsRemovedDetails({ ...source, own }, removedAtOf(at));
      return { animals, weighings, payments, lastEntry, own, shop, holdsRemoved, mended };
    }),
  true,
  // Backups are about as large as the book.
  { when: isLongBook },
);

/** Puts a backup in the book's place. The replaced book stays, and can be brought back in the same way. */
export const restore = door(wanted, (at, input): Restored => {
  if (at.session?.demo) throw new ProblemError('refused', 'backup.demo');
  return worded(() => {
    const source = sourceOf(at, input);
    const { opening, mended } = openingOf(at, source, input);
    return { setAside: at.restore(source, opening, shopView), mended };
  });
});

/**
 * Where the book is not built as Gambrel builds one: puts a clean book with its records in its place, and opens that. The
 * file as it was is kept beside it. Dates and times that are none are mended, and named in the answer and in the trail.
 */
export const keepRecords = door(v.object({}), (at): Restored => {
  const { trouble, bookPath } = at;
  if (trouble?.code !== 'altered') throw new ProblemError('refused', 'book.not-altered');
  const source = { path: bookPath, locked: false };
  const mended: MendedTime[] = [];
  const opening = { recordsOnly: true, onMended: (found: MendedTime[]) => void mended.push(...found) };
  return worded(() => ({ setAside: at.restore(source, opening, shopView), mended }), 'book');
});

/** Tries the book that did not open once more; `asItIs` takes one that is not as it was left. */
export const tryAgain = door(v.object({ asItIs: v.optional(v.boolean(), false) }), async (at, { asItIs }) => {
  await at.tryAgain(asItIs);
  return { open: at.session !== null };
});

/** Begins an empty book where there is nothing to go back to; the file that does not open is kept. */
export const beginAnew = door(v.object({}), (at) => {
  if (at.trouble && !mayBeginAnew(at.trouble))
    throw new ProblemError('refused', problemOfBookError(at.trouble).code);
  at.beginAnew();
  return { open: at.session !== null };
});

/** Locks copies in the second place with a passphrase; none takes the lock away. Copies made before stay as they are. */
export const setLock = write(
  v.object({
    passphrase: v.nullable(
      v.pipe(
        v.string('passphrase.needed'),
        v.trim(),
        v.minLength(8, 'passphrase.short'),
        v.maxLength(200, 'text.too-long'),
      ),
    ),
    by,
  }),
  (session, input) => {
    session.book.settings.put('backupLock', input.passphrase === null ? false : makeLock(input.passphrase));
    session.book.audit.note({
      record: 'setting', recordId: 'backupLock', act: 'change', after: input.passphrase === null ? 'off' : 'on',
      at: session.now(), by: input.by,
    }); // prettier-ignore
    return { locked: input.passphrase !== null };
  },
  // Deriving a key takes a quarter of a second, on purpose.
  { long: { when: (_room, { passphrase: typed }) => typed !== null } },
);

/** A book that is whole and only out of reach must not be put away. */
function mayBeginAnew({ code }: BookError): boolean {
  return ['damaged', 'foreign', 'altered', 'migration', 'missing', 'absent', 'changed'].includes(code);
}

/** Only what is in the list may be restored: a window names no other file of this computer. */
function sourceOf(at: Door, { path, folder }: { path: string; folder: string }): Source & BackupRow {
  const found = rowsOf(at, folder).find((row) => row.path === path);
  if (!found) throw new ProblemError('missing', 'backup.gone');
  return found;
}

/** The passphrase typed; without one the lock that the open book keeps, which opens what this shop locked itself. */
function openerFor({ session }: Door, { locked }: Source, typed: string): string | Lock | undefined {
  if (!locked) return undefined;
  if (typed) return typed;
  const lock = session && !session.demo && storedLock(session.book);
  if (!lock) throw new ProblemError('conflict', 'passphrase.needed', { field: 'passphrase' });
  return lock;
}

function openingOf(
  at: Door,
  source: Source,
  { passphrase: typed, recordsOnly }: { passphrase: string; recordsOnly: boolean },
): { opening: Opening; mended: MendedTime[] } {
  const mended: MendedTime[] = [];
  const onMended = (found: MendedTime[]): void => void mended.push(...found);
  return { opening: { opener: openerFor(at, source, typed), recordsOnly, onMended }, mended };
}

function worded<T>(work: () => T, where: 'backup' | 'book' = 'backup'): T {
  try {
    return work();
  } catch (error) {
    const trouble = bookErrorIn(error, '');
    if (!trouble) throw error;
    const { code, with: parameters } = problemOfBookError(trouble, where);
    throw code === 'backup.passphrase'
      ? new ProblemError('conflict', code, { field: 'passphrase', with: parameters })
      : new ProblemError('broken', code, { with: parameters });
  }
}
