/** The two books that every season view is checked on: the demo, and seasons that no shop ever had. */
import { openRecordBook } from '../../../src/book/book.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { writeRandomSeasons } from './random-season.ts';

/** As many as the years that days of the trade can lie in. */
export const SEASONS_MADE_UP = 149;

/** Path and years of a book by its name. */
export async function bookOf(
  name: 'the demo' | 'random seasons',
  seed: number,
): Promise<{ path: string; years: number[] }> {
  const path = tempBookPath();
  if (name === 'random seasons') {
    const years = writeRandomSeasons(path, SEASONS_MADE_UP, seed);
    addQuotesAndOwnFat(path, seed);
    return { path, years };
  }
  await demoAt(path);
  return { path, years: [2024, 2025, 2026] };
}

/** Half of the animals came of a quote, and of some the saved fat was ground into their first batch. */
function addQuotesAndOwnFat(path: string, seed: number): void {
  const book = openRecordBook(path, DEMO_NOW, true);
  const { uniform } = seededRandom(seed + 1);
  const { db } = book;
  const quote = db.prepare(
    `INSERT INTO quote (season, number, name, hunter_name, species, asked, answered, made_on, valid_until, at, by)
     VALUES (@season, @id, 'Q' || @id, 'Sam', @species, '{}', @answered, '2001-01-01', '2001-01-01', '', '')`,
  );
  const taken = db.prepare(
    "INSERT INTO quote_taken (quote_id, animal_id, at, by) VALUES ((SELECT max(id) FROM quote), @id, '', '')",
  );
  const lot = db.prepare(
    `INSERT INTO fat_lot (code, source, name, animal_id, fat, fat_sd, supplier_lot, received_on, at, by)
     VALUES ('O-' || @id, 'own-fat', 'Own fat', @id, 0.75, 0.05, '', '2001-01-01', '', '')`,
  );
  const ground = db.prepare(
    `INSERT INTO weighing (animal_id, batch_id, fat_lot_id, stage, part, typed, digits, decimals, unit, grams, source, at, by)
     VALUES (@id, @batch, (SELECT id FROM fat_lot WHERE animal_id = @id), 'grinder', 'fat saved', '1', 1, 0, 'g', @grams, 'typed', '2001-01-01T00:00:00.000Z', '')`,
  );
  const animals = db
    .prepare<[], { id: number; season: number; species: string; batch: number | null }>(
      `SELECT a.id, a.season, a.species, (SELECT min(m.batch_id) FROM batch_animal m WHERE m.animal_id = a.id) AS batch FROM animal a ORDER BY a.id`,
    )
    .all();
  book.change(() => {
    for (const { id, season, species, batch } of animals) {
      if (uniform() < 0.5) {
        const mean = 10_000 + 120_000 * uniform();
        const answered = {
          takeHomeGrams: { low: mean * 0.7, mean, high: mean * 1.4 },
          hangingGrams: { low: mean, mean: mean * 1.8, high: mean * 2 },
        };
        quote.run({ id, season, species, answered: JSON.stringify(answered) });
        taken.run({ id });
      }
      if (batch !== null && uniform() < 0.3) {
        lot.run({ id });
        ground.run({ id, batch, grams: 200 + 3000 * uniform() });
      }
    }
  });
  book.close();
}
