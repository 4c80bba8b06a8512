import type { Db } from '../file/db.ts';

export interface BillRecord {
  id: number;
  number: number;
  animal_id: number;
  price_book_id: number;
  /** JSON. */
  amounts: string;
  quote_id: number | null;
  currency: string;
  subtotal_minor: number;
  tax_minor: number;
  total_minor: number;
  billed_on: string;
  by: string;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

interface BillLineRecord {
  code: string;
  label: string;
  basis: string;
  quantity: number;
  unit: string | null;
  unit_price_minor: number;
  amount_minor: number;
  tax_minor: number;
}

interface NewBill {
  animalId: number;
  priceBookId: number;
  quoteId: number | null;
  /** The amounts, frozen with the bill. */
  amounts: object;
  currency: string;
  subtotalMinor: number;
  taxMinor: number;
  totalMinor: number;
  billedOn: string;
  at: string;
  by: string;
}

/** Bills are append-only and numbered without gaps; a voided bill keeps its number. */
export function billRecords(db: Db) {
  const nextNumber = db.prepare<[], number>('SELECT coalesce(max(number), 0) + 1 FROM bill').pluck();
  const insert = db.prepare(
    `INSERT INTO bill (number, animal_id, price_book_id, quote_id, amounts, currency, subtotal_minor, tax_minor, total_minor, billed_on, at, by)
     VALUES (@number, @animalId, @priceBookId, @quoteId, @amounts, @currency, @subtotalMinor, @taxMinor, @totalMinor, @billedOn, @at, @by)`,
  );
  const insertLine = db.prepare(
    `INSERT INTO bill_line (bill_id, position, code, label, basis, quantity, unit, unit_price_minor, amount_minor, tax_minor)
     VALUES (@billId, @position, @code, @label, @basis, @quantity, @unit, @unit_price_minor, @amount_minor, @tax_minor)`,
  );
  const columns = 'b.*, v.reason AS void_reason, v.at AS void_at, v.by AS void_by';
  const from = 'FROM bill b LEFT JOIN bill_void v ON v.bill_id = b.id';
  const get = db.prepare<[number], BillRecord>(`SELECT ${columns} ${from} WHERE b.id = ?`);
  const ofAnimal = db.prepare<[number], BillRecord>(
    `SELECT ${columns} ${from} WHERE b.animal_id = ? ORDER BY b.number DESC`,
  );
  const standing = db.prepare<[number], BillRecord>(
    `SELECT ${columns} ${from} WHERE b.animal_id = ? AND v.bill_id IS NULL ORDER BY b.number DESC LIMIT 1`,
  );
  const lines = db.prepare<[number], BillLineRecord>(
    'SELECT * FROM bill_line WHERE bill_id = ? ORDER BY position',
  );
  const voidOne = db.prepare('INSERT INTO bill_void (bill_id, reason, at, by) VALUES (?, ?, ?, ?)');
  return {
    /** Assigns the next number; requires a transaction. */
    add(bill: NewBill, billLines: readonly BillLineRecord[]): { id: number; number: number } {
      const number = nextNumber.get() ?? 1;
      const bound = { ...bill, number, amounts: JSON.stringify(bill.amounts) };
      const id = Number(insert.run(bound).lastInsertRowid);
      billLines.forEach((line, position) => insertLine.run({ ...line, billId: id, position }));
      return { id, number };
    },
    get: (id: number) => get.get(id),
    /** Newest first, including voided ones. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** The bill that is not voided. */
    standing: (animalId: number) => standing.get(animalId),
    lines: (billId: number) => lines.all(billId),
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}
