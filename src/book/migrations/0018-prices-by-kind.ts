/**
 * Price lines name products and kinds of product by their codes; before, one typed text named one product. Hours of work are
 * recorded where it is done. What one animal's bill leaves the price book for is a row with its reason: a free line, a
 * discount, another price, or the line that a product without a price is charged as.
 */
const WRITTEN_ONCE = ['work_time', 'work_time_void', 'adjustment', 'adjustment_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const pricesByKind = `
-- JSON lists of product codes and of kinds; NULL in lines from before, whose product is a typed text.
ALTER TABLE price_line ADD COLUMN products TEXT CHECK (json_valid(products));
ALTER TABLE price_line ADD COLUMN kinds TEXT CHECK (json_valid(kinds));

CREATE TABLE work_time (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- The line by the hour, as the price book has it.
  line_code TEXT NOT NULL CHECK (length(line_code) > 0),
  minutes INTEGER NOT NULL CHECK (minutes > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX work_time_by_animal ON work_time (animal_id);

CREATE TABLE work_time_void (
  work_time_id INTEGER PRIMARY KEY REFERENCES work_time (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE adjustment (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- The quote that it was promised in, if it was.
  quote_id INTEGER REFERENCES quote (id),
  kind TEXT NOT NULL CHECK (kind IN ('free line', 'amount off', 'percent off', 'other price', 'charge as')),
  -- Of a free line its words; else empty.
  label TEXT NOT NULL,
  -- The line whose price is another one, or that a product is charged as.
  line_code TEXT,
  product TEXT,
  -- Minor units: of a free line, off the bill, or the other price.
  amount_minor INTEGER CHECK (amount_minor >= 0),
  -- Fraction off the bill.
  rate REAL CHECK (rate > 0 AND rate <= 1),
  -- Of a free line.
  tax_rate REAL CHECK (tax_rate >= 0 AND tax_rate < 1),
  currency TEXT NOT NULL,
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK (CASE kind
    WHEN 'free line' THEN length(label) > 0 AND amount_minor IS NOT NULL AND tax_rate IS NOT NULL
    WHEN 'amount off' THEN amount_minor > 0
    WHEN 'percent off' THEN rate IS NOT NULL
    WHEN 'other price' THEN line_code IS NOT NULL AND amount_minor IS NOT NULL
    ELSE line_code IS NOT NULL AND product IS NOT NULL END IS 1)
) STRICT;
CREATE INDEX adjustment_by_animal ON adjustment (animal_id);

CREATE TABLE adjustment_void (
  adjustment_id INTEGER PRIMARY KEY REFERENCES adjustment (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

${writtenOnce}

-- Hours that count, and adjustments that count.
CREATE VIEW work_time_now AS
  SELECT t.* FROM work_time t WHERE NOT EXISTS (SELECT 1 FROM work_time_void v WHERE v.work_time_id = t.id);
CREATE VIEW adjustment_now AS
  SELECT a.* FROM adjustment a WHERE NOT EXISTS (SELECT 1 FROM adjustment_void v WHERE v.adjustment_id = a.id);
`;
