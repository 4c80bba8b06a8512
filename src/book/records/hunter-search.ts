import type { Db } from '../file/db.ts';

/** Maximum number of results. */
const SHOWN = 12;
/** Up to this many hunters are scanned; among more, the first ones in name order are found quickly. */
const MANY = 2000;
/** With more distinct matching words than this, some belong to many hunters. */
const MANY_WORDS = 500;
/** Sorts after every letter. */
const LAST_LETTER = 'char(1114111)';

/** Ids of hunters whose name or phone number contains a text; fast for any number of hunters. */
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
  // Reads the index in name order; instr needs no escaping of the text.
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

  /** The words that contain the longest word of the text, as JSON; null if there are too many. */
  function wordsWith(key: string): string | null {
    const longest = key.split(' ').reduce((best, word) => (word.length > best.length ? word : best));
    const found = words.all(longest);
    return found.length < MANY_WORDS ? JSON.stringify(found) : null;
  }

  /** Hunters with a word that starts with the text: scanned if few, else read in name order. */
  function starting(key: string): number[] {
    const first = key.split(' ')[0] ?? key;
    return (startCount.get({ first, most: MANY }) ?? 0) < MANY
      ? startsOnly.all({ key, first })
      : startsInOrder.all({ key });
  }

  return {
    /** By folded name: hunters with a word that starts with it first, each group in name order, up to `SHOWN`. */
    named(key: string): number[] {
      const found = wordsWith(key);
      if (found !== null && (count.get({ words: found, key, most: MANY }) ?? 0) < MANY)
        return best.all({ words: found, key });
      const all = inOrder.all({ key });
      const first = all.filter((one) => one.starts === 1).map(({ id }) => id);
      // Among very many hunters, the scan may have missed leading ones.
      const leading = first.length < SHOWN ? starting(key) : first.slice(0, SHOWN);
      const rest = all.filter((one) => one.starts === 0).map(({ id }) => id);
      return [...leading, ...rest].slice(0, SHOWN);
    },
    /** By three or more digits of the number, up to `SHOWN`. */
    phoned: (digits: string) => phoned.all({ digits }),
    /** All hunters with a folded name, unordered; null if there are `most` or more. */
    allNamed(key: string, most: number): number[] | null {
      const found = wordsWith(key);
      const ids = found === null ? null : some.all({ words: found, key, most });
      return ids === null || ids.length === most ? null : [...new Set(ids)];
    },
  };
}
