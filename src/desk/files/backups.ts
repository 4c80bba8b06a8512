/** Backups and restoring; most calls also work while the book does not open. */
import { existsSync } from 'node:fs';
import * as v from 'valibot';
import { makeLock, type Lock } from '../../book/file/locked-file.ts';
import { othersCanRead } from '../../book/file/private-files.ts';
import type { Source } from '../../book/file/books-aside.ts';
import type { Opening } from '../../book/file/restore.ts';
import type { BookError } from '../../book/file/book-error.ts';
import { missingPhotos } from '../session/photo-keeping.ts';
import { isLongBook, makeBackup, storedLock, longBackup, backupProblem } from '../session/make-backup.ts';
import { problemOfBookError, bookErrorIn } from '../contract/book-problems.ts';
import {
  holdsRemovedDetails,
  isOwnBook,
  ownIdentity,
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
  RepairedTime,
  Restored,
} from '../contract/contract.ts';

/** The longest path on Linux. */
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
  /** Copies the records into a clean book: for a backup with a modified schema. */
  recordsOnly: v.optional(v.boolean('input.invalid'), false),
});

/** Not a `write`, because `VACUUM INTO` cannot run inside a transaction. */
export const backUpNow = host(v.object({}), backUp, { ...longBackup, onlyReads: true });

function backUp(session: Session): BackupMade {
  const result = makeBackup(session, new Date(session.now()));
  if (!result.ok) throw backupProblem(session, result.trouble);
  return {
    at: result.backup.at,
    path: result.backup.path,
    second: result.second?.path ?? null,
    secondProblem: session.backups.secondProblem,
  };
}

/** Restorable files: backups beside the book, in the second place or in `folder`, and replaced books. */
export const list = door(
  v.object({ folder }),
  (at, input): BackupsView => {
    const { session, trouble } = at;
    const second = placeOf(at, input.folder);
    const lock = session && !session.demo ? storedLock(session.book) : null;
    const bookPath = session?.book.path ?? at.bookPath;
    const rows = withBookProblems(() => rowsOf(at, input.folder));
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
      missingPhotos: session ? missingPhotos(session.book).length : 0,
      problem: session?.backups.problem ?? null,
      secondProblem: session?.backups.secondProblem ?? null,
    };
  },
  true,
);

/** Rehearses a restore, and returns the contents of the backup. */
export const tryBackup = door(
  wanted,
  (at, input): BackupTried =>
    withBookProblems(() => {
      const source = sourceOf(at, input);
      const { opening, repaired } = openingOf(at, source, input);
      const contents = tryOut(at.session?.book.path ?? at.bookPath, source, at.now(), opening);
      const { animals, weighings, payments, missingPhotos, lastEntry, book, shop } = contents;
      const own = isOwnBook(book, ownIdentity(at));
      const holdsRemoved = holdsRemovedDetails({ ...source, own }, removedAtOf(at));
      return { animals, weighings, payments, missingPhotos, lastEntry, own, shop, holdsRemoved, repaired };
    }),
  true,
  { when: isLongBook },
);

/** Replaces the book with a backup. The replaced book stays on disk and can be restored the same way. */
export const restore = door(wanted, (at, input): Restored => {
  if (at.session?.demo) throw new ProblemError('refused', 'backup.demo');
  return withBookProblems(() => {
    const source = sourceOf(at, input);
    const { opening, repaired } = openingOf(at, source, input);
    return { setAside: at.restore(source, opening, shopView), repaired };
  });
});

/**
 * For a book with a modified schema: copies its records into a clean book and opens that. The original file stays
 * beside it. Invalid dates and times are repaired, and listed in the result and in the audit.
 */
export const keepRecords = door(v.object({}), (at): Restored => {
  const { trouble, bookPath } = at;
  if (trouble?.code !== 'altered') throw new ProblemError('refused', 'book.not-altered');
  const source = { path: bookPath, locked: false };
  const repaired: RepairedTime[] = [];
  const opening = { recordsOnly: true, onRepaired: (found: RepairedTime[]) => void repaired.push(...found) };
  return withBookProblems(() => ({ setAside: at.restore(source, opening, shopView), repaired }), 'book');
});

/** Retries opening the book; `asItIs` accepts one that changed since its last close. */
export const tryAgain = door(v.object({ asItIs: v.optional(v.boolean(), false) }), async (at, { asItIs }) => {
  await at.tryAgain(asItIs);
  return { open: at.session !== null };
});

/** Starts an empty book if there is nothing to restore; the file that does not open stays. */
export const beginAnew = door(v.object({}), (at) => {
  if (at.trouble && !mayBeginAnew(at.trouble))
    throw new ProblemError('refused', problemOfBookError(at.trouble).code);
  at.beginAnew();
  return { open: at.session !== null };
});

/** Encrypts copies in the second place with a passphrase; null removes the lock. Existing copies do not change. */
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
  // Deriving a key takes a quarter of a second by design.
  { long: { when: (_room, { passphrase: typed }) => typed !== null } },
);

/** An intact book that is only unreachable must not be replaced. */
function mayBeginAnew({ code }: BookError): boolean {
  return ['damaged', 'foreign', 'altered', 'migration', 'missing', 'absent', 'changed'].includes(code);
}

/** Only listed files can be restored, so that a window cannot name other files of this computer. */
function sourceOf(at: Door, { path, folder }: { path: string; folder: string }): Source & BackupRow {
  const found = rowsOf(at, folder).find((row) => row.path === path);
  if (!found) throw new ProblemError('missing', 'backup.gone');
  return found;
}

/** The typed passphrase, or by default the lock of the open book, which opens copies locked by this shop. */
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
): { opening: Opening; repaired: RepairedTime[] } {
  const repaired: RepairedTime[] = [];
  const onRepaired = (found: RepairedTime[]): void => void repaired.push(...found);
  return { opening: { opener: openerFor(at, source, typed), recordsOnly, onRepaired }, repaired };
}

/** @throws ProblemError in place of a BookError */
export function withBookProblems<T>(work: () => T, where: 'backup' | 'book' = 'backup'): T {
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
