/** Backups from before personal details were removed still hold them: they are told, and made anew when somebody says so. */
import { existsSync, rmSync } from 'node:fs';
import * as v from 'valibot';
import { listBackups, type Backup } from '../../book/file/backup.ts';
import { ownBackups } from '../../book/file/backup-owner.ts';
import { identityOf, inName } from '../../book/file/book-identity.ts';
import { listSetAside } from '../../book/file/books-aside.ts';
import { partialPath } from '../../book/file/partial-files.ts';
import { makeBackup, storedLock, longBackup, backupProblem } from '../session/make-backup.ts';
import { refuseWrongClock } from '../session/clock.ts';
import { by } from '../input/input.ts';
import { host } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { BackupsRenewed } from '../contract/contract.ts';

/** Whether a backup may be from before a removal. Its name tells whole seconds, so one of the same second counts. */
export function isBefore(backup: Pick<Backup, 'at'>, removedAt: string): boolean {
  return Date.parse(backup.at) <= Date.parse(removedAt);
}

/**
 * Makes a fresh backup, checked as every one is, and only then deletes those of this book that are from before personal
 * details were last removed: beside the book, in the second place where the fresh one lies there too, and books that were
 * set aside. What is no earlier state of the open book is left, for something may be in it that is nowhere else.
 * @throws ProblemError `backup.demo`, `backup.none-before`, `clock.*` (refused); what kept the fresh backup from being made (broken)
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
    const kept = makeBackup(session, new Date(session.now()));
    if (!kept.ok) throw backupProblem(session, kept.trouble);
    const fresh = [kept.backup.path, kept.second?.path];
    const going = [...beside, ...(kept.second ? away : [])].filter(({ path }) => !fresh.includes(path));
    const deleted = going.filter(({ path }) => remove(path)).length;
    const left = [...beside, ...away, ...others]
      .map(({ path }) => path)
      .filter((path) => !fresh.includes(path) && existsSync(path));
    session.book.change(() =>
    session.book.audit.note({
      record: 'setting', recordId: 'backups', act: 'void', after: { deleted }, reason: 'details removed',
      at: session.now(), by: input.by,
    }),
  ); // prettier-ignore
    return { made: kept.backup.path, second: kept.second?.path ?? null, deleted, left };
  },
  longBackup,
);

/** A file that is write-protected, or away with its stick, stays and is told. @returns whether it is gone */
function remove(path: string): boolean {
  try {
    rmSync(path, { force: true });
    return true;
  } catch {
    return false;
  }
}

/** Copies of this book from before a moment; `others` are no earlier state of the book as it is now. */
function earlierBackups(
  { book, settings }: Session,
  removedAt: string,
): Record<'beside' | 'away' | 'others', Backup[]> {
  const identity = identityOf(book.db);
  const lock = storedLock(book);
  const opener = lock ? { lock, scratch: partialPath(book.path) } : undefined;
  const before = (backups: readonly Backup[]): Backup[] => backups.filter((one) => isBefore(one, removedAt));
  const mine = (backups: readonly Backup[]): Backup[] => ownBackups(book.db, identity, backups, opener);
  const setAside = before(
    listSetAside(book.path).map((one): Backup => ({ ...one, beforeUpdate: false, book: null })),
  );
  const second = settings.secondBackupFolder;
  const kept = before(listBackups(book.path));
  const copies = second ? before(listBackups(book.path, second)) : [];
  const beside = mine([...kept, ...setAside]);
  const away = mine(copies);
  const named = [...kept, ...copies].filter((one) => identity !== null && one.book === inName(identity));
  const others = [...named, ...setAside].filter((one) => !beside.includes(one) && !away.includes(one));
  return { beside, away, others };
}
