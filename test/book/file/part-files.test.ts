/** Files that are still being written: no link is followed, and what a run that was cut short left goes at the next start. */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp, backupFolder, clearOwnPartials } from '../../../src/book/file/backup.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { makeLock } from '../../../src/book/file/locked-file.ts';
import { createPartial, partialPath } from '../../../src/book/file/partial-files.ts';
import { restoreBackup, tryBackup } from '../../../src/book/file/restore.ts';
import { seal } from '../../../src/book/file/seal.ts';
import { copyToSecondPlace } from '../../../src/book/file/second-place.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const lock = makeLock('three cold elk hooks');

/** The number of a process that has ended. */
const ended = (): number => spawnSync('true').pid;

function openBook() {
  const path = tempBookPath();
  return { path, book: openRecordBook(path, NOW) };
}

describe('a planted link', () => {
  /** Links under every name that a writer could have been foreseen to use. */
  function plant(folder: string, names: readonly string[]): string {
    const diary = join(folder, 'diary.txt');
    writeFileSync(diary, 'mine');
    for (const name of names) symlinkSync(diary, join(folder, name));
    return diary;
  }

  it('in the backup folder is not followed', () => {
    const { path, book } = openBook();
    const folder = backupFolder(path);
    const first = backUp(book.db, path, NOW);
    const name = basename(first.path).replace('T12', 'T13');
    const diary = plant(folder, [name, `${name}.part`, 'last closed.sha256', 'last closed.sha256.part']);
    const made = backUp(book.db, path, new Date('2026-10-01T13:00:00Z'));
    expect(basename(made.path)).toBe(name.replace('.gambrel', ' (2).gambrel'));
    book.close();
    seal(path);
    expect(readFileSync(diary, 'utf8')).toBe('mine');
  });

  it('in the second place is not followed', () => {
    const { path, book } = openBook();
    const made = backUp(book.db, path, NOW);
    const stick = join(dirname(path), 'stick');
    mkdirSync(stick);
    const name = basename(made.path);
    const diary = plant(stick, [name, `${name}.part`, `${name}-locked`, `${name}-locked.part`]);
    copyToSecondPlace(made, path, stick, null);
    copyToSecondPlace(made, path, stick, lock);
    book.close();
    expect(readFileSync(diary, 'utf8')).toBe('mine');
  });

  it('beside the book is not followed by a trial or a restore', () => {
    const { path, book } = openBook();
    const made = backUp(book.db, path, NOW);
    book.close();
    const name = basename(path);
    const diary = plant(dirname(path), [`${name}.part`, `${name}.rehearsal`]);
    tryBackup(path, made, NOW);
    restoreBackup(path, made, NOW);
    expect(readFileSync(diary, 'utf8')).toBe('mine');
  });

  it('cannot anticipate the name of a partial file: names are random, and an existing one is refused', () => {
    expect(partialPath('/a')).not.toBe(partialPath('/a'));
    const folder = dirname(tempBookPath());
    const diary = plant(folder, ['taken.part']);
    expect(() => createPartial(join(folder, 'taken.part'))).toThrow(/EEXIST/);
    expect(readFileSync(diary, 'utf8')).toBe('mine');
  });
});

describe('a leftover of an interrupted run', () => {
  /** The name of a part as another process of this computer, or of another, would have drawn it. */
  const partBy = (path: string, pid: number, computer?: string): string =>
    partialPath(path).replace(/\.([0-9a-f]{8})-\d+-/, (_, mine: string) => `.${computer ?? mine}-${pid}-`);
  const put = (path: string, old = false): string => {
    writeFileSync(path, 'half');
    if (old) utimesSync(path, 0, 0);
    return path;
  };

  it('is deleted at the next start once its process has ended, and kept while it may be in use', () => {
    const { path, book } = openBook();
    const { path: backup } = backUp(book.db, path, NOW);
    book.close();
    const gone = [
      put(partBy(path, ended())),
      put(`${partBy(path, ended())}-wal`),
      put(partBy(backup, ended())),
      put(partBy(join(backupFolder(path), 'last closed.sha256'), ended())),
      put(`${path}.part`, true),
      put(`${path}.rehearsal-wal`, true),
      put(`${backup}.rehearsal`, true),
      put(partBy(path, 1, '00000000'), true),
    ];
    const kept = [
      path,
      backup,
      put(partBy(path, process.pid)),
      put(partBy(path, ended(), '00000000')),
      put(`${path}.part`.replace('.part', ' of mine.part'), true),
      put(join(dirname(path), 'other.gambrel.part'), true),
      put(join(backupFolder(path), 'notes.part'), true),
    ];
    clearOwnPartials(path);
    expect(gone.filter((one) => existsSync(one))).toEqual([]);
    expect(kept.filter((one) => !existsSync(one))).toEqual([]);
  });

  it('in the second place is deleted with the next copy, and those of other books are kept', () => {
    const { path, book } = openBook();
    const made = backUp(book.db, path, NOW);
    book.close();
    const stick = join(dirname(path), 'stick');
    mkdirSync(stick);
    const own = put(partBy(join(stick, basename(made.path)), ended()));
    const others = put(partBy(join(stick, 'shop book-00000000 2026-10-01T12-00-00.gambrel'), ended()), true);
    copyToSecondPlace(made, path, stick, null);
    expect(existsSync(own)).toBe(false);
    expect(readdirSync(stick).sort()).toEqual([basename(others), basename(made.path)].sort());
  });
});
