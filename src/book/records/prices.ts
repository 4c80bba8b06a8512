import type { Db } from '../file/db.ts';

interface PriceBookRecord {
  id: number;
  name: string;
  valid_from: string;
  currency: string;
  tax_rule: 'per line' | 'per bill';
  example: number;
}

export interface PriceLineRecord {
  code: string;
  label: string;
  basis: string;
  amount_minor: number | null;
  rate: number | null;
  unit: 'lb' | 'kg' | null;
  species: string | null;
  brought: string | null;
  /** A single typed name, in lines from before products and kinds. */
  product: string | null;
  /** JSON lists; NULL in older lines. */
  products: string | null;
  kinds: string | null;
  /** JSON list of ids; NULL in older lines. */
  recipes: string | null;
  /** In its unit. */
  least: number | null;
  fat_source: string | null;
  tax_rate: number;
}

/** Price books: dated and append-only; a change is a new book. */
export function priceRecords(db: Db) {
  const inForce = db.prepare<[string], PriceBookRecord>(
    'SELECT * FROM price_book WHERE valid_from <= ? ORDER BY valid_from DESC, id DESC LIMIT 1',
  );
  const lines = db.prepare<[number], PriceLineRecord>(
    'SELECT * FROM price_line WHERE price_book_id = ? ORDER BY position',
  );
  const addBook = db.prepare(
    `INSERT INTO price_book (name, valid_from, currency, tax_rule, example, at, by)
     VALUES (@name, @validFrom, @currency, @taxRule, @example, @at, @by)`,
  );
  const addLine = db.prepare(
    `INSERT INTO price_line (price_book_id, position, code, label, basis, amount_minor, rate, unit, species, brought, product, products, kinds, recipes, least, fat_source, tax_rate)
     VALUES (@bookId, @position, @code, @label, @basis, @amount_minor, @rate, @unit, @species, @brought, @product, @products, @kinds, @recipes, @least, @fat_source, @tax_rate)`,
  );
  const extraCodes = db
    .prepare<[], string>("SELECT DISTINCT code FROM price_line WHERE basis = 'extra'")
    .pluck();
  return {
    /** Codes of the extras of all price books. */
    extraCodes: (): string[] => extraCodes.all(),
    inForce: (on: string) => inForce.get(on),
    lines: (bookId: number) => lines.all(bookId),
    add(
      book: {
        name: string;
        validFrom: string;
        currency: string;
        taxRule: 'per line' | 'per bill';
        example: boolean;
        at: string;
        by: string;
      },
      priceLines: readonly PriceLineRecord[],
    ): number {
      const bookId = Number(addBook.run({ ...book, example: book.example ? 1 : 0 }).lastInsertRowid);
      priceLines.forEach((line, position) => addLine.run({ ...line, bookId, position }));
      return bookId;
    },
  };
}
