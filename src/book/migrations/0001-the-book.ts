/** The first book: every kind of record a shop keeps. */
export const theBook = `
CREATE TABLE setting (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT, WITHOUT ROWID;

CREATE TABLE staff (
  initials TEXT PRIMARY KEY CHECK (length(initials) BETWEEN 1 AND 6),
  name TEXT NOT NULL,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT, WITHOUT ROWID;

-- A species of the shop's own, or changes to a supplied one; profile is JSON in the shape of resources/species.json.
CREATE TABLE species_profile (
  code TEXT PRIMARY KEY,
  profile TEXT NOT NULL CHECK (json_valid(profile)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT, WITHOUT ROWID;

CREATE TABLE hunter (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) > 0),
  name_key TEXT NOT NULL,
  phone TEXT NOT NULL,
  phone_key TEXT NOT NULL,
  email TEXT NOT NULL,
  address TEXT NOT NULL,
  licence TEXT NOT NULL,
  note TEXT NOT NULL DEFAULT '',
  refuses_pooling INTEGER NOT NULL DEFAULT 0 CHECK (refuses_pooling IN (0, 1)),
  created_at TEXT NOT NULL,
  details_removed_at TEXT
) STRICT;

CREATE TABLE animal (
  id INTEGER PRIMARY KEY,
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  ticket TEXT NOT NULL UNIQUE,
  hunter_id INTEGER NOT NULL REFERENCES hunter (id),
  deliverer_name TEXT NOT NULL DEFAULT '',
  deliverer_address TEXT NOT NULL DEFAULT '',
  species TEXT NOT NULL,
  sex TEXT NOT NULL CHECK (sex IN ('male', 'female', 'unknown')),
  age TEXT NOT NULL CHECK (age IN ('young', 'yearling', 'adult', 'unknown')),
  brought TEXT NOT NULL CHECK (brought IN ('whole', 'skinned', 'quarters', 'primals', 'boned')),
  origin TEXT NOT NULL CHECK (origin IN ('hunter', 'farm')),
  licence TEXT NOT NULL,
  tag TEXT NOT NULL,
  kill_date TEXT CHECK (kill_date IS date(kill_date)),
  kill_area TEXT NOT NULL,
  received_on TEXT NOT NULL CHECK (received_on IS date(received_on)),
  promised_on TEXT CHECK (promised_on IS date(promised_on)),
  condition TEXT NOT NULL,
  damage TEXT NOT NULL,
  detail TEXT NOT NULL CHECK (detail IN ('detailed', 'quick')),
  stage TEXT NOT NULL CHECK (stage IN ('hanging', 'cutting', 'packing', 'ready', 'released', 'disposed')),
  ready_on TEXT CHECK (ready_on IS date(ready_on)),
  created_at TEXT NOT NULL,
  UNIQUE (season, number)
) STRICT;

-- What was brought of a partial carcass.
CREATE TABLE animal_part (
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  primal TEXT NOT NULL,
  count INTEGER NOT NULL CHECK (count > 0),
  PRIMARY KEY (animal_id, primal)
) STRICT, WITHOUT ROWID;

CREATE TABLE hold (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  reason TEXT NOT NULL,
  sample TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE hold_end (
  hold_id INTEGER PRIMARY KEY REFERENCES hold (id),
  outcome TEXT NOT NULL CHECK (outcome IN ('cleared', 'positive', 'withdrawn')),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- The newest row of an animal is the one that counts; body is JSON in the desk's instructions shape.
CREATE TABLE instruction (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE product (
  code TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('whole cuts', 'grind', 'sausage', 'jerky', 'other')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT, WITHOUT ROWID;

-- Cutting instructions to start from; body is JSON in the desk's instructions shape.
CREATE TABLE instruction_template (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(name) > 0),
  -- The carcass drawing whose primals it names, or NULL when it fits any animal.
  carcass TEXT,
  body TEXT NOT NULL CHECK (json_valid(body)),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE cooler (
  id INTEGER PRIMARY KEY,
  -- Two in use never share a name; one put away keeps its own for what hung in it.
  name TEXT NOT NULL,
  places INTEGER NOT NULL CHECK (places > 0),
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT;

CREATE TABLE cooler_stay (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  cooler_id INTEGER NOT NULL REFERENCES cooler (id),
  place TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE cooler_temperature (
  id INTEGER PRIMARY KEY,
  cooler_id INTEGER NOT NULL REFERENCES cooler (id),
  typed TEXT NOT NULL,
  tenths_c INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE cooler_temperature_void (
  temperature_id INTEGER PRIMARY KEY REFERENCES cooler_temperature (id),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE fat_lot (
  id INTEGER PRIMARY KEY,
  code TEXT NOT NULL UNIQUE,
  source TEXT NOT NULL,
  name TEXT NOT NULL,
  animal_id INTEGER UNIQUE REFERENCES animal (id),
  fat REAL NOT NULL CHECK (fat >= 0 AND fat <= 1),
  fat_sd REAL NOT NULL CHECK (fat_sd >= 0),
  cost_minor INTEGER CHECK (cost_minor >= 0),
  cost_unit TEXT CHECK (cost_unit IN ('lb', 'kg')),
  supplier TEXT NOT NULL DEFAULT '',
  supplier_lot TEXT NOT NULL,
  use_by TEXT CHECK (use_by IS date(use_by)),
  received_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK ((cost_minor IS NULL) = (cost_unit IS NULL))
) STRICT;

CREATE TABLE batch (
  id INTEGER PRIMARY KEY,
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  name TEXT NOT NULL UNIQUE,
  product TEXT NOT NULL,
  target_fat REAL CHECK (target_fat > 0 AND target_fat < 1),
  plan TEXT NOT NULL CHECK (json_valid(plan)),
  state TEXT NOT NULL CHECK (state IN ('open', 'done')),
  started_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (season, number)
) STRICT;

CREATE TABLE batch_animal (
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  PRIMARY KEY (batch_id, animal_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE grind_pass (
  id INTEGER PRIMARY KEY,
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  pass INTEGER NOT NULL CHECK (pass > 0),
  plate TEXT NOT NULL,
  temp_typed TEXT,
  temp_tenths_c INTEGER,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE fat_test (
  id INTEGER PRIMARY KEY,
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  fat REAL NOT NULL CHECK (fat >= 0 AND fat <= 1),
  sd REAL NOT NULL CHECK (sd > 0),
  method TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- One weight, exactly as typed: digits / 10^decimals in its unit. Grams are net of tare and derived when written.
CREATE TABLE weighing (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER REFERENCES animal (id),
  batch_id INTEGER REFERENCES batch (id),
  fat_lot_id INTEGER REFERENCES fat_lot (id),
  stage TEXT NOT NULL CHECK (stage IN ('live', 'dressed', 'received', 'hanging', 'primal', 'cut', 'grinder', 'packed')),
  part TEXT NOT NULL CHECK (part IN ('carcass', 'primal', 'whole cuts', 'trim', 'fat saved', 'sinew', 'bone', 'damage', 'fat added', 'package')),
  primal TEXT,
  product TEXT,
  count INTEGER CHECK (count > 0),
  place TEXT,
  typed TEXT NOT NULL,
  digits INTEGER NOT NULL CHECK (digits > 0),
  decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 9),
  unit TEXT NOT NULL CHECK (unit IN ('lb', 'oz', 'kg', 'g')),
  tare_typed TEXT,
  tare_digits INTEGER CHECK (tare_digits >= 0),
  tare_decimals INTEGER,
  tare_unit TEXT CHECK (tare_unit IN ('lb', 'oz', 'kg', 'g')),
  grams REAL NOT NULL CHECK (grams > 0),
  source TEXT NOT NULL CHECK (source IN ('typed', 'scale', 'practice', 'import')),
  scale TEXT,
  note TEXT NOT NULL DEFAULT '',
  corrects INTEGER UNIQUE REFERENCES weighing (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK (animal_id IS NOT NULL OR batch_id IS NOT NULL),
  CHECK ((part = 'package') = (stage = 'packed')),
  CHECK ((product IS NULL) = (stage <> 'packed')),
  CHECK ((count IS NULL) = (stage <> 'packed'))
) STRICT;

CREATE TABLE weighing_void (
  weighing_id INTEGER PRIMARY KEY REFERENCES weighing (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- Fat in (+) and out (-) of a lot; a voided weighing is answered by a movement back.
CREATE TABLE fat_movement (
  id INTEGER PRIMARY KEY,
  lot_id INTEGER NOT NULL REFERENCES fat_lot (id),
  kind TEXT NOT NULL CHECK (kind IN ('bought', 'saved', 'into batch', 'voided', 'thrown out', 'counted', 'handed over')),
  grams REAL NOT NULL,
  typed TEXT,
  weighing_id INTEGER REFERENCES weighing (id),
  note TEXT NOT NULL DEFAULT '',
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE price_book (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  currency TEXT NOT NULL CHECK (length(currency) = 3),
  tax_rule TEXT NOT NULL CHECK (tax_rule IN ('per line', 'per bill')),
  example INTEGER NOT NULL CHECK (example IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE price_line (
  price_book_id INTEGER NOT NULL REFERENCES price_book (id),
  position INTEGER NOT NULL,
  code TEXT NOT NULL,
  label TEXT NOT NULL,
  basis TEXT NOT NULL,
  amount_minor INTEGER,
  rate REAL,
  unit TEXT CHECK (unit IN ('lb', 'kg')),
  species TEXT CHECK (json_valid(species)),
  brought TEXT CHECK (json_valid(brought)),
  product TEXT,
  fat_source TEXT,
  tax_rate REAL NOT NULL CHECK (tax_rate >= 0 AND tax_rate < 1),
  PRIMARY KEY (price_book_id, position),
  CHECK (amount_minor IS NOT NULL OR rate IS NOT NULL)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote (
  id INTEGER PRIMARY KEY,
  season INTEGER NOT NULL,
  number INTEGER NOT NULL,
  name TEXT NOT NULL UNIQUE,
  hunter_id INTEGER REFERENCES hunter (id),
  hunter_name TEXT NOT NULL,
  species TEXT NOT NULL,
  price_book_id INTEGER REFERENCES price_book (id),
  asked TEXT NOT NULL CHECK (json_valid(asked)),
  answered TEXT NOT NULL CHECK (json_valid(answered)),
  made_on TEXT NOT NULL,
  valid_until TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (season, number)
) STRICT;

CREATE TABLE quote_taken (
  quote_id INTEGER PRIMARY KEY REFERENCES quote (id),
  animal_id INTEGER NOT NULL UNIQUE REFERENCES animal (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE bill (
  id INTEGER PRIMARY KEY,
  number INTEGER NOT NULL UNIQUE,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  price_book_id INTEGER NOT NULL REFERENCES price_book (id),
  quote_id INTEGER REFERENCES quote (id),
  amounts TEXT NOT NULL CHECK (json_valid(amounts)),
  currency TEXT NOT NULL,
  subtotal_minor INTEGER NOT NULL,
  tax_minor INTEGER NOT NULL,
  total_minor INTEGER NOT NULL,
  billed_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK (subtotal_minor + tax_minor = total_minor)
) STRICT;

CREATE TABLE bill_line (
  bill_id INTEGER NOT NULL REFERENCES bill (id),
  position INTEGER NOT NULL,
  code TEXT NOT NULL,
  label TEXT NOT NULL,
  basis TEXT NOT NULL,
  quantity REAL NOT NULL,
  unit TEXT,
  unit_price_minor INTEGER NOT NULL,
  amount_minor INTEGER NOT NULL,
  tax_minor INTEGER NOT NULL,
  PRIMARY KEY (bill_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE bill_void (
  bill_id INTEGER PRIMARY KEY REFERENCES bill (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE payment (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  bill_id INTEGER REFERENCES bill (id),
  kind TEXT NOT NULL CHECK (kind IN ('deposit', 'payment', 'refund')),
  method TEXT NOT NULL,
  amount_minor INTEGER NOT NULL CHECK (amount_minor > 0),
  currency TEXT NOT NULL,
  paid_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE payment_void (
  payment_id INTEGER PRIMARY KEY REFERENCES payment (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- Calls to the hunter of an animal that is ready: who was reached, what was said.
CREATE TABLE call_note (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  text TEXT NOT NULL CHECK (length(text) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE release (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL UNIQUE REFERENCES animal (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  released_on TEXT NOT NULL,
  unpaid_override TEXT,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE disposal (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL UNIQUE REFERENCES animal (id),
  what TEXT NOT NULL,
  how TEXT NOT NULL,
  -- Why, in words; for a positive result its hold says so.
  reason TEXT NOT NULL,
  disposed_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- Who changed what, when, from what to what. Rows that are themselves append-only are their own trail.
CREATE TABLE audit (
  id INTEGER PRIMARY KEY,
  record TEXT NOT NULL,
  record_id TEXT NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('add', 'change', 'void')),
  before TEXT CHECK (json_valid(before)),
  after TEXT CHECK (json_valid(after)),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
`;
