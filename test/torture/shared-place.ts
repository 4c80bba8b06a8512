/**
 * Rounds of three books that share a second place: two of one file that was copied and went on apart, and one of its
 * own with a lock. What each made is kept in a list of our own, thinned by the rule alone; nothing else may be missing.
 */
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { backUp, backupAt, type Backup } from '../../src/book/file/backup.ts';
import { checkCopy } from '../../src/book/file/backup-check.ts';
import { backupsToDrop } from '../../src/book/file/backup-rotation.ts';
import { openRecordBook, type Book } from '../../src/book/book.ts';
import { makeLock, type Lock } from '../../src/book/file/locked-file.ts';
import { copyToSecondPlace } from '../../src/book/file/second-place.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { tally, type Tally } from './tally.ts';

interface Shop {
  book: Book;
  lock: Lock | false;
  /** What the rule leaves of its own copies. */
  copies: Backup[];
}

const START = Date.parse('2026-09-01T12:00:00Z');
const HOUR_MS = 3_600_000;

export function sharedPlaceRounds(rounds: number, seed: number): Tally {
  const counted = tally('second place shared by three books');
  const chance = seededRandom(seed);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
  const stick = join(folder, 'stick');
  mkdirSync(stick);
  const pathOf = (shop: string): string => join(folder, shop, 'shop.gambrel');
  for (const shop of ['first', 'copied', 'other']) mkdirSync(join(folder, shop));
  const first = openRecordBook(pathOf('first'), new Date(START));
  note(first, new Date(START));
  first.close();
  copyFileSync(pathOf('first'), pathOf('copied'));
  const open = (shop: string, lock: Lock | false): Shop => ({
    book: openRecordBook(pathOf(shop), new Date(START)),
    lock,
    copies: [],
  });
  const shops = [open('first', false), open('copied', false), open('other', makeLock('three cold hooks'))];
  let at = START;
  for (let round = 0; round < rounds; round++) {
    at += Math.floor(chance.uniform() * 30) * HOUR_MS;
    const shop = shops[Math.floor(chance.uniform() * shops.length)];
    if (!shop) continue;
    note(shop.book, new Date(at));
    const made = backUp(shop.book.db, shop.book.path, new Date(at));
    const copy = copyToSecondPlace(made, shop.book.path, stick, shop.lock);
    rmSync(made.path);
    const all = [...shop.copies, copy];
    const gone = backupsToDrop(all, copy);
    shop.copies = all.filter((one) => !gone.includes(one));
    counted.rounds += 1;
    counted.entries += 1;
    if (gone.some(({ path }) => existsSync(path))) {
      counted.wrong += 1;
      counted.notes.push(`round ${round}: a copy stayed that the rule lets go`);
    }
    const kept = shops.flatMap(({ copies }) => copies);
    const missing = kept.filter(({ path }) => !existsSync(path));
    counted.lost += missing.length;
    for (const one of shops) one.copies = one.copies.filter((copied) => !missing.includes(copied));
  }
  for (const { path, locked } of shops.flatMap(({ copies }) => copies))
    if (!locked) checkCopy(backupAt(path).path, null);
  for (const { book } of shops) book.close();
  rmSync(folder, { recursive: true, force: true });
  return counted;
}

function note(book: Book, at: Date): void {
  book.change(() =>
    book.audit.note({ record: 'setting', recordId: 'unit', act: 'change', at: at.toISOString(), by: 'MK' }),
  );
}
