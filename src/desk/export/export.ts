/**
 * Exports the book: as tables, as one text that can be imported as a book, as the file itself; or one hunter's
 * records.
 */
import { join } from 'node:path';
import * as v from 'valibot';
import { refuseWrongClock } from '../session/clock.ts';
import { text } from '../../words/compiled/desk/export.ts';
import { inLanguage } from '../../words/of-desk.ts';
import { backUp } from '../../book/file/backup.ts';
import type { Db } from '../../book/file/db.ts';
import { bookAsText } from '../../book/text/book-as-text.ts';
import { bookFromText, replaceRows } from '../../book/text/book-from-text.ts';
import { dropUpload, longUpload, uploadOf } from '../session/upload.ts';
import { hunterOf } from '../animal/hunters.ts';
import { by, id } from '../input/input.ts';
import { language } from '../input/language.ts';
import { host, read } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { removeTemporary, withTemporary, temporaryFolder } from '../session/temporary.ts';
import { codesFile } from './codes-csv.ts';
import { describeTables } from './describe.ts';
import { hunterAsText, recordsOfHunter } from './hunter-file.ts';
import { longExport, writeExport, pieceOf, writeText } from './outbox.ts';
import { csvText, tableFiles } from './tables-csv.ts';
import { photoFiles } from './photo-files.ts';
import { writeZip, type ZipFile } from './zip.ts';

/** A larger book takes a tenth of a second to copy. */
const LONG_BOOK_BYTES = 30_000_000;

/** Makes the requested export; its chunks are fetched afterwards. @throws ProblemError `export.busy` */
export const create = read(
  v.object({ what: v.picklist(['tables', 'text', 'book', 'description'], 'choice.take-out'), language }),
  async (session, { what, language: of }) => {
    const write = {
      tables: (path: string, db: Db) => writeZip(path, withPhotos(session, db, tableFiles(db, of))),
      text: (path: string, db: Db) => writeText(path, bookAsText(db)),
      book: copyTo,
      description: (path: string, db: Db) => writeText(path, describeTables(db, of)),
    }[what];
    const ending = { tables: 'zip', text: 'json', book: 'gambrel', description: 'txt' }[what];
    const name = what === 'description' ? 'book-tables' : `book-${session.today()}`;
    return { ...(await writeExport(session, write)), name: `${name}.${ending}` };
  },
  false,
  // `VACUUM INTO` is one step; all other files are written in slices.
  { when: ({ book }, { what }) => what === 'book' && book.size() > LONG_BOOK_BYTES, ...longExport },
);

/** The book's records of one hunter: a JSON text and the same as tables. @throws ProblemError `hunter.unknown` */
export const createForHunter = read(v.object({ id, language }), async (session, input) => {
  const hunter = hunterOf(session, input.id);
  const parcel = await writeExport(session, (path, db) => {
    const records = recordsOfHunter(db, hunter.id);
    return writeZip(path, [
      { name: 'everything.json', text: [hunterAsText(records)] },
      ...records.map(({ table, rows }) => ({
        name: `${table.name}.csv`,
        text: csvText(table.columns, rows),
      })),
      codesFile(input.language),
      { name: inLanguage(text, input.language).readMe, text: describeTables(db, input.language) },
      ...photoFiles(db, session.book.path, hunter.id),
    ]);
  });
  return { ...parcel, name: `hunter-${hunter.id}-${session.today()}.zip` };
});

/** The next chunk of the export. @throws ProblemError `export.gone` */
export const getPiece = read(
  v.object({
    id,
    from: v.pipe(
      v.number('input.invalid'),
      v.integer('input.invalid'),
      v.minValue(0, 'input.invalid'),
      v.maxValue(Number.MAX_SAFE_INTEGER, 'input.invalid'),
    ),
  }),
  (session, input) => pieceOf(session, input.id, input.from),
);

/**
 * Fills an empty book from an export as text; the previous book is backed up first.
 * @throws ProblemError `export.not-empty` (refused), `export.format`, `export.newer`, `export.torn`, `export.row`
 */
export const importBook = host(
  v.object({ upload: id, by }),
  (session, input) => {
    refuseWrongClock(session);
    const upload = uploadOf(session, input.upload);
    if (!isEmpty(session)) throw new ProblemError('refused', 'export.not-empty');
    const folder = temporaryFolder('fill');
    try {
      const path = join(folder, 'book.gambrel');
      const trouble = withTemporary(() => bookFromText(upload.path, path, new Date(session.now())));
      if (trouble) throw new ProblemError('invalid', CODES[trouble.wrong], { with: { row: trouble.line } });
      backUp(session.book.db, session.book.path, new Date(session.now()));
      replaceRows(session.book.db, path);
    } finally {
      removeTemporary(folder);
    }
    dropUpload(session);
    return { animals: Number(session.book.db.prepare('SELECT count(*) FROM animal').pluck().get()) };
  },
  longUpload,
);

function* withPhotos({ book }: Session, db: Db, files: Iterable<ZipFile>): Generator<ZipFile> {
  yield* files;
  yield* photoFiles(db, book.path);
}

/** `VACUUM INTO` may not run inside the transaction of the snapshot. */
function copyTo(path: string, db: Db): void {
  db.exec('COMMIT');
  db.prepare('VACUUM INTO ?').run(path);
}

const CODES = {
  format: 'export.format',
  newer: 'export.newer',
  torn: 'export.torn',
  row: 'export.row',
} as const;

/** No records yet: no hunter, animal, quote, fat or batch. */
function isEmpty({ book }: Session): boolean {
  return ['hunter', 'animal', 'quote', 'fat_lot', 'batch'].every(
    (table) => book.db.prepare(`SELECT 1 FROM ${table} LIMIT 1`).get() === undefined,
  );
}
