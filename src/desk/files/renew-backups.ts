/** Backups made before a removal of personal details still contain them: they are listed, and replaced on request. */
import { existsSync, rmSync } from 'node:fs';
import * as v from 'valibot';
import { listBackups, type Backup } from '../../book/file/backup.ts';
import { ownBackups } from '../../book/file/backup-owner.ts';
import { identityOf, inName } from '../../book/file/book-identity.ts';
import { listSetAside } from '../../book/file/books-aside.ts';
import { partialPath } from '../../book/file/partial-files.ts';
import {
  backupProblem,
  forgetRemovedPhotos,
  isBefore,
  longBackup,
  makeBackup,
  storedLock,
} from '../session/make-backup.ts';
import { refuseWrongClock } from '../session/clock.ts';
import { by } from '../input/input.ts';
import { host } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { BackupsRenewed } from '../contract/contract.ts';
import { reasonKept } from '../../trade/offered.ts';

/**
 * Makes a fresh verified backup, and only then deletes backups of this book that are older than the last removal of
 * personal details: beside the book, in the second place if the fresh one is there too, and replaced books. A backup
 * that is not an earlier state of the open book stays, because it may contain unique records.
 * @throws ProblemError `backup.demo`, `backup.none-before`, `clock.*` (refused); the reason why the fresh backup
 * failed (broken)
 */
export const renewBackups = host(
  v.object({ by }),
  (session, input): BackupsRenewed => {
    if (session.demo) throw new ProblemError('refused', 'backup.demo');
    refuseWrongClock(session);
    const removedAt = session.book.removedDetails.lastRemoval();
    const { beside, away, others } = earlierBackups(session, removedAt ?? '');
    if (beside.length + away.length + others.length === 0)
      throw new ProblemError('refused', 'backup.none-before');
    const result = makeBackup(session, new Date(session.now()));
    if (!result.ok) throw backupProblem(session, result.trouble);
    const fresh = [result.backup.path, result.second?.path];
    const going = [...beside, ...(result.second ? away : [])].filter(({ path }) => !fresh.includes(path));
    const deleted = going.filter(({ path }) => remove(path)).length;
    forgetRemovedPhotos(session);
    const left = [...beside, ...away, ...others]
      .map(({ path }) => path)
      .filter((path) => !fresh.includes(path) && existsSync(path));
    session.book.change(() =>
    session.book.audit.note({
      record: 'setting', recordId: 'backups', act: 'void', after: { deleted }, reason: reasonKept('details-removed'),
      at: session.now(), by: input.by,
    }),
  ); // prettier-ignore
    return { made: result.backup.path, second: result.second?.path ?? null, deleted, left };
  },
  longBackup,
);

/** A write-protected file, or one on a removed drive, stays and is reported. @returns whether it is deleted */
function remove(path: string): boolean {
  try {
    rmSync(path, { force: true });
    return true;
  } catch {
    return false;
  }
}

/** Copies of this book older than a moment; `others` are not earlier states of the open book. */
function earlierBackups(
  { book, settings }: Session,
  removedAt: string,
): Record<'beside' | 'away' | 'others', Backup[]> {
  const identity = identityOf(book.db);
  const lock = storedLock(book);
  const opener = lock ? { lock, scratch: partialPath(book.path) } : undefined;
  const before = (backups: readonly Backup[]): Backup[] => backups.filter((one) => isBefore(one, removedAt));
  const own = (backups: readonly Backup[]): Backup[] => ownBackups(book.db, identity, backups, opener);
  const setAside = before(
    listSetAside(book.path).map((one): Backup => ({ ...one, beforeUpdate: false, book: null })),
  );
  const second = settings.secondBackupFolder;
  const earlier = before(listBackups(book.path));
  const copies = second ? before(listBackups(book.path, second)) : [];
  const beside = own([...earlier, ...setAside]);
  const away = own(copies);
  const named = [...earlier, ...copies].filter((one) => identity !== null && one.book === inName(identity));
  const others = [...named, ...setAside].filter((one) => !beside.includes(one) && !away.includes(one));
  return { beside, away, others };
}
