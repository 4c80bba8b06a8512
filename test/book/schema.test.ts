import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { APPEND_ONLY } from '../../src/book/migrations/0001-the-book-views.ts';
import { openBook } from '../../src/book/file/open.ts';
import { openRecordBook } from '../../src/book/book.ts';
import { tempBookPath } from './temp-book.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const SNAPSHOT = join(import.meta.dirname, 'schema.sql');

describe('the schema', () => {
  it('is the committed one; a change needs a migration and a new snapshot (UPDATE_SCHEMA=1)', () => {
    const db = openBook(tempBookPath(), NOW);
    const sql = db
      .prepare<[], string>('SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name')
      .pluck()
      .all();
    const schema = `${sql.join(';\n\n')};\n`;
    db.close();
    if (process.env.UPDATE_SCHEMA === '1') writeFileSync(SNAPSHOT, schema);
    expect(schema).toBe(readFileSync(SNAPSHOT, 'utf8'));
  });

  it('has only strict tables', () => {
    const db = openBook(tempBookPath(), NOW);
    const loose = db
      .prepare(
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' AND strict = 0",
      )
      .pluck()
      .all();
    db.close();
    expect(loose).toEqual([]);
  });

  it.each(APPEND_ONLY)('%s may not be changed or deleted', (table) => {
    const db = openBook(tempBookPath(), NOW);
    const [column] = db.prepare<[], string>(`SELECT name FROM pragma_table_info('${table}')`).pluck().all();
    const triggers = db
      .prepare<[string], string>("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = ?")
      .pluck()
      .all(table);
    db.close();
    expect(column).toBeDefined();
    expect(triggers.filter((sql) => /BEFORE UPDATE/.test(sql))).toHaveLength(1);
    expect(triggers.filter((sql) => /BEFORE DELETE/.test(sql))).toHaveLength(1);
  });

  it('stops a weighing from being rewritten or removed', () => {
    const book = openRecordBook(tempBookPath(), NOW);
    const hunter = book.hunters.add(
      { name: 'A', phone: '', email: '', address: '', licence: '', refusesPooling: false },
      '',
    );
    const { id } = book.animals.add(
      {
        season: 2026, hunter_id: hunter, deliverer_name: '', deliverer_address: '', species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', legs: 'unknown',
        origin: 'hunter', licence: '', tag: '', kill_date: null, kill_area: '', received_on: '2026-10-01', promised_on: null, condition: '',
        damage: '', detail: 'quick', created_at: '',
      },
      [],
    ); // prettier-ignore
    const weighing = book.weighings.add({
      animalId: id, batchId: null, fatLotId: null, stage: 'hanging', part: 'carcass', primal: null, product: null, count: null, place: null,
      reading: { typed: '340', digits: 340, decimals: 0, unit: 'lb' }, tare: null, grams: 154221.4, source: 'typed', note: '', corrects: null, at: '', by: '',
    }); // prettier-ignore
    expect(() => book.db.prepare('UPDATE weighing SET grams = 1 WHERE id = ?').run(weighing)).toThrow(
      'weighing is written once',
    );
    expect(() => book.db.prepare('DELETE FROM weighing WHERE id = ?').run(weighing)).toThrow(
      'weighing is written once',
    );
    expect(() =>
      book.db.prepare('INSERT OR REPLACE INTO weighing SELECT * FROM weighing WHERE id = ?').run(weighing),
    ).toThrow();
    expect(book.weighings.get(weighing)?.grams).toBe(154221.4);
    book.close();
  });

  it('gives the next ticket of its season and never one that was given before', () => {
    const book = openRecordBook(tempBookPath(), NOW);
    const hunter = book.hunters.add(
      { name: 'A', phone: '', email: '', address: '', licence: '', refusesPooling: false },
      '',
    );
    const take = (season: number) =>
      book.animals.add(
        {
          season, hunter_id: hunter, deliverer_name: '', deliverer_address: '', species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', legs: 'unknown',
          origin: 'hunter', licence: '', tag: '', kill_date: null, kill_area: '', received_on: '2026-10-01', promised_on: null, condition: '',
          damage: '', detail: 'quick', created_at: '',
        },
        [],
      ).ticket; // prettier-ignore
    expect([take(2026), take(2026), take(2027), take(2026)]).toEqual([
      '26-0001',
      '26-0002',
      '27-0001',
      '26-0003',
    ]);
    book.close();
  });

  it('refuses dates that do not exist', () => {
    const db = openBook(tempBookPath(), NOW);
    const insert = (date: string) =>
      db
        .prepare(
          "INSERT INTO price_book (name, valid_from, currency, tax_rule, example, at, by) VALUES ('x', ?, 'USD', 'per line', 0, '', '')",
        )
        .run(date);
    expect(() => insert('2026-02-30')).toThrow();
    expect(() => insert('yesterday')).toThrow();
    expect(insert('2024-02-29').changes).toBe(1);
    db.close();
  });
});
