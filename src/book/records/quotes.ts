import type { Db } from '../file/db.ts';
import { firstFree, MAX_IN_SEASON, seasonMark } from './season-mark.ts';

export interface QuoteRecord {
  id: number;
  name: string;
  hunter_id: number | null;
  hunter_name: string;
  species: string;
  /** NULL if there were no prices. */
  price_book_id: number | null;
  asked: string;
  answered: string;
  made_on: string;
  valid_until: string;
  at: string;
  by: string;
}

/** Saved quotes, frozen with their answers. */
export function quoteRecords(db: Db) {
  const nextNumber = db
    .prepare<[number], number>(
      `SELECT coalesce(max(number), 0) + 1 FROM quote WHERE season = ? AND number < ${MAX_IN_SEASON}`,
    )
    .pluck();
  const named = db.prepare<[string], number>('SELECT id FROM quote WHERE name = ?').pluck();
  const insert = db.prepare(
    `INSERT INTO quote (season, number, name, hunter_id, hunter_name, species, price_book_id, asked, answered, made_on, valid_until, at, by)
     VALUES (@season, @number, @name, @hunterId, @hunterName, @species, @priceBookId, @asked, @answered, @madeOn, @validUntil, @at, @by)`,
  );
  const recent = db.prepare<[number], QuoteRecord>('SELECT * FROM quote ORDER BY id DESC LIMIT ?');
  const get = db.prepare<[number], QuoteRecord>('SELECT * FROM quote WHERE id = ?');
  const taken = db
    .prepare<[number], number>('SELECT animal_id FROM quote_taken_now WHERE quote_id = ?')
    .pluck();
  const ofAnimal = db.prepare<[number], QuoteRecord>(
    'SELECT q.* FROM quote q JOIN quote_taken t ON t.quote_id = q.id WHERE t.animal_id = ?',
  );
  const take = db.prepare('INSERT INTO quote_taken (quote_id, animal_id, at, by) VALUES (?, ?, ?, ?)');
  return {
    add(quote: {
      season: number;
      hunterId: number | null;
      hunterName: string;
      species: string;
      priceBookId: number | null;
      asked: unknown;
      answered: unknown;
      madeOn: string;
      validUntil: string;
      at: string;
      by: string;
    }): { id: number; name: string } {
      const nameOf = (n: number): string => `Q${seasonMark(quote.season)}-${String(n).padStart(4, '0')}`;
      const number = firstFree(nextNumber.get(quote.season) ?? 1, (n) => named.get(nameOf(n)) !== undefined);
      const name = nameOf(number);
      const bound = {
        ...quote,
        number,
        name,
        asked: JSON.stringify(quote.asked),
        answered: JSON.stringify(quote.answered),
      };
      return { id: Number(insert.run(bound).lastInsertRowid), name };
    },
    recent: (limit: number) => recent.all(limit),
    get: (id: number) => get.get(id),
    /** The animal that resulted from the quote, if any: not one whose intake was canceled. */
    takenAs: (id: number) => taken.get(id),
    /** The quote of an animal. */
    ofAnimal: (animalId: number) => ofAnimal.get(animalId),
    take: (quoteId: number, animalId: number, at: string, by: string): void =>
      void take.run(quoteId, animalId, at, by),
  };
}
