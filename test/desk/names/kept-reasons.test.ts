/** Reasons and sizes of a book from before they were codes: turned into codes where the program had offered them, and read as they did. */
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { addFeed, FEED_TABLE } from '../../../src/book/feed/feed-schema.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { APPLICATION_ID, MIGRATIONS } from '../../../src/book/migrations/index.ts';
import { inLanguage } from '../../../src/words/area.ts';
import { text as orders } from '../../../src/words/compiled/window/orders.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { namesIn } from '../../../src/desk/names/names.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { offeredReasons } from './offered-reasons.ts';

const BEFORE = 29;
const AT = '2026-10-10T15:00:00.000Z';

/** What versions of the program offered and no window offers any more, or what the desk wrote, as their sources say it. */
const FORMER = {
  'en-US': [
    'stated by mistake', 'No line for it', 'Undone', 'Undone at once', 'Weighed again, it is right', 'handed over', 'opened again',
    'disposed of with its animal', 'details removed', 'not a day', 'not a moment', 'Left again',
  ],
  'es-MX': ['No tiene renglón', 'Deshecho', 'Deshecho al momento', 'Se pesó de nuevo; es correcto', 'Se fue'],
  'fr-CA': [
    'Aucune ligne pour cela', 'Défait', 'Défait aussitôt', 'défait aussitôt', 'rétabli', 'Pesé de nouveau, c’est exact', 'Reparti',
  ],
} as const; // prettier-ignore
/** Offered since, so no old book holds its words. */
const SINCE = new Set(['hunter-left']);

/** A book of the version before, with nothing in it. */
function oldBook(path = ':memory:'): Database.Database {
  const db = new Database(path);
  for (const step of MIGRATIONS.slice(0, BEFORE)) db.exec(step);
  db.pragma(`application_id = ${APPLICATION_ID}`);
  db.pragma(`user_version = ${BEFORE}`);
  db.pragma('foreign_keys = OFF');
  return db;
}

const turn = (db: Database.Database): unknown => db.exec(MIGRATIONS[BEFORE] ?? '');

it.each(['en-US', 'es-MX', 'fr-CA'] as const)('read in %s as before', async (language) => {
  await loadLanguage(language);
  const offered = Object.entries(offeredReasons(language)).filter(([code]) => !SINCE.has(code));
  const words = [...offered.map(([, word]) => word), ...FORMER[language]];
  const sizes = Object.values(inLanguage(orders, language).wholeSizes);
  const db = oldBook();
  const audit = db.prepare(`INSERT INTO audit (record, record_id, act, reason, at, by) VALUES ('bill', '1', 'void', ?, '${AT}', 'MK')`); // prettier-ignore
  for (const word of words) audit.run(word);
  const body = JSON.stringify({ cutsShare: 0.4, primals: sizes.map((size) => ({ primal: 'ham', as: 'whole', size })), note: 'x' }); // prettier-ignore
  db.prepare(`INSERT INTO instruction VALUES (1, 1, ?, '${AT}', 'MK')`).run(body);
  turn(db);
  const { said } = namesIn(language);
  const kept = db.prepare<[], string>('SELECT reason FROM audit ORDER BY id').pluck().all();
  expect(kept.filter((one) => !/^reason:[a-z-]+$/.test(one))).toEqual([]);
  expect(kept.map((one) => said('reason.*', one))).toEqual(words);
  const after = db.prepare<[], string>('SELECT body FROM instruction').pluck().get() ?? '';
  const { primals } = JSON.parse(after) as { primals: { size: string }[] };
  expect(primals.map(({ size }) => size)).toEqual(['size:bone-in', 'size:boneless', 'size:tied']);
  expect(after.replaceAll(/size:[a-z-]+/g, (size) => said('size.*', size))).toBe(body);
  db.close();
});

it('stay as a person typed them where no version offered exactly that', () => {
  const typed = [
    'Wrong animal',
    'wrong animal, I think',
    'weighed  twice',
    'deshecho.',
    'sample',
    'reason',
    "o'clock",
    '',
  ];
  const db = oldBook();
  for (const [i, word] of typed.entries())
    db.prepare(`INSERT INTO draft_state VALUES (?, 1, 'open', NULL, ?, '${AT}', 'MK')`).run(i + 1, word);
  const bodies = [
    '{"orders":{}}',
    '{"primals":[]}',
    '{"primals":[{"as":"steaks","size":"1 in"}],"w": 1.50}',
    '{"primals":"bone in"}',
  ];
  for (const [i, body] of bodies.entries())
    db.prepare(`INSERT INTO instruction VALUES (?, 1, ?, '${AT}', 'MK')`).run(i + 1, body);
  turn(db);
  expect(db.prepare('SELECT reason FROM draft_state ORDER BY id').pluck().all()).toEqual(typed);
  expect(db.prepare('SELECT body FROM instruction ORDER BY id').pluck().all()).toEqual(bodies);
  db.close();
});

it('are turned wherever a book keeps them, written once again after that, and fed anew', () => {
  const path = tempBookPath();
  const db = oldBook(path);
  addFeed(db);
  db.exec(`
    INSERT INTO hunter (id, name, name_key, phone, phone_key, email, address, licence, created_at) VALUES (1, 'Ann', 'ann', '', '', '', '', '', '${AT}');
    INSERT INTO quote VALUES (1, 2026, 1, 'Q26-0001', 1, 'Ann', 'elk', NULL, '{"adjustments":[{"kind":"charge as","reason":"No line for it"},{"kind":"amount off","reason":"friend"}]}', '{}', '2026-10-10', '2026-11-10', '${AT}', 'MK');
    INSERT INTO instruction_template VALUES (1, 'Own', NULL, '{"primals":[{"primal":"ham","as":"whole","size":"con hueso"}]}', 1);
    INSERT INTO audit (record, record_id, act, reason, at, by) VALUES ('import', '1', 'void', 'undone', '${AT}', 'MK');
    DELETE FROM ${FEED_TABLE};`);
  db.close();
  const book = openRecordBook(path, new Date('2026-12-01T12:00:00Z'));
  const one = (sql: string): unknown => book.db.prepare(sql).pluck().get();
  expect(one('SELECT asked FROM quote')).toBe('{"adjustments":[{"kind":"charge as","reason":"reason:no-line"},{"kind":"amount off","reason":"friend"}]}'); // prettier-ignore
  expect(one('SELECT body FROM instruction_template')).toBe('{"primals":[{"primal":"ham","as":"whole","size":"size:bone-in"}]}'); // prettier-ignore
  expect(one('SELECT reason FROM audit')).toBe('reason:undone');
  expect(() => book.db.exec("UPDATE audit SET reason = 'x'")).toThrow('written once');
  expect(() => book.db.exec("UPDATE quote SET asked = '{}'")).toThrow('written once');
  expect(book.db.prepare(`SELECT DISTINCT tbl FROM ${FEED_TABLE} ORDER BY tbl`).pluck().all()).toEqual(['audit', 'hunter', 'instruction_template', 'quote']); // prettier-ignore
  book.close();
});
