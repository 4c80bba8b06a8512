import type { Db } from '../file/db.ts';

/** As many hunters are shown at most. */
const SHOWN = 12;
/** Fewer than this are few and are gone through; of more, the first in the order of their names are met soon. */
const MANY = 2000;
/** Of so many different words that hold what was typed, some are names of many. */
const MANY_WORDS = 500;
/** After every letter. */
const LAST_LETTER = 'char(1114111)';

/** Ids of hunters whose name or telephone number holds a text; how many there are in the book hardly matters. */
export function hunterSearch(db: Db) {
  const starts = "instr(' ' || h.name_key, ' ' || @key) > 0";
  const words = db
    .prepare<[string], string>(`SELECT word FROM word_lookup WHERE instr(word, ?) > 0 LIMIT ${MANY_WORDS}`)
    .pluck();
  const ofWords = `FROM json_each(@words) w CROSS JOIN hunter_word_lookup h ON h.word = w.value
    WHERE instr(h.name_key, @key) > 0`;
  type Words = { words: string; key: string };
  const some = db
    .prepare<Words & { most: number }, number>(`SELECT h.hunter_id ${ofWords} LIMIT @most`)
    .pluck();
  const count = db
    .prepare<Words & { most: number }, number>(`SELECT count(*) FROM (SELECT 1 ${ofWords} LIMIT @most)`)
    .pluck();
  const best = db
    .prepare<Words, number>(
      `SELECT DISTINCT h.hunter_id ${ofWords} ORDER BY ${starts} DESC, h.name_key, h.hunter_id LIMIT ${SHOWN}`,
    )
    .pluck();
  // Read in the order of the names off the index alone; instr needs no escaping of what was typed.
  const inOrder = db.prepare<{ key: string }, { id: number; starts: 0 | 1 }>(
    `SELECT id, ${starts} AS starts FROM hunter h INDEXED BY hunter_by_name
     WHERE instr(name_key, @key) > 0 ORDER BY name_key LIMIT ${MANY / 4}`,
  );
  const withFirst = `hunter_word_lookup h WHERE h.word >= @first AND h.word < @first || ${LAST_LETTER}`;
  const startCount = db
    .prepare<{ first: string; most: number }, number>(
      `SELECT count(*) FROM (SELECT 1 FROM ${withFirst} LIMIT @most)`,
    )
    .pluck();
  const startsOnly = db
    .prepare<{ key: string; first: string }, number>(
      `SELECT DISTINCT h.hunter_id FROM ${withFirst} AND ${starts} ORDER BY h.name_key, h.hunter_id LIMIT ${SHOWN}`,
    )
    .pluck();
  const startsInOrder = db
    .prepare<{ key: string }, number>(
      `SELECT id FROM hunter h INDEXED BY hunter_by_name WHERE ${starts} ORDER BY name_key LIMIT ${SHOWN}`,
    )
    .pluck();
  const phoned = db
    .prepare<{ digits: string }, number>(
      `SELECT DISTINCT hunter_id FROM hunter_digits_lookup WHERE digits >= @digits AND digits < @digits || ':' LIMIT ${SHOWN}`,
    )
    .pluck();

  /** The words that hold the longest word of the text, as JSON; null when there are too many to be worth it. */
  function wordsWith(key: string): string | null {
    const longest = key.split(' ').reduce((best, word) => (word.length > best.length ? word : best));
    const found = words.all(longest);
    return found.length < MANY_WORDS ? JSON.stringify(found) : null;
  }

  /** Those of which a word starts with the text: gone through where they are few, met soon in the order of names where not. */
  function starting(key: string): number[] {
    const first = key.split(' ')[0] ?? key;
    return (startCount.get({ first, most: MANY }) ?? 0) < MANY
      ? startsOnly.all({ key, first })
      : startsInOrder.all({ key });
  }

  return {
    /** By a folded name: those of which a word starts with it come first, each in the order of the names; a dozen at most. */
    named(key: string): number[] {
      const found = wordsWith(key);
      if (found !== null && (count.get({ words: found, key, most: MANY }) ?? 0) < MANY)
        return best.all({ words: found, key });
      const all = inOrder.all({ key });
      const first = all.filter((one) => one.starts === 1).map(({ id }) => id);
      // Among very many, those that come first may not be met yet.
      const leading = first.length < SHOWN ? starting(key) : first.slice(0, SHOWN);
      const rest = all.filter((one) => one.starts === 0).map(({ id }) => id);
      return [...leading, ...rest].slice(0, SHOWN);
    },
    /** By three digits or more of the number; a dozen at most. */
    phoned: (digits: string) => phoned.all({ digits }),
    /** Everybody by a folded name, in any order; null when there are `most` or more. */
    allNamed(key: string, most: number): number[] | null {
      const found = wordsWith(key);
      const ids = found === null ? null : some.all({ words: found, key, most });
      return ids === null || ids.length === most ? null : [...new Set(ids)];
    },
  };
}
