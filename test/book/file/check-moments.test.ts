/** A file of anybody's making with a moment or a day that is none: it is refused before it takes the book's place. */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { bookAsText } from '../../../src/book/text/book-as-text.ts';
import { bookFromText } from '../../../src/book/text/book-from-text.ts';
import { timeIn, wrongTime } from '../../../src/book/file/check-moments.ts';
import { quoted, tablesOf } from '../../../src/book/file/tables.ts';
import { demoAt } from '../../demo-copy.ts';
import { freshDesk, takeIn } from '../../desk/fresh-desk.ts';
import { tempBookPath } from '../temp-book.ts';

/** A shop, and the path of a backup of it in which `sql` was carried out with all triggers aside. */
async function spoilt(sql: string) {
  const shop = await freshDesk();
  await takeIn(shop, { killDate: '2026-10-08' });
  const { path } = await shop.call('shop.backUp', {});
  const db = new Database(path);
  const triggers = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  db.exec(sql);
  for (const one of triggers) db.exec(one.sql);
  db.close();
  return { shop, path };
}

describe('the trial of a backup', () => {
  it.each([
    ["UPDATE animal SET created_at = 'yesterday'"],
    ["UPDATE animal SET created_at = '2026-13-45T99:99:99.999Z'"],
    ["UPDATE animal SET created_at = ''"],
    ["UPDATE weighing SET at = 'Nov 5 2026'"],
    ["UPDATE hunter SET details_removed_at = 'gone'"],
  ])('refuses one after %s, and so does restoring it', async (sql) => {
    const { shop, path } = await spoilt(sql);
    expect(await shop.problem('shop.tryBackup', { path })).toMatchObject({ code: 'backup.bad' });
    expect(await shop.problem('shop.restore', { path })).toMatchObject({ code: 'backup.bad' });
    expect(await shop.call('records.list', {})).toHaveLength(1);
    expect(shop.broken).toEqual([]);
  });

  it('takes one whose moments another program wrote to the second', async () => {
    const { shop, path } = await spoilt("UPDATE animal SET created_at = '2026-10-09T15:00:00Z'");
    await shop.call('shop.tryBackup', { path });
    await shop.call('shop.restore', { path });
    expect(await shop.call('records.list', {})).toHaveLength(1);
    expect(shop.broken).toEqual([]);
  });
});

describe('a book taken out as text', () => {
  it('with a moment that is none fills no book', async () => {
    const from = await freshDesk();
    await takeIn(from);
    from.desk.close();
    const db = new Database(from.bookPath);
    const at = db.prepare('SELECT created_at FROM animal').pluck().get() as string;
    const text = [...bookAsText(db)].join('').replaceAll(at, 'yesterday');
    db.close();
    const path = join(dirname(from.bookPath), 'book.json');
    writeFileSync(path, text);
    expect(bookFromText(path, `${path}.gambrel`, new Date())).toMatchObject({ wrong: 'row' });
  });
});

describe('columns with moments and days', () => {
  it('are all known by their names, and hold nothing else in the demo', async () => {
    const path = tempBookPath();
    await demoAt(path);
    const db = new Database(path);
    const looks = (values: readonly string[]): boolean =>
      values.length > 0 && values.every((value) => /^\d{4}-\d\d-\d\d(T[\d:.]+Z)?$/.test(value));
    const missed = tablesOf(db).flatMap(({ name, columns }) =>
      columns.filter(
        (column) =>
          timeIn(column) === null &&
          looks(
            db
              .prepare<[], string>(
                `SELECT DISTINCT ${quoted(column)} FROM ${quoted(name)} WHERE ${quoted(column)} IS NOT NULL`,
              )
              .pluck()
              .all()
              .map(String),
          ),
      ),
    );
    expect(missed).toEqual([]);
    expect(wrongTime(db)).toBeNull();
    expect(
      tablesOf(db).flatMap(({ columns }) => columns.filter((one) => timeIn(one) !== null)).length,
    ).toBeGreaterThan(50);
    db.close();
  }, 120_000);
});
