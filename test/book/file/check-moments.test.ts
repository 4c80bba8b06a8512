/** A file of anybody's making with a moment or a day that is none: it is refused before it takes the book's place. */
import { rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backupFolder } from '../../../src/book/file/backup.ts';
import { bookAsText } from '../../../src/book/text/book-as-text.ts';
import { bookFromText } from '../../../src/book/text/book-from-text.ts';
import { timeIn, invalidTime } from '../../../src/book/file/check-moments.ts';
import { quoted, tablesOf } from '../../../src/book/file/tables.ts';
import { demoAt } from '../../demo-copy.ts';
import { deskOn, freshDesk, takeIn } from '../../desk/fresh-desk.ts';
import { tempBookPath } from '../temp-book.ts';

/** A shop, and the path of a backup of it in which `sql` was carried out with all triggers aside. */
async function spoilt(sql: string) {
  const shop = await freshDesk();
  await takeIn(shop, { killDate: '2026-10-08' });
  const { path } = await shop.call('shop.backUp', {});
  spoil(path, sql);
  return { shop, path };
}

function spoil(path: string, sql: string): void {
  const db = new Database(path);
  const triggers = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  db.exec(sql);
  for (const one of triggers) db.exec(one.sql);
  db.close();
}

const trailOf = (path: string) => {
  const db = new Database(path, { readonly: true });
  const rows = db
    .prepare("SELECT record_id, before, after FROM audit WHERE record = 'book' ORDER BY id")
    .all();
  db.close();
  return rows as { record_id: string; before: string; after: string }[];
};

describe('the trial of a backup', () => {
  it.each([
    ["UPDATE animal SET created_at = 'yesterday'"],
    ["UPDATE animal SET created_at = '2026-13-45T99:99:99.999Z'"],
    ["UPDATE animal SET created_at = ''"],
    ["UPDATE weighing SET at = 'Nov 5 2026'"],
    ["UPDATE hunter SET details_removed_at = 'gone'"],
  ])('refuses one after %s, and so does restoring it', async (sql) => {
    const { shop, path } = await spoilt(sql);
    expect(await shop.problem('shop.tryBackup', { path })).toMatchObject({ code: 'backup.times' });
    expect(await shop.problem('shop.restore', { path })).toMatchObject({ code: 'backup.times' });
    expect(await shop.call('records.list', {})).toHaveLength(1);
    expect(shop.broken).toEqual([]);
  });

  it('accepts one whose moments another program wrote without milliseconds', async () => {
    const { shop, path } = await spoilt("UPDATE animal SET created_at = '2026-10-09T15:00:00Z'");
    await shop.call('shop.tryBackup', { path });
    await shop.call('shop.restore', { path });
    expect(await shop.call('records.list', {})).toHaveLength(1);
    expect(shop.broken).toEqual([]);
  });
});

describe('an invalid date does not lock a shop out of its own records', () => {
  it('its backup opens with its records, and the repaired dates are listed in the answer and in the audit', async () => {
    const { shop, path } = await spoilt(
      "UPDATE animal SET created_at = 'yesterday'; UPDATE hunter SET details_removed_at = 'gone'; INSERT INTO payment (id, animal_id, kind, method, amount_minor, currency, paid_on, at, by) VALUES (1, 1, 'payment', 'cash', 100, 'USD', '2026-02-30', '2026-10-10T15:00:00.000Z', '')",
    );
    const repaired = [
      { table: 'animal', column: 'created_at', rows: 1 },
      { table: 'hunter', column: 'details_removed_at', rows: 1 },
      { table: 'payment', column: 'paid_on', rows: 1 },
    ];
    const records = { path, recordsOnly: true };
    expect((await shop.call('shop.tryBackup', records)).repaired).toHaveLength(repaired.length);
    const restored = await shop.call('shop.restore', records);
    expect(restored.repaired).toEqual(expect.arrayContaining(repaired));
    expect(await shop.call('records.list', {})).toHaveLength(1);
    expect((await shop.call('bills.get', { animalId: 1 })).paidMinor).toBe(100);
    expect(trailOf(shop.bookPath).map(({ before }) => before)).toEqual(
      expect.arrayContaining([
        '{"created_at":"yesterday"}',
        '{"details_removed_at":"gone"}',
        '{"paid_on":"2026-02-30"}',
      ]),
    );
    expect(shop.broken).toEqual([]);
  });

  it('a row gets the moment of the previous row', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    for (const typed of ['60', '20']) {
      shop.wait(60);
      await shop.call('table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed, confirmed: true });
    }
    const { path } = await shop.call('shop.backUp', {});
    const ats = (from: string): string[] => {
      const db = new Database(from, { readonly: true });
      const found = db.prepare<[], string>('SELECT at FROM weighing ORDER BY id').pluck().all();
      db.close();
      return found;
    };
    const before = ats(path);
    spoil(path, "UPDATE weighing SET at = 'noon' WHERE id <> 2");
    await shop.call('shop.restore', { path, recordsOnly: true });
    expect(ats(shop.bookPath)).toEqual([before[1], before[1], before[1]]);
    expect(trailOf(shop.bookPath).map(({ record_id }) => record_id)).toEqual(['weighing 1', 'weighing 3']);
  });

  it('a book with a modified schema too gives its records to a clean one', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { killDate: '2026-10-08' });
    shop.desk.close();
    spoil(shop.bookPath, "UPDATE animal SET created_at = 'yesterday'; CREATE VIEW spy AS SELECT 1");
    rmSync(join(backupFolder(shop.bookPath), 'last closed.sha256'), { force: true });
    const again = await deskOn(shop.bookPath);
    expect((await again.problem('records.list', {})).code).toBe('book.altered');
    expect((await again.call('shop.keepRecords', {})).repaired).toEqual([
      { table: 'animal', column: 'created_at', rows: 1 },
    ]);
    expect(await again.call('records.list', {})).toHaveLength(1);
    expect(again.broken).toEqual([]);
  });
});

describe('a book exported as text', () => {
  it('with an invalid moment is not imported', async () => {
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

describe('columns with moments and dates', () => {
  it('are all recognised by name, and contain nothing else in the demo', async () => {
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
    expect(invalidTime(db)).toBeNull();
    expect(
      tablesOf(db).flatMap(({ columns }) => columns.filter((one) => timeIn(one) !== null)).length,
    ).toBeGreaterThan(50);
    db.close();
  }, 120_000);
});
