/** Names of products and extras typed for one hunter only: free text that may contain the hunter's name. */
import type { Db } from '../file/db.ts';
import { REMOVED } from './personal-text.ts';

/** JSON keys of free text: always cleared. */
export const FREE_TEXT: readonly string[] = ['note', 'size'];

/** Batches without another hunter's animal: words of a shared batch belong to the others too. */
const ALONE = `(SELECT m.batch_id FROM batch_animal m JOIN animal a ON a.id = m.animal_id
  GROUP BY m.batch_id HAVING min(a.hunter_id = @id))`;
const MINE = `(animal_id IN (SELECT id FROM animal WHERE hunter_id = @id) OR batch_id IN ${ALONE})`;
const ORDERED = (body: string, from: string, where: string): string => `
  SELECT ${body} ->> '$.grindProduct' AS word ${from} WHERE ${where}
  UNION SELECT g.value ->> '$.product' ${from}, json_each(${body}, '$.alsoGround') g WHERE ${where}
  UNION SELECT g.value ->> '$.fat' ${from}, json_each(${body}, '$.alsoGround') g WHERE ${where}
  UNION SELECT ${body} ->> '$.fat' ${from} WHERE ${where}
  UNION SELECT e.value ${from}, json_each(${body}, '$.extras') e WHERE ${where}`;
const QUOTED = `q.hunter_id = @id OR q.id IN (SELECT quote_id FROM quote_taken WHERE animal_id IN (SELECT id FROM animal WHERE hunter_id = @id))
  OR q.hunter_id IS NULL`;

/** The words that only this hunter uses. */
export function wordsOfHunter(db: Db) {
  const mine = db
    .prepare<{ id: number }, string>(
      `SELECT word FROM (
        SELECT product AS word FROM weighing WHERE ${MINE}
        UNION SELECT product FROM batch WHERE id IN ${ALONE}
        UNION ${ORDERED('body', 'FROM instruction', 'animal_id IN (SELECT id FROM animal WHERE hunter_id = @id)')}
        UNION ${ORDERED("q.asked -> '$.instructions'", 'FROM quote q', `(${QUOTED})`)}
        UNION SELECT k.key FROM bill b, json_each(b.amounts, '$.products') k WHERE b.animal_id IN (SELECT id FROM animal WHERE hunter_id = @id)
        UNION SELECT e.value FROM bill b, json_each(b.amounts, '$.extras') e
          WHERE b.amounts -> '$.extras' LIKE '[%' AND b.animal_id IN (SELECT id FROM animal WHERE hunter_id = @id)
        UNION SELECT product FROM adjustment WHERE animal_id IN (SELECT id FROM animal WHERE hunter_id = @id)
      ) WHERE word IS NOT NULL AND word <> ''`,
    )
    .pluck();
  const others = db
    .prepare<{ id: number }, string>(
      `SELECT word FROM (
        SELECT product AS word FROM weighing WHERE NOT coalesce(${MINE}, 0)
        UNION SELECT product FROM batch WHERE id NOT IN ${ALONE}
        UNION SELECT name FROM product UNION SELECT code FROM price_line UNION SELECT product FROM price_line
        UNION SELECT n.value FROM price_line l, json_each(l.products) n
        UNION ${ORDERED('body', 'FROM instruction', 'animal_id NOT IN (SELECT id FROM animal WHERE hunter_id = @id)')}
      ) WHERE word IS NOT NULL`,
    )
    .pluck();

  return {
    /** The replacement of each of the hunter's own words. @param known names given by the program or the shop */
    replacements(id: number, known: readonly string[]): ReadonlyMap<string, string> {
      const kept = new Set([...known, ...others.all({ id })]);
      const own = mine.all({ id }).filter((word) => !kept.has(word));
      return new Map(own.map((word, i) => [word, own.length === 1 ? REMOVED : `${REMOVED} ${i + 1}`]));
    },
  };
}

/** JSON text with free text cleared and words replaced, in keys and values. */
export function withoutWords(json: string, words: ReadonlyMap<string, string>): string {
  const walked = (value: unknown): unknown => {
    if (typeof value === 'string') return words.get(value) ?? value;
    if (Array.isArray(value)) return value.map(walked);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [
        words.get(key) ?? key,
        FREE_TEXT.includes(key) && typeof inner === 'string' ? '' : walked(inner),
      ]),
    );
  };
  return JSON.stringify(walked(JSON.parse(json)));
}
