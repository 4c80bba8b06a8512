import { closeSync, openSync, readSync, rmSync } from 'node:fs';
import { StringDecoder } from 'node:string_decoder';
import Database from 'better-sqlite3';
import { FORMAT, FORMAT_VERSION } from './book-as-text.ts';
import { removeFeed } from '../feed/feed-schema.ts';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../migrations/index.ts';
import type { Db } from '../file/db.ts';
import { invalidTime } from '../file/check-moments.ts';
import { closeBook, openBook } from '../file/open.ts';
import { withoutTriggers } from '../file/without-triggers.ts';
import { quoted, tablesOf, type CellValue } from '../file/tables.ts';

/** Why a text is no complete book: a foreign format, a newer program, truncated, or an invalid row. */
export interface TextTrouble {
  wrong: 'format' | 'newer' | 'torn' | 'row';
  /** Line of the file. */
  line: number;
}

const CHUNK_BYTES = 1 << 20;
/**
 * The longest line, in UTF-16 units. A row comes from one call of at most 1 MB; nested quoting multiplies that a
 * few times.
 */
const MAX_LINE = 8_000_000;
/** A line exceeds `MAX_LINE`. */
class LineTooLong extends Error {}

/**
 * Creates a book at `path` from text, migrated to the current version; foreign keys are checked.
 * @returns null, or the error in the text; then there is no book at `path`
 */
export function bookFromText(textPath: string, path: string, now: Date): TextTrouble | null {
  const db = new Database(path);
  db.pragma('foreign_keys = OFF');
  const at = { line: 0 };
  const lines = countedLines(textPath, at);
  let wrong: TextTrouble['wrong'] | null;
  try {
    wrong = db.transaction(() => fill(db, lines))();
  } finally {
    lines.return(undefined);
    db.close();
  }
  if (wrong === null) {
    closeBook(openBook(path, now, true));
    return null;
  }
  rmSync(path, { force: true });
  return { wrong, line: at.line };
}

/**
 * Replaces all rows of `db` with those of the book at `path`, in one transaction; both are of the current version. What comes is
 * another book, so a feed of this one ends.
 */
export function replaceRows(db: Db, path: string): void {
  db.prepare('ATTACH ? AS other').run(path);
  try {
    db.transaction(() => {
      removeFeed(db);
      withoutTriggers(
        db,
        () => true,
        () => {
          db.pragma('defer_foreign_keys = ON');
          const tables = tablesOf(db).map(({ name, columns }) => ({
            name: quoted(name),
            columns: columns.map(quoted).join(),
          }));
          for (const { name } of tables) db.exec(`DELETE FROM main.${name}`);
          for (const { name, columns } of tables)
            db.exec(`INSERT INTO main.${name} (${columns}) SELECT ${columns} FROM other.${name}`);
        },
      );
    }).immediate();
  } finally {
    db.exec('DETACH other');
  }
}

function fill(db: Db, lines: Generator<string>): TextTrouble['wrong'] | null {
  try {
    const head = JSON.parse(`${String(lines.next().value)}]}`) as Record<string, unknown>;
    const version = Number(head.bookVersion);
    if (head.format !== FORMAT || !Number.isInteger(version) || version < 1) return 'format';
    if (Number(head.formatVersion) > FORMAT_VERSION || version > BOOK_VERSION) return 'newer';
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    db.pragma(`application_id = ${APPLICATION_ID}`);
    db.pragma(`user_version = ${version}`);
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof LineTooLong) return 'format';
    throw error;
  }
  try {
    // Sums are rows of the text like all others, so no trigger may compute them meanwhile.
    const whole = withoutTriggers(
      db,
      () => true,
      () => fillTables(db, lines),
    );
    if (!whole) return 'torn';
    const loose = (db.pragma('foreign_key_check') as unknown[]).length > 0;
    return loose || invalidTime(db) !== null ? 'row' : null;
  } catch (error) {
    if (error instanceof SyntaxError) return 'torn';
    if (error instanceof LineTooLong) return 'row';
    // Refused by the table: a value of the wrong type, an extra value, a duplicate key, a missing column.
    if (
      error instanceof Database.SqliteError &&
      !/^SQLITE_(FULL|IOERR|CANTOPEN|READONLY|NOMEM)/.test(error.code)
    )
      return 'row';
    if (error instanceof RangeError || error instanceof TypeError) return 'row';
    throw error;
  }
}

/** @returns whether the text is complete */
function fillTables(db: Db, lines: Generator<string>): boolean {
  let insert: Database.Statement<CellValue[]> | null = null;
  for (const text of lines) {
    if (text.startsWith('[')) {
      if (!insert) return false;
      insert.run(...(JSON.parse(text.replace(/,$/, '')) as CellValue[]));
    } else if (text.startsWith('{')) {
      const { table, columns } = JSON.parse(`${text}]}`) as { table: string; columns: string[] };
      insert = db.prepare(
        `INSERT INTO ${quoted(table)} (${columns.map(quoted).join()}) VALUES (${columns.map(() => '?').join()})`,
      );
    } else if (text === ']}' && insert === null) return true;
    else if (/^\]\},?$/.test(text)) insert = null;
    else return false;
  }
  return false;
}

/** @param at counts the lines, the overlong one included */
function* countedLines(path: string, at: { line: number }): Generator<string> {
  for (const line of linesOf(path, at)) {
    at.line += 1;
    yield line;
  }
}

/** The lines of a text file, streamed, in time linear in its length. @throws LineTooLong */
function* linesOf(path: string, at: { line: number }): Generator<string> {
  const file = openSync(path, 'r');
  try {
    const decoder = new StringDecoder('utf8');
    const chunk = Buffer.alloc(CHUNK_BYTES);
    /** The chunks of the current line so far. */
    let begun: string[] = [];
    let length = 0;
    for (let n = readSync(file, chunk); n > 0; n = readSync(file, chunk)) {
      const [first = '', ...more] = decoder.write(chunk.subarray(0, n)).split('\n');
      begun.push(first);
      length += first.length;
      if (length > MAX_LINE) {
        at.line += 1;
        throw new LineTooLong();
      }
      const last = more.pop();
      if (last === undefined) continue;
      yield begun.join('');
      yield* more;
      begun = [last];
      length = last.length;
    }
    if (length > 0) yield begun.join('');
  } finally {
    closeSync(file);
  }
}
