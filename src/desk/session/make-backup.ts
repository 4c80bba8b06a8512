/** Makes the shop's backups: beside the book, and in the second place if there is one. */
import { dirname } from 'node:path';
import * as v from 'valibot';
import { backUp, backupFolder, listBackups, thinBackups, type Backup } from '../../book/file/backup.ts';
import { lastEntryOf } from '../../book/file/backup-check.ts';
import { mayBeOf, ownBackups, ownerOf } from '../../book/file/backup-owner.ts';
import type { Book } from '../../book/book.ts';
import { identityOf } from '../../book/file/book-identity.ts';
import type { Lock } from '../../book/file/locked-file.ts';
import { isWithin } from '../../book/file/same-folder.ts';
import { copyToSecondPlace } from '../../book/file/second-place.ts';
import { bookErrorOf, type BookError } from '../../book/file/book-error.ts';
import { copyPhotosTo, deleteRemovedCopies } from './photo-keeping.ts';
import { problemOfBookError } from '../contract/book-problems.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import { readSetting } from './settings.ts';
import type { ShopSettings } from '../contract/contract.ts';

/** State of an open book's backups. */
export interface BackupState {
  /** Whether the book changed since the last backup. */
  due(): boolean;
  /** The present state of the book, which a backup begun now contains. */
  mark(): BackupMark;
  /** Records that the state at a mark is backed up; the present state by default. */
  made(at?: BackupMark): void;
  /** The newest entry of a station, by its id, that is in a backup of this run; 0 before the first one. */
  readonly entriesIn: number;
  /** Why the last backup failed beside the book, and in the second place. */
  problem: Problem | null;
  secondProblem: Problem | null;
}

interface BackupMark {
  state: string;
  /** Id of the newest entry of a station. */
  entry: number;
}

/** The parts of a session that backups need. */
interface BackedUp {
  readonly book: Book;
  readonly demo: boolean;
  readonly settings: ShopSettings;
  readonly backups: BackupState;
}

type BackupResult = { ok: true; backup: Backup; second: Backup | null } | { ok: false; trouble: BookError };

/**
 * Changes are detected by `total_changes`, the rows that this program wrote, and `data_version`, which increases
 * when another wrote. A book whose newest entry is newer than its newest backup was not closed properly.
 */
export function backupState({ db, path, stationEntries }: Book): BackupState {
  const changes = db.prepare('SELECT total_changes()').pluck();
  const state = () => `${changes.get()} ${db.pragma('data_version', { simple: true })}`;
  const mark = () => ({ state: state(), entry: stationEntries.newest() });
  const newest = newestBackup({ db, path })?.at ?? '';
  let last = { state: (lastEntryOf(db) ?? '') > newest ? '' : state(), entry: 0 };
  return {
    due: () => state() !== last.state,
    mark,
    made: (at = mark()) => void (last = at),
    get entriesIn() {
      return last.entry;
    },
    problem: null,
    secondProblem: null,
  };
}

/** The newest backup of this book beside it, ignoring those of other books. */
export function newestBackup({ db, path }: Pick<Book, 'db' | 'path'>): Backup | null {
  const identity = identityOf(db);
  const isOurs = (one: Backup): boolean =>
    mayBeOf(one, identity) && (one.book !== null || ownerOf(one)?.label.book === identity);
  return listBackups(path).find(isOurs) ?? null;
}

/** A larger book takes more than a tenth of a second to copy and check. */
const LONG_BOOK_BYTES = 10_000_000;

export const isLongBook = ({ book }: Pick<BackedUp, 'book'>): boolean => book.size() > LONG_BOOK_BYTES;

/** The worker thread backs up a large book, and one with photographs; later writes are not included. */
export const longBackup = {
  when: ({ book }: Pick<BackedUp, 'book'>): boolean => isLongBook({ book }) || book.photographs.any(),
  begin({ backups }: BackedUp) {
    const mark = backups.mark();
    return {
      done(value: unknown): void {
        backups.made(mark);
        backups.problem = null;
        backups.secondProblem = (value as { secondProblem?: Problem | null }).secondProblem ?? null;
      },
      failed(error: unknown): void {
        if (error instanceof ProblemError) backups.problem = error.problem;
      },
    };
  },
};

/**
 * Makes a verified backup now, with the photographs, and deletes old ones by the rotation rule. A failure of the second place is
 * recorded and does not fail the first.
 * @param keeping the path of a backup that is never deleted, in either place
 */
export function makeBackup(session: BackedUp, at: Date, keeping?: string): BackupResult {
  const { book, backups } = session;
  try {
    const backup = backUp(book.db, book.path, at);
    copyPhotosTo(book, dirname(backup.path), null);
    backups.problem = null;
    backups.made();
    const identity = identityOf(book.db);
    const beside = listBackups(book.path).filter((one) => mayBeOf(one, identity) && one.path !== keeping);
    thinBackups(beside, backup, (backups) => ownBackups(book.db, identity, backups));
    const second = session.demo ? null : copyAway(session, backup, keeping);
    forgetRemovedPhotos(session);
    return { ok: true, backup, second };
  } catch (error) {
    const trouble = bookErrorOf(error, book.path);
    backups.problem = problemOfBookError(trouble);
    return { ok: false, trouble };
  }
}

/**
 * Whether a backup may be older than a removal. Backup names have whole seconds, so one of the same second counts.
 */
export function isBefore(backup: Pick<Backup, 'at'>, removedAt: string): boolean {
  return Date.parse(backup.at) <= Date.parse(removedAt);
}

/**
 * Deletes copies of removed photographs among the backups, once no backup there is older than their removal: until then such a
 * backup brings them back, and the list of backups says so.
 */
export function forgetRemovedPhotos({ book, settings }: Pick<BackedUp, 'book' | 'settings'>): void {
  const removedAt = book.removedDetails.lastRemoval();
  if (removedAt === null) return;
  const identity = identityOf(book.db);
  for (const folder of [backupFolder(book.path), settings.secondBackupFolder]) {
    if (!folder) continue;
    const ours = listBackups(book.path, folder).filter((one) => mayBeOf(one, identity));
    if (!ours.some((one) => isBefore(one, removedAt))) deleteRemovedCopies(book, folder);
  }
}

/** The problem for a requested backup that failed: of the book, or of the folder of backups. */
export function backupProblem({ book }: { book: Pick<Book, 'path'> }, trouble: BookError): ProblemError {
  const path = trouble.code === 'backups' ? trouble.path : book.path;
  return new ProblemError('broken', problemOfBookError(trouble).code, { with: { path } });
}

function copyAway({ book, backups, settings }: BackedUp, backup: Backup, keeping?: string): Backup | null {
  const folder = settings.secondBackupFolder;
  backups.secondProblem = null;
  if (!folder) return null;
  try {
    const lock = storedLock(book);
    const copy = copyToSecondPlace(backup, book.path, folder, lock, keeping);
    copyPhotosTo(book, folder, lock || null);
    return copy;
  } catch (error) {
    const trouble = bookErrorOf(error, folder);
    // An error of this computer's own disk is not one of the stick.
    const there = isWithin(dirname(trouble.path), folder) || isWithin(trouble.path, folder);
    backups.secondProblem = problemOfBookError(trouble, there ? 'second' : 'book');
    return null;
  }
}

const lockSchema = v.union([
  v.literal(false),
  v.object({
    salt: v.pipe(v.string(), v.regex(/^[0-9a-f]{32}$/)),
    key: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
  }),
]);

/** The lock of copies that leave the computer; `false`: the shop wants none; null: undecided. */
export function storedLock(book: Book): Lock | false | null {
  return readSetting(book, 'backupLock', lockSchema) ?? null;
}
