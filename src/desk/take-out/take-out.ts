/** Taking the book out: as tables, as one text that a book can be made of again, as the file itself; or one hunter's part. */
import { join } from 'node:path';
import * as v from 'valibot';
import { refuseWrongClock } from '../session/clock.ts';
import { backUp } from '../../book/file/backup.ts';
import type { Db } from '../../book/file/db.ts';
import { bookAsText } from '../../book/text/book-as-text.ts';
import { bookFromText, takeOver } from '../../book/text/book-from-text.ts';
import { dropUpload, longUpload, uploadOf } from '../session/upload.ts';
import { hunterOf } from '../animal/hunters.ts';
import { by, id } from '../input/input.ts';
import { host, read } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import { dropTemporary, inTemporary, temporaryFolder } from '../session/temporary.ts';
import { describeTables } from './describe.ts';
import { hunterAsText, recordsOfHunter } from './hunter-file.ts';
import { longPacking, packParcel, pieceOf, writeText } from './outbox.ts';
import { csvText, tableFiles } from './tables-csv.ts';
import { writeZip } from './zip.ts';

/** A book that is larger takes a tenth of a second to copy. */
const LONG_BOOK_BYTES = 30_000_000;

/** Packs what is asked for; the pieces are fetched after. @throws Trouble `takeout.busy` */
export const pack = read(
  v.object({ what: v.picklist(['tables', 'text', 'book', 'description'], 'choice.take-out') }),
  async (room, { what }) => {
    const write = {
      tables: (path: string, db: Db) => writeZip(path, tableFiles(db)),
      text: (path: string, db: Db) => writeText(path, bookAsText(db)),
      book: copyTo,
      description: (path: string, db: Db) => writeText(path, describeTables(db)),
    }[what];
    const ending = { tables: 'zip', text: 'json', book: 'gambrel', description: 'txt' }[what];
    const name = what === 'description' ? 'book-tables' : `book-${room.today()}`;
    return { ...(await packParcel(room, write)), name: `${name}.${ending}` };
  },
  false,
  // `VACUUM INTO` is one step; all other files are written in slices.
  { when: ({ book }, { what }) => what === 'book' && book.size() > LONG_BOOK_BYTES, ...longPacking },
);

/** What the book holds of one hunter, for him or her: a JSON text and the same as tables. @throws Trouble `hunter.unknown` */
export const packHunter = read(v.object({ id }), async (room, input) => {
  const hunter = hunterOf(room, input.id);
  const parcel = await packParcel(room, (path, db) => {
    const records = recordsOfHunter(db, hunter.id);
    return writeZip(path, [
      { name: 'everything.json', text: [hunterAsText(records)] },
      ...records.map(({ table, rows }) => ({
        name: `${table.name}.csv`,
        text: csvText(table.columns, rows),
      })),
      { name: 'READ ME.txt', text: describeTables(db) },
    ]);
  });
  return { ...parcel, name: `hunter-${hunter.id}-${room.today()}.zip` };
});

/** The next piece of what was packed. @throws Trouble `takeout.gone` */
export const piece = read(
  v.object({
    id,
    from: v.pipe(
      v.number('input.invalid'),
      v.integer('input.invalid'),
      v.minValue(0, 'input.invalid'),
      v.maxValue(Number.MAX_SAFE_INTEGER, 'input.invalid'),
    ),
  }),
  (room, input) => pieceOf(room, input.id, input.from),
);

/**
 * Fills an empty book with one that was taken out as text; the book as it was is backed up first.
 * @throws Trouble `takeout.not-empty` (refused), `takeout.format`, `takeout.newer`, `takeout.torn`, `takeout.row`
 */
export const fill = host(
  v.object({ upload: id, by }),
  (room, input) => {
    refuseWrongClock(room);
    const upload = uploadOf(room, input.upload);
    if (!isEmpty(room)) throw new Trouble('refused', 'takeout.not-empty');
    const folder = temporaryFolder('fill');
    try {
      const path = join(folder, 'book.gambrel');
      const trouble = inTemporary(() => bookFromText(upload.path, path, new Date(room.now())));
      if (trouble) throw new Trouble('invalid', CODES[trouble.wrong], { with: { row: trouble.line } });
      backUp(room.book.db, room.book.path, new Date(room.now()));
      takeOver(room.book.db, path);
    } finally {
      dropTemporary(folder);
    }
    dropUpload(room);
    return { animals: Number(room.book.db.prepare('SELECT count(*) FROM animal').pluck().get()) };
  },
  longUpload,
);

/** `VACUUM INTO` may not run inside the transaction that holds the book as it stood. */
function copyTo(path: string, db: Db): void {
  db.exec('COMMIT');
  db.prepare('VACUUM INTO ?').run(path);
}

const CODES = {
  format: 'takeout.format',
  newer: 'takeout.newer',
  torn: 'takeout.torn',
  row: 'takeout.row',
} as const;

/** Nothing of the trade is in it yet: nobody, no animal, no quote, no fat. */
function isEmpty({ book }: DeskRoom): boolean {
  return ['hunter', 'animal', 'quote', 'fat_lot', 'batch'].every(
    (table) => book.db.prepare(`SELECT 1 FROM ${table} LIMIT 1`).get() === undefined,
  );
}
