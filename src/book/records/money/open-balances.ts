import type { Db } from '../../file/db.ts';
import type { PaymentRecord } from '../payments.ts';

export interface OpenBalanceRecord {
  animal_id: number;
  ticket: string;
  species: string;
  stage: string;
  hunter_id: number;
  hunter: string;
  phone: string;
  bill: number;
  billed_on: string;
  currency: string;
  total_minor: number;
  tax_minor: number;
  paid_minor: number;
}

export interface DocumentRecord {
  animal_id: number;
  /** Who paid; null for a bill, or if unknown. */
  payer_id: number | null;
  date: string;
  what: 'bill' | PaymentRecord['kind'];
  number: number;
  ticket: string;
  minor: number;
  currency: string;
}

/** Bills that are unpaid or overpaid, and the documents behind a balance. */
export function openBalances(db: Db) {
  const paid = `coalesce((SELECT CAST(total(iif(p.kind = 'refund', -p.amount_minor, p.amount_minor)) AS INTEGER) FROM payment p
    WHERE p.animal_id = b.animal_id AND NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)), 0)`;
  const list = db.prepare<[], OpenBalanceRecord>(
    `WITH standing AS (
       SELECT b.animal_id, b.number AS bill, b.billed_on, b.currency, b.total_minor, b.tax_minor, ${paid} AS paid_minor
       FROM bill b WHERE NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)
     )
     SELECT s.*, a.ticket, a.species, a.stage, a.hunter_id, h.name AS hunter, h.phone
     FROM standing s JOIN animal a ON a.id = s.animal_id JOIN hunter h ON h.id = a.hunter_id
     WHERE s.paid_minor <> s.total_minor ORDER BY s.billed_on, s.bill`,
  );
  const documents = db.prepare<{ animals: string }, DocumentRecord>(
    `SELECT b.billed_on AS date, 'bill' AS what, b.number, a.ticket, b.total_minor AS minor, b.currency, b.at, b.animal_id, NULL AS payer_id
     FROM bill b JOIN animal a ON a.id = b.animal_id
     WHERE b.animal_id IN (SELECT value FROM json_each(@animals))
       AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)
     UNION ALL
     SELECT p.paid_on, p.kind, p.id, a.ticket, iif(p.kind = 'refund', p.amount_minor, -p.amount_minor), p.currency, p.at, p.animal_id, p.hunter_id
     FROM payment p JOIN animal a ON a.id = p.animal_id
     WHERE p.animal_id IN (SELECT value FROM json_each(@animals))
       AND NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)
     ORDER BY 7`,
  );
  return {
    /** Animals whose bill and payments differ, oldest bill first. Reads every active bill. */
    list: () => list.all(),
    /** Valid bills and payments of some animals, oldest first; charges are positive. */
    documents: (animalIds: readonly number[]) => documents.all({ animals: JSON.stringify(animalIds) }),
  };
}
