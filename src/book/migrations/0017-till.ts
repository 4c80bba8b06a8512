/** A day's till: the opening float, the closing with what it covers, and the reference of a payment (a check number). */
const WRITTEN_ONCE = ['till_float', 'till_close', 'till_close_entry', 'till_close_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const till = `
ALTER TABLE payment ADD COLUMN reference TEXT NOT NULL DEFAULT '';
CREATE INDEX payment_by_day ON payment (paid_on);
CREATE INDEX payment_void_by_moment ON payment_void (at);
CREATE INDEX bill_by_day ON bill (billed_on);
CREATE INDEX bill_void_by_moment ON bill_void (at);

-- Cash in the drawer when the day began; the newest row of a day and currency counts.
CREATE TABLE till_float (
  id INTEGER PRIMARY KEY,
  day TEXT NOT NULL CHECK (day IS date(day)),
  currency TEXT NOT NULL,
  typed TEXT NOT NULL,
  amount_minor INTEGER NOT NULL CHECK (amount_minor >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX till_float_by_day ON till_float (currency, day);

CREATE TABLE till_close (
  id INTEGER PRIMARY KEY,
  number INTEGER NOT NULL UNIQUE,
  day TEXT NOT NULL CHECK (day IS date(day)),
  currency TEXT NOT NULL,
  float_minor INTEGER NOT NULL CHECK (float_minor >= 0),
  -- Cash payments less cash refunds of the entries that it covers.
  cash_minor INTEGER NOT NULL,
  expected_minor INTEGER NOT NULL,
  -- The total as typed, or one count for each denomination, as JSON.
  typed TEXT NOT NULL CHECK (json_valid(typed)),
  counted_minor INTEGER NOT NULL CHECK (counted_minor >= 0),
  over_minor INTEGER NOT NULL,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK (expected_minor = float_minor + cash_minor),
  CHECK (over_minor = counted_minor - expected_minor),
  CHECK (over_minor = 0 OR length(note) > 0)
) STRICT;
CREATE INDEX till_close_by_day ON till_close (day, currency);

-- What a closing covers: payments, and voids of payments. Frozen with it.
CREATE TABLE till_close_entry (
  till_close_id INTEGER NOT NULL REFERENCES till_close (id),
  payment_id INTEGER NOT NULL REFERENCES payment (id),
  what TEXT NOT NULL CHECK (what IN ('payment', 'void')),
  PRIMARY KEY (till_close_id, payment_id, what)
) STRICT, WITHOUT ROWID;
CREATE INDEX till_close_entry_by_payment ON till_close_entry (payment_id, what);

CREATE TABLE till_close_void (
  till_close_id INTEGER PRIMARY KEY REFERENCES till_close (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

${writtenOnce}

-- Closings that count: not voided.
CREATE VIEW till_close_now AS
  SELECT c.* FROM till_close c WHERE NOT EXISTS (SELECT 1 FROM till_close_void v WHERE v.till_close_id = c.id);
`;
