/** Finding hunters off the look-up tables, held against reading every name and number; and the tables against their views. */
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import { nameKey, phoneKey } from '../../../src/book/records/hunters.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const SHOWN = 12;
const CROWD = 2600;

const syllable = fc.constantFrom(
  'an',
  'da',
  'na',
  'jo',
  'whit',
  'z',
  'Ø',
  "o'",
  '"',
  '\\',
  'x-ray',
  '🦌',
  '%',
  '_',
);
const word = fc.array(syllable, { minLength: 1, maxLength: 3 }).map((parts) => parts.join(''));
const name = fc.array(word, { minLength: 1, maxLength: 3 }).map((words) => words.join(' '));
const phone = fc.oneof(
  fc.constant(''),
  fc.stringMatching(/^[35]{2,8}$/),
  fc.stringMatching(/^\(307\) 555-01[0-9]{2}$/),
);
const person = fc.record({ name, phone });
type Person = { name: string; phone: string };

const fields = ({ name: called, phone: number }: Person) => ({
  name: called,
  phone: number,
  email: '',
  address: '',
  licence: '',
  refusesPooling: false,
});

/** All that is in the book, looked through name by name. */
function slowly(book: Book) {
  const all = book.db
    .prepare<[], { id: number; name_key: string; phone_key: string }>(
      'SELECT id, name_key, phone_key FROM hunter ORDER BY name_key, id',
    )
    .all();
  return {
    named(key: string): number[] {
      const found = all.filter((one) => one.name_key.includes(key));
      const starts = (one: { name_key: string }) => ` ${one.name_key}`.includes(` ${key}`);
      return [...found.filter(starts), ...found.filter((one) => !starts(one))].map(({ id }) => id);
    },
    phoned: (digits: string) => all.filter((one) => one.phone_key.includes(digits)).map(({ id }) => id),
  };
}

function holdsWhatItsViewSays(book: Book): void {
  for (const table of ['hunter_word_lookup', 'word_lookup', 'hunter_digits_lookup']) {
    const rows = (of: string) => new Set(book.db.prepare(`SELECT * FROM ${of}`).raw().all().map(String));
    expect(rows(table)).toEqual(rows(`${table}_now`));
  }
}

describe('a crowd of hunters', () => {
  let book: Book;
  beforeAll(() => {
    book = openRecordBook(tempBookPath(), NOW, true);
    const people = fc.sample(person, { numRuns: CROWD, seed: 7 });
    book.change(() => people.forEach((one) => book.hunters.add(fields(one), '')));
  });
  afterAll(() => book.close());

  it('is searched as if every name were read, common parts and rare ones', () => {
    const slow = slowly(book);
    const typed = fc.oneof(
      name,
      word,
      fc.string({ maxLength: 3 }),
      fc.constantFrom('a', 'n', 'an', 'na', 'z', 'da na', 'a w'),
    );
    fc.assert(
      fc.property(typed, (text) => {
        const key = nameKey(text);
        fc.pre(key !== '' && !/^\P{L}*\d\P{L}*\d\P{L}*\d/u.test(text));
        expect(book.hunters.find(text).map(({ id }) => id)).toEqual(slow.named(key).slice(0, SHOWN));
      }),
      { numRuns: 400 },
    );
  });

  it('is searched by any three digits or more of a telephone number', () => {
    const slow = slowly(book);
    fc.assert(
      fc.property(fc.stringMatching(/^[0357]{3,6}$/), (digits) => {
        const all = slow.phoned(digits);
        const found = book.hunters.find(digits).map(({ id }) => id);
        expect(found).toHaveLength(Math.min(all.length, SHOWN));
        expect(new Set(found).size).toBe(found.length);
        expect(all).toEqual(expect.arrayContaining(found));
      }),
      { numRuns: 200 },
    );
  });
});

it('the look-ups follow every change of a hunter', () => {
  fc.assert(
    fc.property(
      fc.array(person, { minLength: 1, maxLength: 5 }),
      fc.array(fc.tuple(fc.nat(4), fc.option(person)), { maxLength: 6 }),
      (people, changes) => {
        const book = openRecordBook(tempBookPath(), NOW, true);
        const ids = people.map((one) => book.hunters.add(fields(one), ''));
        for (const [which, to] of changes) {
          const id = ids[which % ids.length] ?? 0;
          if (to) book.hunters.change(id, fields(to));
          else book.db.prepare('DELETE FROM hunter WHERE id = ?').run(id);
        }
        holdsWhatItsViewSays(book);
        book.close();
      },
    ),
    { numRuns: 40 },
  );
});

it('forgets the words of a hunter whose details were taken out, unless somebody shares them', () => {
  const book = openRecordBook(tempBookPath(), NOW, true);
  const id = book.hunters.add(fields({ name: 'Dana Whitlock', phone: '307 555 0142' }), '');
  book.hunters.add(fields({ name: 'Dana Reed', phone: '' }), '');
  book.change(() => book.removedDetails.remove(id, NOW.toISOString(), []));
  expect(book.db.prepare('SELECT word FROM word_lookup ORDER BY 1').pluck().all()).toEqual([
    '1',
    'dana',
    'reed',
    'removed',
  ]);
  expect(book.db.prepare('SELECT count(*) FROM hunter_digits_lookup').pluck().get()).toBe(0);
  expect(phoneKey('307 555 0142')).toBe('3075550142');
  expect(book.hunters.find('0142')).toEqual([]);
  book.close();
});
