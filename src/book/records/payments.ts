import type { Db } from '../file/db.ts';

export interface PaymentRecord {
  id: number;
  animal_id: number;
  bill_id: number | null;
  kind: 'deposit' | 'payment' | 'refund';
  method: string;
  /** Reference such as a check number; may be empty. */
  reference: string;
  amount_minor: number;
  currency: string;
  paid_on: string;
  /** The hunter who paid; null if not given. */
  hunter_id: number | null;
  payer: string | null;
  at: string;
  by: string;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

interface NewPayment {
  animalId: number;
  billId: number | null;
  kind: PaymentRecord['kind'];
  method: string;
  reference: string;
  amountMinor: number;
  currency: string;
  paidOn: string;
  hunterId: number | null;
  at: string;
  by: string;
}

interface OpenAccount {
  ticket: string;
  currency: string;
}

/** Payments and refunds: append-only, voided by another row. */
export function paymentRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO payment (animal_id, bill_id, kind, method, reference, amount_minor, currency, paid_on, hunter_id, at, by)
     VALUES (@animalId, @billId, @kind, @method, @reference, @amountMinor, @currency, @paidOn, @hunterId, @at, @by)`,
  );
  const columns = 'p.*, h.name AS payer, v.reason AS void_reason, v.at AS void_at, v.by AS void_by';
  const from =
    'FROM payment p LEFT JOIN payment_void v ON v.payment_id = p.id LEFT JOIN hunter h ON h.id = p.hunter_id';
  const get = db.prepare<[number], PaymentRecord>(`SELECT ${columns} ${from} WHERE p.id = ?`);
  const ofAnimal = db.prepare<[number], PaymentRecord>(
    `SELECT ${columns} ${from} WHERE p.animal_id = ? ORDER BY p.id`,
  );
  const paid = db
    .prepare<[number], number>(
      // Exact up to 2^53; an integer sum could overflow with rows from before amounts were limited.
      `SELECT CAST(total(iif(p.kind = 'refund', -p.amount_minor, p.amount_minor)) AS INTEGER)
       FROM payment p WHERE p.animal_id = ? AND NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)`,
    )
    .pluck();
  const openAccounts = db.prepare<[string], OpenAccount>(
    `WITH owed AS (
       SELECT animal_id, currency, total_minor AS minor FROM bill b
         WHERE NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)
       UNION ALL
       SELECT animal_id, currency, iif(kind = 'refund', amount_minor, -amount_minor) FROM payment p
         WHERE NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)
     ), unsettled AS (
       SELECT animal_id, min(currency) AS currency FROM owed
         GROUP BY animal_id HAVING total(minor) <> 0 AND max(currency <> ?)
     )
     SELECT a.ticket, u.currency FROM unsettled u JOIN animal a ON a.id = u.animal_id ORDER BY u.animal_id DESC`,
  );
  const count = db.prepare<[number], number>('SELECT count(*) FROM payment WHERE animal_id = ?').pluck();
  const voidOne = db.prepare('INSERT INTO payment_void (payment_id, reason, at, by) VALUES (?, ?, ?, ?)');
  return {
    add: (payment: NewPayment): number => Number(insert.run(payment).lastInsertRowid),
    get: (id: number) => get.get(id),
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Including voided ones. */
    count: (animalId: number): number => count.get(animalId) ?? 0,
    /** Minor units paid for an animal less refunds; voided rows excluded. */
    paid: (animalId: number): number => paid.get(animalId) ?? 0,
    /** Animals with an open balance in another currency than this one, newest first. */
    openAccounts: (currency: string): OpenAccount[] => openAccounts.all(currency),
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}
