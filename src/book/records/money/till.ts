import type { Db } from '../../file/db.ts';
import type { PaymentRecord } from '../payments.ts';

/** A payment, or the void of one, as an entry of the till. */
export interface TillEntryRecord {
  payment_id: number;
  what: 'payment' | 'void';
  ticket: string;
  hunter: string;
  kind: PaymentRecord['kind'];
  method: string;
  reference: string;
  amount_minor: number;
  currency: string;
  paid_on: string;
  /** Time of the void, if it is one. */
  at: string;
  by: string;
  reason: string;
}

export interface TillCloseRecord {
  id: number;
  number: number;
  day: string;
  currency: string;
  float_minor: number;
  cash_minor: number;
  expected_minor: number;
  typed: string;
  counted_minor: number;
  over_minor: number;
  note: string;
  at: string;
  by: string;
}

export interface VoidedCloseRecord extends TillCloseRecord {
  void_reason: string;
  void_at: string;
  void_by: string;
}

interface FloatRecord {
  day: string;
  typed: string;
  amount_minor: number;
  at: string;
  by: string;
}

type NewClose = Omit<TillCloseRecord, 'id' | 'number'>;

const OF_PAYMENT = `a.ticket, h.name AS hunter, p.kind, p.method, p.reference, p.amount_minor, p.currency, p.paid_on`;
const WHOSE =
  'JOIN animal a ON a.id = p.animal_id JOIN hunter h ON h.id = coalesce(p.hunter_id, a.hunter_id)';
const PAYMENTS = `SELECT p.id AS payment_id, 'payment' AS what, ${OF_PAYMENT}, p.at, p.by, '' AS reason FROM payment p ${WHOSE}`;
const VOIDS = `SELECT p.id AS payment_id, 'void' AS what, ${OF_PAYMENT}, v.at, v.by, v.reason
  FROM payment_void v JOIN payment p ON p.id = v.payment_id ${WHOSE}`;
const uncovered = (what: 'payment' | 'void'): string =>
  `NOT EXISTS (SELECT 1 FROM till_close_entry e JOIN till_close_now c ON c.id = e.till_close_id
    WHERE e.payment_id = p.id AND e.what = '${what}')`;

/** The till: payments and voids of a day, the float, and closings, which freeze their entries. */
export function tillRecords(db: Db) {
  const paidOn = db.prepare<[string, string, string], TillEntryRecord>(
    `${PAYMENTS} WHERE p.paid_on BETWEEN ? AND ? AND p.currency = ? AND ${uncovered('payment')} ORDER BY p.id`,
  );
  const voidedBetween = db.prepare<[string, string, string], TillEntryRecord>(
    `${VOIDS} WHERE v.at >= ? AND v.at < ? AND p.currency = ? AND ${uncovered('void')} ORDER BY v.at, p.id`,
  );
  const currencies = db
    .prepare<{ day: string; from: string; until: string }, string>(
      `SELECT currency FROM payment WHERE paid_on = @day UNION
       SELECT p.currency FROM payment_void v JOIN payment p ON p.id = v.payment_id WHERE v.at >= @from AND v.at < @until UNION
       SELECT currency FROM till_close_now WHERE day = @day ORDER BY 1`,
    )
    .pluck();
  const covered = db.prepare<{ id: number }, TillEntryRecord>(
    `${PAYMENTS} JOIN till_close_entry e ON e.payment_id = p.id AND e.what = 'payment' WHERE e.till_close_id = @id
     UNION ALL ${VOIDS} JOIN till_close_entry e ON e.payment_id = p.id AND e.what = 'void' WHERE e.till_close_id = @id
     ORDER BY at, payment_id`,
  );
  const closing = db.prepare<[string, string], TillCloseRecord>(
    'SELECT * FROM till_close_now WHERE day = ? AND currency = ?',
  );
  const get = db.prepare<[number], TillCloseRecord & { voided: 0 | 1 }>(
    `SELECT c.*, EXISTS (SELECT 1 FROM till_close_void v WHERE v.till_close_id = c.id) AS voided FROM till_close c WHERE c.id = ?`,
  );
  const voidedClosings = db.prepare<[string, string], VoidedCloseRecord>(
    `SELECT c.*, v.reason AS void_reason, v.at AS void_at, v.by AS void_by
     FROM till_close c JOIN till_close_void v ON v.till_close_id = c.id WHERE c.day = ? AND c.currency = ? ORDER BY c.number`,
  );
  const closedDays = db
    .prepare<[string, string, string], string>(
      'SELECT day FROM till_close_now WHERE currency = ? AND day >= ? AND day < ?',
    )
    .pluck();
  const recent = db.prepare<[string, number], TillCloseRecord>(
    'SELECT * FROM till_close_now WHERE currency = ? ORDER BY day DESC LIMIT ?',
  );
  const float = db.prepare<[string, string], FloatRecord>(
    'SELECT day, typed, amount_minor, at, by FROM till_float WHERE currency = ? AND day <= ? ORDER BY day DESC, id DESC LIMIT 1',
  );
  const addFloat = db.prepare(
    `INSERT INTO till_float (day, currency, typed, amount_minor, at, by)
     VALUES (@day, @currency, @typed, @amountMinor, @at, @by)`,
  );
  const nextNumber = db.prepare<[], number>('SELECT coalesce(max(number), 0) + 1 FROM till_close').pluck();
  const insert = db.prepare(
    `INSERT INTO till_close (number, day, currency, float_minor, cash_minor, expected_minor, typed, counted_minor, over_minor,
       note, at, by)
     VALUES (@number, @day, @currency, @float_minor, @cash_minor, @expected_minor, @typed, @counted_minor, @over_minor,
       @note, @at, @by)`,
  );
  const cover = db.prepare('INSERT INTO till_close_entry (till_close_id, payment_id, what) VALUES (?, ?, ?)');
  const voidOne = db.prepare(
    'INSERT INTO till_close_void (till_close_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  return {
    /** Payments of days `from` to `to` without a closing. */
    uncoveredPayments: (from: string, to: string, currency: string) => paidOn.all(from, to, currency),
    /** Voids from `from` until before `until` without a closing. */
    uncoveredVoids: (from: string, until: string, currency: string) =>
      voidedBetween.all(from, until, currency),
    /** Currencies of payments, voids and closings of a day; `from` and `until` are its bounds in time. */
    currencies: (day: string, from: string, until: string) => currencies.all({ day, from, until }),
    /** The entries of a closing, oldest first. */
    covered: (id: number) => covered.all({ id }),
    /** The valid closing of a day. */
    closing: (day: string, currency: string) => closing.get(day, currency),
    get: (id: number) => get.get(id),
    voidedClosings: (day: string, currency: string) => voidedClosings.all(day, currency),
    /** Days with a valid closing, from one day until before another. */
    closedDays: (currency: string, from: string, before: string) => closedDays.all(currency, from, before),
    /** Valid closings, newest day first. */
    recent: (currency: string, limit: number) => recent.all(currency, limit),
    /** The float of the day, or else of the latest day before it. */
    float: (currency: string, day: string) => float.get(currency, day),
    addFloat: (row: {
      day: string;
      currency: string;
      typed: string;
      amountMinor: number;
      at: string;
      by: string;
    }): void => void addFloat.run(row),
    /** Assigns the next number; requires a transaction. */
    close(close: NewClose, entries: readonly TillEntryRecord[]): { id: number; number: number } {
      const number = nextNumber.get() ?? 1;
      const id = Number(insert.run({ ...close, number }).lastInsertRowid);
      for (const { payment_id, what } of entries) cover.run(id, payment_id, what);
      return { id, number };
    },
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}
