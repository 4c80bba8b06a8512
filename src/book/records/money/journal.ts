import type { Db } from '../../file/db.ts';
import type { PaymentRecord } from '../payments.ts';

/** A bill, a payment, or the void of one, in a period. */
export interface JournalDocument {
  what: 'bill' | PaymentRecord['kind'];
  id: number;
  number: number;
  hunter: string;
  ticket: string;
  currency: string;
  /** For a payment; 0 for a bill. */
  minor: number;
  method: string;
  reference: string;
  /** Reason of the void; null for the document itself. */
  reason: string | null;
  at: string;
}

export interface JournalLine {
  code: string;
  label: string;
  basis: string;
  amount_minor: number;
  tax_minor: number;
  /**
   * Rate of the price line or free line; null for a percentage or discount, which is taxed at the rates of its lines.
   */
  tax_rate: number | null;
}

/** A period: days for bills and payments, which have a date; times for voids, which have only a time. */
interface Span {
  fromDay: string;
  toDay: string;
  from: string;
  until: string;
}

export interface BalanceRecord {
  currency: string;
  minor: number;
}

const WHOSE = (table: string, hunter: string): string =>
  `JOIN animal a ON a.id = ${table}.animal_id JOIN hunter h ON h.id = ${hunter}`;
const BILL = `'bill' AS what, b.id, b.number, h.name AS hunter, a.ticket, b.currency, 0 AS minor,
  '' AS method, '' AS reference`;
const PAYMENT = `p.kind AS what, p.id, p.id AS number, h.name AS hunter, a.ticket, p.currency,
  iif(p.kind = 'refund', -p.amount_minor, p.amount_minor) AS minor, p.method, p.reference`;
const BILL_OF = WHOSE('b', 'a.hunter_id');
const PAYMENT_OF = WHOSE('p', 'coalesce(p.hunter_id, a.hunter_id)');

export type JournalRecords = ReturnType<typeof journalRecords>;

/** Bills, payments and voids in a period, document by document. */
export function journalRecords(db: Db) {
  const documents = db.prepare<Span, JournalDocument>(
    `SELECT ${BILL}, NULL AS reason, b.at FROM bill b ${BILL_OF} WHERE b.billed_on BETWEEN @fromDay AND @toDay
     UNION ALL
     SELECT ${PAYMENT}, NULL AS reason, p.at FROM payment p ${PAYMENT_OF} WHERE p.paid_on BETWEEN @fromDay AND @toDay
     UNION ALL
     SELECT ${BILL}, v.reason, v.at
     FROM bill_void v JOIN bill b ON b.id = v.bill_id ${BILL_OF} WHERE v.at >= @from AND v.at < @until
     UNION ALL
     SELECT ${PAYMENT}, v.reason, v.at
     FROM payment_void v JOIN payment p ON p.id = v.payment_id ${PAYMENT_OF} WHERE v.at >= @from AND v.at < @until`,
  );
  const lines = db.prepare<[number], JournalLine>(
    // The code of a free line is that of its adjustment: its id, or its index among those of a quote.
    `SELECT l.code, l.label, l.basis, l.amount_minor, l.tax_minor,
       CASE
         WHEN l.basis IN ('percent', 'discount') THEN NULL
         WHEN l.code LIKE 'adjustment-quoted-%' THEN (SELECT d.tax_rate FROM adjustment d
           WHERE d.animal_id = b.animal_id AND d.quote_id IS NOT NULL
           AND (SELECT count(*) FROM adjustment e WHERE e.animal_id = d.animal_id AND e.quote_id IS NOT NULL AND e.id <= d.id)
             = CAST(substr(l.code, length('adjustment-quoted-') + 1) AS INTEGER))
         WHEN l.basis = 'free' THEN (SELECT d.tax_rate FROM adjustment d
           WHERE d.id = CAST(substr(l.code, length('adjustment-') + 1) AS INTEGER) AND d.animal_id = b.animal_id)
         ELSE (SELECT r.tax_rate FROM price_line r WHERE r.price_book_id = b.price_book_id AND r.code = l.code LIMIT 1)
       END AS tax_rate
     FROM bill_line l JOIN bill b ON b.id = l.bill_id WHERE l.bill_id = ? ORDER BY l.position`,
  );
  const balance = db.prepare<{ day: string; until: string }, BalanceRecord>(
    `SELECT currency, CAST(total(minor) AS INTEGER) AS minor FROM (
       SELECT currency, total_minor AS minor FROM bill WHERE billed_on < @day
       UNION ALL SELECT b.currency, -b.total_minor FROM bill_void v JOIN bill b ON b.id = v.bill_id WHERE v.at < @until
       UNION ALL SELECT currency, iif(kind = 'refund', amount_minor, -amount_minor) FROM payment WHERE paid_on < @day
       UNION ALL SELECT p.currency, iif(p.kind = 'refund', -p.amount_minor, p.amount_minor)
         FROM payment_void v JOIN payment p ON p.id = v.payment_id WHERE v.at < @until
     ) GROUP BY currency ORDER BY currency`,
  );
  return {
    documents: (span: Span) => documents.all(span),
    lines: (billId: number) => lines.all(billId),
    /** Billed less paid before a day (and the time at which it starts), by currency. */
    balanceBefore: (day: string, until: string) => balance.all({ day, until }),
  };
}
