-- A book of version 30, invented. Never edit: it stands for books that are in use.
PRAGMA application_id = 1196245580;
PRAGMA foreign_keys = OFF;
CREATE TABLE setting (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT, WITHOUT ROWID;
CREATE TABLE staff (
  initials TEXT PRIMARY KEY CHECK (length(initials) BETWEEN 1 AND 6),
  name TEXT NOT NULL,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1))
) STRICT, WITHOUT ROWID;
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
, language TEXT NOT NULL DEFAULT '') STRICT;
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
  created_at TEXT NOT NULL, old_number TEXT NOT NULL DEFAULT '', legs TEXT NOT NULL DEFAULT 'unknown' CHECK (legs IN ('on', 'off', 'unknown')),
  UNIQUE (season, number)
) STRICT;
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
  tax_rate REAL NOT NULL CHECK (tax_rate >= 0 AND tax_rate < 1), products TEXT CHECK (json_valid(products)), kinds TEXT CHECK (json_valid(kinds)), recipes TEXT CHECK (json_valid(recipes)), least REAL CHECK (least > 0),
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
, hunter_id INTEGER REFERENCES hunter (id), reference TEXT NOT NULL DEFAULT '') STRICT;
CREATE TABLE payment_void (
  payment_id INTEGER PRIMARY KEY REFERENCES payment (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE call_note (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  text TEXT NOT NULL CHECK (length(text) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
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
, station_id INTEGER REFERENCES station (id), person TEXT, checked INTEGER CHECK (checked IN (0, 1))) STRICT;
CREATE TABLE animal_sum (
  animal_id INTEGER PRIMARY KEY REFERENCES animal (id),
  season INTEGER NOT NULL,
  species TEXT NOT NULL,
  brought TEXT NOT NULL,
  sex TEXT NOT NULL,
  age TEXT NOT NULL,
  detail TEXT NOT NULL,
  stage TEXT NOT NULL,
  received_on TEXT NOT NULL,
  ready_on TEXT,
  damaged INTEGER NOT NULL,
  -- Who weighed most of its parts and packages.
  cutter TEXT,
  -- Moment of the first part or package on the scale: it left the hook.
  cut_at TEXT,
  received REAL,
  hanging REAL,
  whole_cuts REAL,
  trim REAL,
  fat_saved REAL,
  sinew REAL,
  bone REAL,
  damage REAL,
  trim_ground REAL NOT NULL,
  own_fat_ground REAL NOT NULL,
  packed REAL,
  base REAL,
  take_home REAL,
  finished INTEGER NOT NULL,
  share REAL
) STRICT;
CREATE TABLE batch_source_sum (
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  animal_id INTEGER NOT NULL,
  fat_lot_id INTEGER NOT NULL,
  grams REAL NOT NULL,
  PRIMARY KEY (batch_id, animal_id, fat_lot_id)
) STRICT, WITHOUT ROWID;
CREATE TABLE batch_sum (
  batch_id INTEGER PRIMARY KEY REFERENCES batch (id),
  season INTEGER NOT NULL,
  started_on TEXT NOT NULL,
  product TEXT NOT NULL,
  state TEXT NOT NULL,
  own REAL NOT NULL,
  bought REAL NOT NULL,
  out REAL NOT NULL
) STRICT;
CREATE TABLE brought_in (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('hunters', 'animals', 'weighings')),
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  rows INTEGER NOT NULL CHECK (rows > 0),
  hunter_first INTEGER,
  hunter_last INTEGER,
  animal_first INTEGER,
  animal_last INTEGER,
  weighing_first INTEGER,
  weighing_last INTEGER,
  at TEXT NOT NULL,
  by TEXT NOT NULL
, part_none_first INTEGER, part_none_last INTEGER) STRICT;
CREATE TABLE brought_in_undone (
  brought_in_id INTEGER PRIMARY KEY REFERENCES brought_in (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE fat_lot_sum (
  lot_id INTEGER PRIMARY KEY REFERENCES fat_lot (id),
  left_grams REAL NOT NULL,
  start_grams REAL NOT NULL
) STRICT;
CREATE TABLE cut_sum (
  animal_id INTEGER PRIMARY KEY REFERENCES animal (id),
  cuts_ordered REAL,
  packed_ground REAL NOT NULL
) STRICT;
CREATE TABLE season_taught (
  season INTEGER PRIMARY KEY,
  rule TEXT NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;
CREATE TABLE cooler_log (
  id INTEGER PRIMARY KEY,
  cooler_id INTEGER NOT NULL REFERENCES cooler (id),
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  temperature_first INTEGER NOT NULL REFERENCES cooler_temperature (id),
  temperature_last INTEGER NOT NULL REFERENCES cooler_temperature (id),
  known INTEGER NOT NULL CHECK (known >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE cooler_log_undone (
  cooler_log_id INTEGER PRIMARY KEY REFERENCES cooler_log (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE hunter_word_lookup (
  word TEXT NOT NULL,
  -- The whole name, so that hunters come in the order of their names off this table alone.
  name_key TEXT NOT NULL,
  hunter_id INTEGER NOT NULL,
  PRIMARY KEY (word, name_key, hunter_id)
) STRICT, WITHOUT ROWID;
CREATE TABLE word_lookup (
  word TEXT PRIMARY KEY
) STRICT, WITHOUT ROWID;
CREATE TABLE hunter_digits_lookup (
  digits TEXT NOT NULL,
  hunter_id INTEGER NOT NULL,
  PRIMARY KEY (digits, hunter_id)
) STRICT, WITHOUT ROWID;
CREATE TABLE hold_result (
  id INTEGER PRIMARY KEY,
  hold_id INTEGER NOT NULL REFERENCES hold (id),
  result TEXT NOT NULL CHECK (result IN ('positive', 'not detected', 'none')),
  sample TEXT NOT NULL,
  lab TEXT NOT NULL,
  reported_on TEXT NOT NULL CHECK (reported_on IS date(reported_on)),
  note TEXT NOT NULL,
  -- Why it corrects the result before it; empty for the first result of a hold.
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE grinder_cleaning (
  id INTEGER PRIMARY KEY,
  -- The batch after which it was cleaned, where somebody said so.
  batch_id INTEGER REFERENCES batch (id),
  how TEXT NOT NULL CHECK (length(how) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
, cleaned_at TEXT) STRICT;
CREATE TABLE grinder_cleaning_void (
  cleaning_id INTEGER PRIMARY KEY REFERENCES grinder_cleaning (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE former_ticket (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  ticket TEXT NOT NULL UNIQUE,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE part_none (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  part TEXT NOT NULL CHECK (part IN ('fat saved', 'sinew', 'bone', 'damage')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE part_none_void (
  none_id INTEGER PRIMARY KEY REFERENCES part_none (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE release (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  released_on TEXT NOT NULL,
  unpaid_override TEXT,
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE release_mend (
  id INTEGER PRIMARY KEY,
  release_id INTEGER NOT NULL REFERENCES release (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  released_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE release_void (
  release_id INTEGER PRIMARY KEY REFERENCES release (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE disposal (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  what TEXT NOT NULL,
  how TEXT NOT NULL,
  -- Why, in words; for a positive result its hold says so.
  reason TEXT NOT NULL,
  disposed_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE disposal_void (
  disposal_id INTEGER PRIMARY KEY REFERENCES disposal (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE hold_end (
  id INTEGER PRIMARY KEY,
  hold_id INTEGER NOT NULL REFERENCES hold (id),
  outcome TEXT NOT NULL CHECK (outcome IN ('cleared', 'positive', 'withdrawn')),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE intake_cancel (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- Where it was, for when the cancelation is voided.
  stage_before TEXT NOT NULL,
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE intake_cancel_void (
  cancel_id INTEGER PRIMARY KEY REFERENCES intake_cancel (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE belonging (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  kind TEXT NOT NULL CHECK (length(kind) > 0),
  tag TEXT NOT NULL,
  place TEXT NOT NULL,
  -- Whether it is kept as the evidence of sex that the agency asks for.
  evidence INTEGER NOT NULL CHECK (evidence IN (0, 1)),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE belonging_void (
  belonging_id INTEGER PRIMARY KEY REFERENCES belonging (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE belonging_end (
  id INTEGER PRIMARY KEY,
  belonging_id INTEGER NOT NULL REFERENCES belonging (id),
  went TEXT NOT NULL CHECK (went IN ('taxidermist', 'hunter', 'discarded')),
  -- The taxidermist, or who took it.
  name TEXT NOT NULL,
  receipt TEXT NOT NULL,
  ended_on TEXT NOT NULL CHECK (ended_on IS date(ended_on)),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE belonging_end_void (
  end_id INTEGER PRIMARY KEY REFERENCES belonging_end (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE share_split (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  basis TEXT NOT NULL CHECK (basis IN ('percent', 'pounds', 'pieces')),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE share (
  split_id INTEGER NOT NULL REFERENCES share_split (id),
  position INTEGER NOT NULL,
  hunter_id INTEGER NOT NULL REFERENCES hunter (id),
  typed TEXT NOT NULL,
  -- What was typed, as a number; in pounds also of a shop that works in kg: only the proportion counts.
  amount REAL NOT NULL CHECK (amount > 0),
  PRIMARY KEY (split_id, position),
  UNIQUE (split_id, hunter_id)
) STRICT, WITHOUT ROWID;
CREATE TABLE share_pickup (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  hunter_id INTEGER NOT NULL REFERENCES hunter (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  -- What was handed over, as it was divided then: [{ product, batch, count, grams }].
  packages TEXT NOT NULL CHECK (json_valid(packages)),
  taken_on TEXT NOT NULL CHECK (taken_on IS date(taken_on)),
  unpaid_override TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE share_pickup_void (
  pickup_id INTEGER PRIMARY KEY REFERENCES share_pickup (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE donation (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  program TEXT NOT NULL CHECK (length(program) > 0),
  whole INTEGER NOT NULL CHECK (whole IN (0, 1)),
  typed TEXT NOT NULL,
  digits INTEGER NOT NULL CHECK (digits > 0),
  decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 9),
  unit TEXT NOT NULL CHECK (unit IN ('lb', 'oz', 'kg', 'g')),
  grams REAL NOT NULL CHECK (grams > 0),
  confirmation TEXT NOT NULL,
  pays_minor INTEGER NOT NULL CHECK (pays_minor >= 0),
  pays_unit TEXT NOT NULL CHECK (pays_unit IN ('lb', 'kg')),
  currency TEXT NOT NULL CHECK (length(currency) = 3),
  donated_on TEXT NOT NULL CHECK (donated_on IS date(donated_on)),
  -- Why: the hunter's wish, or unclaimed after the last notice.
  why TEXT NOT NULL CHECK (why IN ('hunter', 'unclaimed')),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE donation_void (
  donation_id INTEGER PRIMARY KEY REFERENCES donation (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE unprocessed (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE unprocessed_void (
  unprocessed_id INTEGER PRIMARY KEY REFERENCES unprocessed (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE pickup_notice (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  step TEXT NOT NULL CHECK (step IN ('first', 'second', 'last')),
  how TEXT NOT NULL CHECK (how IN ('letter', 'call', 'message')),
  sent_on TEXT NOT NULL CHECK (sent_on IS date(sent_on)),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE pickup_notice_void (
  notice_id INTEGER PRIMARY KEY REFERENCES pickup_notice (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE till_float (
  id INTEGER PRIMARY KEY,
  day TEXT NOT NULL CHECK (day IS date(day)),
  currency TEXT NOT NULL,
  typed TEXT NOT NULL,
  amount_minor INTEGER NOT NULL CHECK (amount_minor >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
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
CREATE TABLE till_close_entry (
  till_close_id INTEGER NOT NULL REFERENCES till_close (id),
  payment_id INTEGER NOT NULL REFERENCES payment (id),
  what TEXT NOT NULL CHECK (what IN ('payment', 'void')),
  PRIMARY KEY (till_close_id, payment_id, what)
) STRICT, WITHOUT ROWID;
CREATE TABLE till_close_void (
  till_close_id INTEGER PRIMARY KEY REFERENCES till_close (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE work_time (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- The line by the hour, as the price book has it.
  line_code TEXT NOT NULL CHECK (length(line_code) > 0),
  minutes INTEGER NOT NULL CHECK (minutes > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
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
CREATE TABLE adjustment_void (
  adjustment_id INTEGER PRIMARY KEY REFERENCES adjustment (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE affected_note (
  id INTEGER PRIMARY KEY,
  -- The animal whose meat is affected.
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- The animal that tested positive.
  source_id INTEGER NOT NULL REFERENCES animal (id),
  what TEXT NOT NULL CHECK (what IN ('called', 'kept', 'discarded', 'returned')),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE affected_note_void (
  note_id INTEGER PRIMARY KEY REFERENCES affected_note (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE "quote_taken" (
  quote_id INTEGER NOT NULL REFERENCES quote (id),
  animal_id INTEGER NOT NULL UNIQUE REFERENCES animal (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  PRIMARY KEY (quote_id, animal_id)
) STRICT;
CREATE TABLE ingredient (
  id INTEGER PRIMARY KEY,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE ingredient_version (
  id INTEGER PRIMARY KEY,
  ingredient_id INTEGER NOT NULL REFERENCES ingredient (id),
  name TEXT NOT NULL CHECK (length(name) > 0),
  kind TEXT NOT NULL CHECK (kind IN ('plain', 'blend', 'cure', 'accelerator')),
  -- Ids of its sub-ingredients in the order of its packet; [] for none, NULL: not read.
  parts TEXT CHECK (json_valid(parts)),
  -- [{ allergen, kind }], "by-parts", or "unknown".
  allergens TEXT NOT NULL CHECK (json_valid(allergens)),
  -- Fractions of its weight as its packet states them; NULL: not read.
  nitrite REAL CHECK (nitrite >= 0 AND nitrite <= 1),
  nitrate REAL CHECK (nitrate >= 0 AND nitrate <= 1),
  accelerator REAL CHECK (accelerator >= 0 AND accelerator <= 1),
  salt REAL CHECK (salt >= 0 AND salt <= 1),
  -- The strength as it was typed.
  strength_typed TEXT NOT NULL,
  nitrite_as TEXT NOT NULL CHECK (nitrite_as IN ('sodium', 'potassium')),
  -- The uses that the packet names, as JSON; NULL: it names none.
  uses TEXT CHECK (json_valid(uses)),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE recipe (
  id INTEGER PRIMARY KEY,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE recipe_version (
  id INTEGER PRIMARY KEY,
  recipe_id INTEGER NOT NULL REFERENCES recipe (id),
  name TEXT NOT NULL CHECK (length(name) > 0),
  product TEXT NOT NULL CHECK (length(product) > 0),
  -- In the desk's shape of a recipe, amounts as typed.
  body TEXT NOT NULL CHECK (json_valid(body)),
  -- What was changed.
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_batch (
  id INTEGER PRIMARY KEY,
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  name TEXT NOT NULL UNIQUE,
  recipe_id INTEGER NOT NULL REFERENCES recipe (id),
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (season, number)
) STRICT;
CREATE TABLE made_batch_void (
  made_id INTEGER PRIMARY KEY REFERENCES made_batch (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_start (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  recipe_version_id INTEGER NOT NULL REFERENCES recipe_version (id),
  -- The part of the grind that goes into it, as typed; empty: all that is left of it.
  portion_typed TEXT NOT NULL,
  -- The meat block.
  grams REAL NOT NULL CHECK (grams > 0),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_weighed (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  ingredient_id INTEGER NOT NULL REFERENCES ingredient (id),
  typed TEXT NOT NULL,
  digits INTEGER NOT NULL CHECK (digits > 0),
  decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 9),
  unit TEXT NOT NULL CHECK (unit IN ('lb', 'oz', 'kg', 'g')),
  grams REAL NOT NULL CHECK (grams > 0),
  lot TEXT NOT NULL,
  source TEXT NOT NULL CHECK (source IN ('typed', 'scale', 'practice')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_weighed_void (
  weighed_id INTEGER PRIMARY KEY REFERENCES made_weighed (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_stage (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  stage TEXT NOT NULL CHECK (stage IN ('stuffed', 'cooked')),
  pieces INTEGER CHECK (pieces > 0),
  typed TEXT NOT NULL,
  digits INTEGER NOT NULL CHECK (digits > 0),
  decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 9),
  unit TEXT NOT NULL CHECK (unit IN ('lb', 'oz', 'kg', 'g')),
  grams REAL NOT NULL CHECK (grams > 0),
  source TEXT NOT NULL CHECK (source IN ('typed', 'scale', 'practice')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_stage_void (
  stage_id INTEGER PRIMARY KEY REFERENCES made_stage (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_analysis (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  what TEXT NOT NULL CHECK (what IN ('moisture', 'protein', 'fat', 'salt', 'water activity', 'ph')),
  typed TEXT NOT NULL,
  value REAL NOT NULL CHECK (value >= 0),
  method TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_analysis_void (
  analysis_id INTEGER PRIMARY KEY REFERENCES made_analysis (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE made_package (
  weighing_id INTEGER PRIMARY KEY REFERENCES weighing (id),
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load (
  id INTEGER PRIMARY KEY,
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  name TEXT NOT NULL UNIQUE,
  oven TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (season, number)
) STRICT;
CREATE TABLE load_batch (
  id INTEGER PRIMARY KEY,
  load_id INTEGER NOT NULL REFERENCES load (id),
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_batch_void (
  load_batch_id INTEGER PRIMARY KEY REFERENCES load_batch (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_record (
  id INTEGER PRIMARY KEY,
  load_id INTEGER NOT NULL REFERENCES load (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'closed')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_log (
  id INTEGER PRIMARY KEY,
  load_id INTEGER NOT NULL REFERENCES load (id),
  phase TEXT NOT NULL CHECK (phase IN ('cook', 'cooling', 'both')),
  probe TEXT NOT NULL CHECK (length(probe) > 0),
  degrees TEXT NOT NULL CHECK (degrees IN ('F', 'C')),
  source TEXT NOT NULL CHECK (source IN ('file', 'typed', 'thermometer')),
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_log_void (
  log_id INTEGER PRIMARY KEY REFERENCES load_log (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_reading (
  id INTEGER PRIMARY KEY,
  log_id INTEGER NOT NULL REFERENCES load_log (id),
  -- When the product had this temperature, UTC.
  read_at TEXT NOT NULL,
  typed TEXT NOT NULL,
  -- In the degrees of the log; NULL where the logger wrote no number.
  value REAL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_exclusion (
  id INTEGER PRIMARY KEY,
  reading_id INTEGER NOT NULL REFERENCES load_reading (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_exclusion_void (
  exclusion_id INTEGER PRIMARY KEY REFERENCES load_exclusion (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE load_verdict (
  id INTEGER PRIMARY KEY,
  load_id INTEGER NOT NULL REFERENCES load (id),
  cook TEXT NOT NULL CHECK (cook IN ('meets-figures', 'not-met', 'not-proven')),
  cooling TEXT NOT NULL CHECK (cooling IN ('meets-figures', 'not-met', 'not-proven')),
  -- What it rests on: the newest ids of the load's rows. A verdict on other rows is out of date.
  basis TEXT NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE deviation (
  id INTEGER PRIMARY KEY,
  load_id INTEGER REFERENCES load (id),
  made_id INTEGER REFERENCES made_batch (id),
  decided TEXT NOT NULL CHECK (decided IN ('hold', 'cook again', 'not ready to eat', 'discard', 'authority')),
  decided_by TEXT NOT NULL CHECK (length(decided_by) > 0),
  note TEXT NOT NULL CHECK (length(note) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK ((load_id IS NULL) <> (made_id IS NULL))
) STRICT;
CREATE TABLE deviation_void (
  deviation_id INTEGER PRIMARY KEY REFERENCES deviation (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE station (
  id INTEGER PRIMARY KEY,
  -- SHA-256 of its secret, which the desk does not keep.
  secret_hash TEXT NOT NULL UNIQUE CHECK (length(secret_hash) = 64),
  -- Where its page came from when it was paired.
  origin TEXT NOT NULL,
  agent TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE station_name (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  name TEXT NOT NULL CHECK (length(name) > 0),
  place TEXT NOT NULL CHECK (place IN ('office', 'counter', 'cooler', 'table', 'grinder', 'smokehouse', 'pickup', 'hunter')),
  language TEXT NOT NULL CHECK (length(language) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE station_state (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'paused', 'removed')),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE station_line (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  line TEXT NOT NULL UNIQUE,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE station_entry (
  id INTEGER PRIMARY KEY,
  line_id INTEGER NOT NULL REFERENCES station_line (id),
  -- 1, 2, 3 … of its line.
  number INTEGER NOT NULL CHECK (number > 0),
  -- The station's own name for it.
  entry TEXT NOT NULL UNIQUE,
  -- SHA-256 of what was entered.
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  wire INTEGER NOT NULL CHECK (wire > 0),
  call TEXT NOT NULL,
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  -- Initials of who typed it; checked: signed in, else only said.
  person TEXT NOT NULL,
  checked INTEGER NOT NULL CHECK (checked IN (0, 1)),
  -- By the station's clock, and how far that was ahead of the desk's.
  typed_at TEXT NOT NULL,
  ahead_ms INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (line_id, number)
) STRICT;
CREATE TABLE station_write (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  call TEXT NOT NULL,
  -- The row that the call answered with; empty: it names none.
  record_id TEXT NOT NULL,
  person TEXT NOT NULL,
  checked INTEGER NOT NULL CHECK (checked IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE staff_pin (
  id INTEGER PRIMARY KEY,
  initials TEXT NOT NULL REFERENCES staff (initials),
  salt TEXT NOT NULL,
  hash TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE draft (
  id INTEGER PRIMARY KEY,
  -- Where it was typed; NULL: at the desk itself.
  station_id INTEGER REFERENCES station (id),
  -- What the hunter reads.
  language TEXT NOT NULL CHECK (length(language) > 0),
  name TEXT NOT NULL CHECK (length(name) > 0),
  phone TEXT NOT NULL,
  licence TEXT NOT NULL,
  tag TEXT NOT NULL,
  species TEXT NOT NULL CHECK (length(species) > 0),
  sex TEXT NOT NULL CHECK (sex IN ('male', 'female', 'unknown')),
  kill_date TEXT,
  kill_area TEXT NOT NULL,
  -- JSON of the cutting instructions; NULL: the hunter was not asked.
  instructions TEXT CHECK (instructions IS NULL OR json_valid(instructions)),
  -- The shop's terms as the hunter read them, and the signature drawn below: path data of SVG in a box of 1000 × 300.
  terms TEXT NOT NULL,
  signature TEXT NOT NULL,
  -- When its personal details were removed.
  details_removed_at TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
, slip_id INTEGER REFERENCES slip (id), by_phone INTEGER NOT NULL DEFAULT 0 CHECK (by_phone IN (0, 1)), terms_language TEXT NOT NULL DEFAULT '', terms_since TEXT) STRICT;
CREATE TABLE draft_state (
  id INTEGER PRIMARY KEY,
  draft_id INTEGER NOT NULL REFERENCES draft (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'dismissed', 'taken')),
  -- The ticket that it became.
  animal_id INTEGER UNIQUE REFERENCES animal (id),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  CHECK ((state = 'taken') = (animal_id IS NOT NULL)),
  CHECK (state <> 'dismissed' OR length(reason) > 0)
) STRICT;
CREATE TABLE station_made (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  -- The station's own name for it, a UUID.
  made TEXT NOT NULL UNIQUE CHECK (length(made) = 36),
  -- The call that made it, and the row that it answered with.
  call TEXT NOT NULL CHECK (length(call) > 0),
  record_id INTEGER NOT NULL CHECK (record_id > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE photograph (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  kind TEXT NOT NULL CHECK (kind IN ('tag', 'animal', 'damage', 'result')),
  -- SHA-256 of the JPEG file.
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  bytes INTEGER NOT NULL CHECK (bytes > 0),
  width INTEGER NOT NULL CHECK (width > 0),
  height INTEGER NOT NULL CHECK (height > 0),
  -- Where it was taken; NULL: at the desk itself.
  station_id INTEGER REFERENCES station (id),
  taken_at TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE photograph_void (
  photograph_id INTEGER PRIMARY KEY REFERENCES photograph (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE photograph_removal (
  photograph_id INTEGER PRIMARY KEY REFERENCES photograph (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE slip (
  id INTEGER PRIMARY KEY,
  -- As printed: 483-201-957.
  code TEXT NOT NULL UNIQUE CHECK (code GLOB '[0-9][0-9][0-9]-[0-9][0-9][0-9]-[0-9][0-9][0-9]'),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE slip_animal (
  slip_id INTEGER PRIMARY KEY REFERENCES slip (id),
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE lesson_given (
  id INTEGER PRIMARY KEY,
  -- A random mark of this shop, drawn at its first; it names nobody.
  source TEXT NOT NULL CHECK (length(source) > 0),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE lesson (
  id INTEGER PRIMARY KEY,
  -- The mark of the shop that gave it.
  source TEXT NOT NULL CHECK (length(source) > 0),
  -- What this shop calls the other.
  label TEXT NOT NULL CHECK (length(label) > 0),
  via TEXT NOT NULL CHECK (via IN ('file', 'ledger')),
  made_on TEXT NOT NULL,
  animals INTEGER NOT NULL CHECK (animals >= 0),
  batches INTEGER NOT NULL CHECK (batches >= 0),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE TABLE lesson_use (
  id INTEGER PRIMARY KEY,
  lesson_id INTEGER NOT NULL REFERENCES lesson (id),
  used INTEGER NOT NULL CHECK (used IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
INSERT INTO "setting" VALUES ('shopName', '"Cold Creek Locker"');
INSERT INTO "setting" VALUES ('unit', '"lb"');
INSERT INTO "setting" VALUES ('zone', '"America/Denver"');
INSERT INTO "staff" VALUES ('MK', 'Mika Koski', 1.0);
INSERT INTO "staff" VALUES ('RB', 'Ray Bell', 0.0);
INSERT INTO "species_profile" VALUES ('red-deer', '{"code":"red-deer"}', 1.0);
INSERT INTO "hunter" VALUES (1.0, 'Dana Whitlock', 'dana whitlock', '307-555-0142', '3075550142', '', '1 Ridge Road', 'WY-1', '', 0.0, '2026-10-01T14:00:00.000Z', NULL, 'fr-CA');
INSERT INTO "hunter" VALUES (2.0, 'Ødegård, Ingrid', 'odegard, ingrid', '', '', 'i@example.org', '', '', 'calls back', 1.0, '2026-10-02T14:00:00.000Z', NULL, '');
INSERT INTO "animal" VALUES (1.0, 2026.0, 1.0, '26-0001', 1.0, '', '', 'elk', 'male', 'adult', 'skinned', 'hunter', 'WY-1', 'T-9', '2026-09-30', 'Area 7', '2026-10-01', '2026-10-09', 'clean', '', 'detailed', 'released', '2026-10-08', '2026-10-01T14:00:00.000Z', '', 'unknown');
INSERT INTO "animal" VALUES (2.0, 2026.0, 2.0, '26-0002', 2.0, 'Pat O''Brien', '2 Ridge Road', 'mule-deer', 'female', 'young', 'quarters', 'hunter', '', '', NULL, '', '2026-10-02', NULL, '', 'shot through', 'quick', 'disposed', NULL, '2026-10-02T14:00:00.000Z', '', 'off');
INSERT INTO "animal_part" VALUES (2.0, 'hind quarter', 2.0);
INSERT INTO "hold" VALUES (1.0, 2.0, 'CWD', 'L26-118', '2026-10-02T15:00:00.000Z', 'MK');
INSERT INTO "hold" VALUES (2.0, 1.0, 'smells', '', '2026-10-02T16:00:00.000Z', 'RB');
INSERT INTO "instruction" VALUES (1.0, 1.0, '{"orders":{}}', '2026-10-01T14:05:00.000Z', 'MK');
INSERT INTO "instruction" VALUES (30.0, 1.0, '{"primals":[{"primal":"ham","as":"whole","size":"size:bone-in"}]}', '2026-11-30T19:05:00.000Z', 'MK');
INSERT INTO "product" VALUES ('links', 'Links', 'sausage', '{"fat":"pork"}', 1.0);
INSERT INTO "instruction_template" VALUES (1.0, 'All burger', NULL, '{"orders":{}}', 1.0);
INSERT INTO "cooler" VALUES (1.0, 'Cold room 1', 40.0, 1.0);
INSERT INTO "cooler_stay" VALUES (1.0, 1.0, 1.0, 'hook 3', '2026-10-01T14:10:00.000Z', 'MK');
INSERT INTO "cooler_temperature" VALUES (1.0, 1.0, '36 F', 22.0, '2026-10-01T18:00:00.000Z', 'MK');
INSERT INTO "cooler_temperature" VALUES (2.0, 1.0, '63 F', 172.0, '2026-10-01T19:00:00.000Z', 'MK');
INSERT INTO "cooler_temperature" VALUES (3.0, 1.0, '2.1 C', 21.0, '2026-10-02T06:00:00.000Z', 'MK');
INSERT INTO "cooler_temperature" VALUES (4.0, 1.0, '2.4 C', 24.0, '2026-10-02T07:00:00.000Z', 'MK');
INSERT INTO "cooler_temperature_void" VALUES (2.0, 'misread', '2026-10-01T19:01:00.000Z', 'MK');
INSERT INTO "fat_lot" VALUES (1.0, 'PB-1', 'pork-back', 'Pork back fat', NULL, 0.85, 0.02, 250.0, 'lb', 'Ridge Meats', 'A-17', '2026-12-01', '2026-10-01', '2026-10-01T13:00:00.000Z', 'MK');
INSERT INTO "batch" VALUES (1.0, 2026.0, 1.0, 'G26-001', 'grind', 0.125, '{"parts":[]}', 'done', '2026-10-07', '2026-10-07T14:00:00.000Z', 'MK');
INSERT INTO "batch_animal" VALUES (1.0, 1.0);
INSERT INTO "grind_pass" VALUES (1.0, 1.0, 1.0, '3/8 in', '34 F', 11.0, '2026-10-07T14:30:00.000Z', 'MK');
INSERT INTO "fat_test" VALUES (1.0, 1.0, 0.131, 0.01, 'meter', '2026-10-07T15:00:00.000Z', 'MK');
INSERT INTO "weighing" VALUES (1.0, 1.0, NULL, NULL, 'hanging', 'carcass', NULL, NULL, NULL, NULL, '340.5', 3405.0, 1.0, 'lb', NULL, NULL, NULL, NULL, 154448.201985, 'typed', NULL, '', NULL, '2026-10-01T14:02:00.000Z', 'MK');
INSERT INTO "weighing" VALUES (2.0, 1.0, NULL, NULL, 'cut', 'trim', NULL, NULL, NULL, NULL, '801', 801.0, 1.0, 'lb', NULL, NULL, NULL, NULL, 36332.748837, 'scale', 'COM3', 'wet', NULL, '2026-10-06T14:02:00.000Z', 'RB');
INSERT INTO "weighing" VALUES (3.0, 1.0, NULL, NULL, 'cut', 'trim', NULL, NULL, NULL, NULL, '81 lb 2 oz', 81125.0, 3.0, 'lb', '1 lb', 1.0, 0.0, 'lb', 36343.588665, 'typed', NULL, '', 2.0, '2026-10-06T14:03:00.000Z', 'RB');
INSERT INTO "weighing" VALUES (4.0, 1.0, 1.0, NULL, 'grinder', 'trim', NULL, NULL, NULL, NULL, '80', 80.0, 0.0, 'lb', NULL, NULL, NULL, NULL, 36287.3896, 'typed', NULL, '', NULL, '2026-10-07T14:10:00.000Z', 'MK');
INSERT INTO "weighing" VALUES (5.0, NULL, 1.0, 1.0, 'grinder', 'fat added', NULL, NULL, NULL, NULL, '5 kg', 5.0, 0.0, 'kg', NULL, NULL, NULL, NULL, 5000.0, 'typed', NULL, '', NULL, '2026-10-07T14:12:00.000Z', 'MK');
INSERT INTO "weighing" VALUES (6.0, 1.0, 1.0, NULL, 'packed', 'package', NULL, 'grind', 45.0, 'shelf 2', '90', 90.0, 0.0, 'lb', NULL, NULL, NULL, NULL, 40823.3133, 'typed', NULL, '', NULL, '2026-10-07T16:00:00.000Z', 'MK');
INSERT INTO "weighing" VALUES (7.0, 2.0, NULL, NULL, 'received', 'carcass', NULL, NULL, NULL, NULL, '60', 60.0, 0.0, 'lb', NULL, NULL, NULL, NULL, 27215.5422, 'typed', NULL, '', NULL, '2026-10-02T14:02:00.000Z', 'MK');
INSERT INTO "weighing_void" VALUES (2.0, 'decimal point', '2026-10-06T14:03:00.000Z', 'RB');
INSERT INTO "weighing_void" VALUES (6.0, 'reason:wrong-animal', '2026-11-30T19:00:00.000Z', 'MK');
INSERT INTO "fat_movement" VALUES (1.0, 1.0, 'bought', 45359.237, '100 lb', NULL, '', '2026-10-01T13:00:00.000Z', 'MK');
INSERT INTO "fat_movement" VALUES (2.0, 1.0, 'into batch', -5000.0, '5 kg', 5.0, '', '2026-10-07T14:12:00.000Z', 'MK');
INSERT INTO "price_book" VALUES (1.0, 'Fall 2026', '2026-09-01', 'USD', 'per line', 0.0, '2026-08-20T12:00:00.000Z', 'MK');
INSERT INTO "price_line" VALUES (1.0, 1.0, 'cut', 'Cut and wrap', 'hanging weight', 95.0, NULL, 'lb', '["elk"]', '["skinned"]', NULL, NULL, 0.04, NULL, NULL, NULL, NULL);
INSERT INTO "price_line" VALUES (1.0, 2.0, 'rush', 'Rush', 'surcharge', NULL, 0.1, NULL, NULL, NULL, NULL, NULL, 0.0, NULL, NULL, NULL, NULL);
INSERT INTO "price_line" VALUES (1.0, 3.0, 'sausage', 'Sausage making', 'product', 325.0, NULL, 'lb', NULL, NULL, NULL, NULL, 0.0, '["bratwurst"]', '["sausage"]', NULL, NULL);
INSERT INTO "price_line" VALUES (1.0, 4.0, 'jerky', 'Jerky making', 'trim', 450.0, NULL, 'lb', NULL, NULL, NULL, NULL, 0.0, '[]', '["jerky"]', '[1]', 10.5);
INSERT INTO "quote" VALUES (1.0, 2026.0, 1.0, 'Q26-0001', 1.0, 'Dana Whitlock', 'elk', 1.0, '{"weight":"340"}', '{"low":300}', '2026-09-20', '2026-10-20', '2026-09-20T12:00:00.000Z', 'MK');
INSERT INTO "quote" VALUES (99.0, 2026.0, 9999.0, 'Q-again', 1.0, 'Dana Whitlock', 'elk', 1.0, '{"weight":"340"}', '{"low":300}', '2026-09-20', '2026-10-20', '2026-09-20T12:00:00.000Z', 'MK');
INSERT INTO "bill" VALUES (1.0, 1.0, 1.0, 1.0, 1.0, '{}', 'USD', 32300.0, 1292.0, 33592.0, '2026-10-08', '2026-10-08T12:00:00.000Z', 'MK');
INSERT INTO "bill" VALUES (2.0, 2.0, 1.0, 1.0, NULL, '{}', 'USD', 32348.0, 1294.0, 33642.0, '2026-10-08', '2026-10-08T12:10:00.000Z', 'MK');
INSERT INTO "bill_line" VALUES (1.0, 1.0, 'cut', 'Cut and wrap', 'hanging weight', 340.0, 'lb', 95.0, 32300.0, 1292.0);
INSERT INTO "bill_line" VALUES (2.0, 1.0, 'cut', 'Cut and wrap', 'hanging weight', 340.5, 'lb', 95.0, 32348.0, 1294.0);
INSERT INTO "bill_void" VALUES (1.0, 'reason:weighed-again', '2026-10-08T12:09:00.000Z', 'MK');
INSERT INTO "payment" VALUES (1.0, 1.0, NULL, 'deposit', 'cash', 5000.0, 'USD', '2026-10-01', '2026-10-01T14:06:00.000Z', 'MK', NULL, '');
INSERT INTO "payment" VALUES (2.0, 1.0, 2.0, 'payment', 'card', 28642.0, 'USD', '2026-10-09', '2026-10-09T12:00:00.000Z', 'MK', NULL, '');
INSERT INTO "payment" VALUES (3.0, 1.0, 2.0, 'payment', 'card', 28642.0, 'USD', '2026-10-09', '2026-10-09T12:00:05.000Z', 'MK', NULL, '');
INSERT INTO "payment" VALUES (4.0, 1.0, 2.0, 'payment', 'cash', 100.0, 'USD', '2026-10-09', '2026-10-09T12:03:00.000Z', 'MK', 2.0, '');
INSERT INTO "payment" VALUES (104.0, 1.0, 2.0, 'payment', 'check', 100.0, 'USD', '2026-10-09', '2026-10-09T12:05:00.000Z', 'MK', NULL, '1042');
INSERT INTO "payment_void" VALUES (3.0, 'typed twice', '2026-10-09T12:01:00.000Z', 'MK');
INSERT INTO "call_note" VALUES (1.0, 1.0, 'left word', '2026-10-08T13:00:00.000Z', 'MK');
INSERT INTO "audit" VALUES (1.0, 'setting', 'unit', 'change', '"kg"', '"lb"', '', '2026-08-20T12:00:00.000Z', 'MK', NULL, NULL, NULL);
INSERT INTO "audit" VALUES (2.0, 'animal', '1', 'change', NULL, NULL, '', '2026-10-12T17:07:00.000Z', 'RB', 1.0, 'RB', 1.0);
INSERT INTO "animal_sum" VALUES (1.0, 2026.0, 'elk', 'skinned', 'male', 'adult', 'detailed', 'released', '2026-10-01', '2026-10-08', 0.0, 'RB', '2026-10-06T14:03:00.000Z', NULL, 154448.201985, NULL, 36343.588665, NULL, NULL, NULL, 0.0, 36287.3896, 0.0, NULL, 154448.201985, 36343.588665, 1.0, 0.23531247497804922);
INSERT INTO "animal_sum" VALUES (2.0, 2026.0, 'mule-deer', 'quarters', 'female', 'young', 'quick', 'disposed', '2026-10-02', NULL, 1.0, NULL, NULL, 27215.5422, NULL, NULL, NULL, NULL, NULL, NULL, NULL, 0.0, 0.0, NULL, 27215.5422, NULL, 0.0, NULL);
INSERT INTO "batch_source_sum" VALUES (1.0, 0.0, 1.0, 5000.0);
INSERT INTO "batch_source_sum" VALUES (1.0, 1.0, 0.0, 36287.3896);
INSERT INTO "batch_sum" VALUES (1.0, 2026.0, '2026-10-07', 'grind', 'done', 36287.3896, 5000.0, 0.0);
INSERT INTO "brought_in" VALUES (1.0, 'hunters', 'friends.csv', 'ab12', 1.0, 2.0, 2.0, NULL, NULL, NULL, NULL, '2026-10-02T14:00:00.000Z', 'MK', NULL, NULL);
INSERT INTO "brought_in_undone" VALUES (1.0, '2026-10-02T14:05:00.000Z', 'MK');
INSERT INTO "fat_lot_sum" VALUES (1.0, 40359.237, 45359.237);
INSERT INTO "cut_sum" VALUES (1.0, NULL, 0.0);
INSERT INTO "season_taught" VALUES (2025.0, 'made up', '{}');
INSERT INTO "cooler_log" VALUES (1.0, 1.0, 'logger.csv', 'cd34', 3.0, 4.0, 0.0, '2026-10-02T15:00:00.000Z', 'MK');
INSERT INTO "cooler_log_undone" VALUES (1.0, '2026-10-02T15:05:00.000Z', 'MK');
INSERT INTO "hunter_word_lookup" VALUES ('dana', 'dana whitlock', 1.0);
INSERT INTO "hunter_word_lookup" VALUES ('ingrid', 'odegard, ingrid', 2.0);
INSERT INTO "hunter_word_lookup" VALUES ('odegard,', 'odegard, ingrid', 2.0);
INSERT INTO "hunter_word_lookup" VALUES ('whitlock', 'dana whitlock', 1.0);
INSERT INTO "word_lookup" VALUES ('dana');
INSERT INTO "word_lookup" VALUES ('ingrid');
INSERT INTO "word_lookup" VALUES ('odegard,');
INSERT INTO "word_lookup" VALUES ('whitlock');
INSERT INTO "hunter_digits_lookup" VALUES ('0142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('075550142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('3075550142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('50142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('550142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('5550142', 1.0);
INSERT INTO "hunter_digits_lookup" VALUES ('75550142', 1.0);
INSERT INTO "hold_result" VALUES (1.0, 1.0, 'not detected', 'L26-118', 'State lab', '2026-10-11', '', 'read for another sample', '2026-10-11T15:00:00.000Z', 'MK');
INSERT INTO "hold_result" VALUES (2.0, 1.0, 'positive', 'L26-118', 'State lab', '2026-10-12', 'by letter', 'tested again', '2026-10-12T15:00:00.000Z', 'MK');
INSERT INTO "grinder_cleaning" VALUES (1.0, 1.0, 'taken apart and washed', '2026-10-07T15:00:00.000Z', 'RB', NULL);
INSERT INTO "grinder_cleaning" VALUES (2.0, NULL, 'washed', '2026-10-07T17:00:00.000Z', 'RB', NULL);
INSERT INTO "grinder_cleaning" VALUES (3.0, NULL, 'taken apart and washed', '2026-10-09T15:00:00.000Z', 'RB', '2026-10-08T23:00:00.000Z');
INSERT INTO "grinder_cleaning_void" VALUES (2.0, 'not done yet', '2026-10-07T17:01:00.000Z', 'RB');
INSERT INTO "former_ticket" VALUES (1.0, 1.0, 2025.0, 7.0, '25-0007', '2026-10-11T13:00:00.000Z', 'MK');
INSERT INTO "part_none" VALUES (1.0, 1.0, 'damage', '2026-10-06T14:05:00.000Z', 'RB');
INSERT INTO "part_none" VALUES (2.0, 1.0, 'bone', '2026-10-06T14:06:00.000Z', 'RB');
INSERT INTO "part_none_void" VALUES (2.0, 'reason:stated-by-mistake', '2026-10-06T14:07:00.000Z', 'RB');
INSERT INTO "release" VALUES (1.0, 1.0, 'Dana Whitlock', '2026-10-09', NULL, '', '2026-10-09T12:02:00.000Z', 'MK');
INSERT INTO "release" VALUES (2.0, 2.0, 'Ingrid Ødegård', '2026-10-06', NULL, '', '2026-10-06T12:00:00.000Z', 'MK');
INSERT INTO "release_mend" VALUES (1.0, 1.0, 'Ada Whitlock', '2026-10-10', '2026-10-11T12:00:00.000Z', 'MK');
INSERT INTO "release_void" VALUES (2.0, 'the wrong ticket', '2026-10-06T12:03:00.000Z', 'RB');
INSERT INTO "disposal" VALUES (1.0, 2.0, 'whole animal', 'state landfill', 'positive', '2026-10-07', '2026-10-07T12:00:00.000Z', 'MK');
INSERT INTO "disposal" VALUES (2.0, 1.0, 'all of it', 'landfill', 'spoiled', '2026-10-05', '2026-10-05T12:00:00.000Z', 'MK');
INSERT INTO "disposal_void" VALUES (2.0, 'meant for another animal', '2026-10-05T12:04:00.000Z', 'RB');
INSERT INTO "hold_end" VALUES (1.0, 1.0, 'positive', 'letter of the state', '2026-10-06T15:00:00.000Z', 'MK');
INSERT INTO "hold_end" VALUES (2.0, 2.0, 'withdrawn', 'another animal', '2026-10-02T16:05:00.000Z', 'RB');
INSERT INTO "hold_end" VALUES (3.0, 2.0, 'withdrawn', 'said again', '2026-10-02T16:06:00.000Z', 'RB');
INSERT INTO "intake_cancel" VALUES (1.0, 2.0, 'hanging', 'taken in twice', '2026-10-02T14:20:00.000Z', 'MK');
INSERT INTO "intake_cancel_void" VALUES (1.0, 'the other one was it', '2026-10-02T14:21:00.000Z', 'MK');
INSERT INTO "belonging" VALUES (1.0, 1.0, 'cape', 'A-7', 'freezer 2', 0.0, 'salted', '2026-10-01T14:05:00.000Z', 'MK');
INSERT INTO "belonging" VALUES (2.0, 1.0, 'skull', '', 'shelf', 1.0, '', '2026-10-01T14:06:00.000Z', 'MK');
INSERT INTO "belonging" VALUES (3.0, 1.0, 'heart', '', '', 0.0, '', '2026-10-01T14:07:00.000Z', 'MK');
INSERT INTO "belonging_void" VALUES (3.0, 'of another elk', '2026-10-01T14:08:00.000Z', 'MK');
INSERT INTO "belonging_end" VALUES (1.0, 1.0, 'taxidermist', 'Pine Studio', 'R-12', '2026-10-05', '', '2026-10-05T12:00:00.000Z', 'RB');
INSERT INTO "belonging_end" VALUES (2.0, 2.0, 'discarded', '', '', '2026-10-05', 'cracked', '2026-10-05T12:01:00.000Z', 'RB');
INSERT INTO "belonging_end_void" VALUES (2.0, 'it is here', '2026-10-05T12:02:00.000Z', 'RB');
INSERT INTO "share_split" VALUES (1.0, 1.0, 'percent', '', '2026-10-01T14:09:00.000Z', 'MK');
INSERT INTO "share_split" VALUES (2.0, 1.0, 'pieces', 'agreed otherwise', '2026-10-02T09:00:00.000Z', 'MK');
INSERT INTO "share" VALUES (1.0, 0.0, 1.0, '50', 50.0);
INSERT INTO "share" VALUES (1.0, 1.0, 2.0, '50', 50.0);
INSERT INTO "share" VALUES (2.0, 0.0, 1.0, '3', 3.0);
INSERT INTO "share" VALUES (2.0, 1.0, 2.0, '1', 1.0);
INSERT INTO "share_pickup" VALUES (1.0, 1.0, 2.0, 'Ingrid Ødegård', '[{"product":"grind","batch":"G26-001","count":11,"grams":9979}]', '2026-10-09', NULL, '2026-10-09T12:00:00.000Z', 'MK');
INSERT INTO "share_pickup_void" VALUES (1.0, 'not today', '2026-10-09T12:00:30.000Z', 'MK');
INSERT INTO "donation" VALUES (1.0, 1.0, 'Hunters Share', 0.0, '12.5', 125.0, 1.0, 'lb', 5669.904625, 'HS-88', 150.0, 'lb', 'USD', '2026-10-09', 'hunter', 'ground only', '2026-10-09T12:04:00.000Z', 'MK');
INSERT INTO "donation" VALUES (2.0, 1.0, 'Hunters Share', 0.0, '1.25', 125.0, 2.0, 'lb', 566.9904625, '', 0.0, 'lb', 'USD', '2026-10-09', 'unclaimed', '', '2026-10-09T12:05:00.000Z', 'MK');
INSERT INTO "donation_void" VALUES (2.0, 'typed wrong', '2026-10-09T12:06:00.000Z', 'MK');
INSERT INTO "unprocessed" VALUES (1.0, 2.0, 'taken to another shop', '2026-10-03T09:00:00.000Z', 'MK');
INSERT INTO "unprocessed_void" VALUES (1.0, 'stays here', '2026-10-03T09:01:00.000Z', 'MK');
INSERT INTO "pickup_notice" VALUES (1.0, 1.0, 'first', 'call', '2026-10-08', 'left word', '2026-10-08T13:05:00.000Z', 'MK');
INSERT INTO "pickup_notice" VALUES (2.0, 1.0, 'second', 'letter', '2026-10-08', '', '2026-10-08T13:06:00.000Z', 'MK');
INSERT INTO "pickup_notice_void" VALUES (2.0, 'not sent', '2026-10-08T13:07:00.000Z', 'MK');
INSERT INTO "till_float" VALUES (1.0, '2026-10-01', 'USD', '150', 15000.0, '2026-10-01T13:30:00.000Z', 'MK');
INSERT INTO "till_close" VALUES (1.0, 1.0, '2026-10-01', 'USD', 15000.0, 5000.0, 20000.0, '{"total":"200"}', 20000.0, 0.0, '', '2026-10-01T23:00:00.000Z', 'MK');
INSERT INTO "till_close" VALUES (2.0, 2.0, '2026-10-01', 'USD', 15000.0, 5000.0, 20000.0, '{"total":"199"}', 19900.0, -100.0, 'a dollar short', '2026-10-01T23:10:00.000Z', 'RB');
INSERT INTO "till_close_entry" VALUES (1.0, 1.0, 'payment');
INSERT INTO "till_close_entry" VALUES (2.0, 1.0, 'payment');
INSERT INTO "till_close_void" VALUES (1.0, 'counted wrong', '2026-10-01T23:05:00.000Z', 'RB');
INSERT INTO "work_time" VALUES (1.0, 1.0, 'trimming', 90.0, '2026-10-06T15:00:00.000Z', 'RB');
INSERT INTO "work_time" VALUES (2.0, 1.0, 'trimming', 900.0, '2026-10-06T15:01:00.000Z', 'RB');
INSERT INTO "work_time_void" VALUES (2.0, 'ten times too much', '2026-10-06T15:02:00.000Z', 'RB');
INSERT INTO "adjustment" VALUES (1.0, 1.0, 1.0, 'free line', 'Freezer bag', NULL, NULL, 500.0, NULL, 0.06, 'USD', 'asked for at the counter', '2026-10-07T15:00:00.000Z', 'MK');
INSERT INTO "adjustment" VALUES (2.0, 1.0, NULL, 'percent off', '', NULL, NULL, NULL, 0.1, NULL, 'USD', 'came twice', '2026-10-07T15:01:00.000Z', 'MK');
INSERT INTO "adjustment" VALUES (3.0, 1.0, NULL, 'amount off', '', NULL, NULL, 1000.0, NULL, NULL, 'USD', 'waited long', '2026-10-07T15:02:00.000Z', 'MK');
INSERT INTO "adjustment" VALUES (4.0, 1.0, NULL, 'other price', '', 'cut', NULL, 90.0, NULL, NULL, 'USD', 'as promised', '2026-10-07T15:03:00.000Z', 'MK');
INSERT INTO "adjustment" VALUES (5.0, 1.0, NULL, 'charge as', '', 'sausage', 'Landjäger', NULL, NULL, NULL, 'USD', 'made like it', '2026-10-07T15:04:00.000Z', 'MK');
INSERT INTO "adjustment_void" VALUES (3.0, 'given to another', '2026-10-07T15:05:00.000Z', 'MK');
INSERT INTO "affected_note" VALUES (1.0, 1.0, 2.0, 'called', 'will bring it back', '2026-10-12T16:00:00.000Z', 'MK');
INSERT INTO "affected_note" VALUES (2.0, 1.0, 2.0, 'returned', '', '2026-10-12T16:01:00.000Z', 'MK');
INSERT INTO "affected_note_void" VALUES (2.0, 'not yet', '2026-10-12T16:02:00.000Z', 'MK');
INSERT INTO "quote_taken" VALUES (1.0, 1.0, '2026-10-01T14:01:00.000Z', 'MK');
INSERT INTO "quote_taken" VALUES (99.0, 2.0, '2026-10-12T16:03:00.000Z', 'MK');
INSERT INTO "ingredient" VALUES (1.0, 1.0, '2026-10-10T12:00:00.000Z', 'MK');
INSERT INTO "ingredient" VALUES (2.0, 0.0, '2026-10-10T12:00:01.000Z', 'MK');
INSERT INTO "ingredient_version" VALUES (1.0, 1.0, 'Pink cure', 'cure', '[]', '[]', 0.0625, 0.0, 0.0, NULL, '6.25%', 'sodium', '["ground"]', '', '2026-10-10T12:00:00.000Z', 'MK');
INSERT INTO "ingredient_version" VALUES (2.0, 2.0, 'House blend', 'blend', NULL, '"unknown"', NULL, NULL, NULL, NULL, '', 'sodium', NULL, 'packet lost', '2026-10-10T12:00:01.000Z', 'MK');
INSERT INTO "recipe" VALUES (1.0, 1.0, '2026-10-10T12:01:00.000Z', 'MK');
INSERT INTO "recipe_version" VALUES (1.0, 1.0, 'Summer sausage', 'Summer Sausage', '{"meat":[]}', '', '2026-10-10T12:01:00.000Z', 'MK');
INSERT INTO "recipe_version" VALUES (2.0, 1.0, 'Summer sausage', 'Summer Sausage', '{"meat":[{}]}', 'more pork', '2026-10-10T12:02:00.000Z', 'MK');
INSERT INTO "made_batch" VALUES (1.0, 2026.0, 1.0, 'M26-001', 1.0, 1.0, '2026-10-10T13:00:00.000Z', 'MK');
INSERT INTO "made_batch" VALUES (2.0, 2026.0, 2.0, 'M26-002', 1.0, 1.0, '2026-10-10T13:00:01.000Z', 'MK');
INSERT INTO "made_batch_void" VALUES (2.0, 'opened twice', '2026-10-10T13:00:30.000Z', 'MK');
INSERT INTO "made_start" VALUES (1.0, 1.0, 2.0, '40', 18143.6948, '{"amounts":[]}', '2026-10-10T13:10:00.000Z', 'RB');
INSERT INTO "made_weighed" VALUES (1.0, 1.0, 1.0, '45 g', 45.0, 0.0, 'g', 45.0, 'L-118', 'scale', '2026-10-10T13:12:00.000Z', 'RB');
INSERT INTO "made_weighed" VALUES (2.0, 1.0, 1.0, '450 g', 450.0, 0.0, 'g', 450.0, 'L-118', 'typed', '2026-10-10T13:13:00.000Z', 'RB');
INSERT INTO "made_weighed_void" VALUES (2.0, 'ten times too much', '2026-10-10T13:13:30.000Z', 'RB');
INSERT INTO "made_stage" VALUES (1.0, 1.0, 'stuffed', 14.0, '41.5', 415.0, 1.0, 'lb', 18824.083355, 'typed', '2026-10-10T15:00:00.000Z', 'RB');
INSERT INTO "made_stage" VALUES (2.0, 1.0, 'cooked', 14.0, '315', 315.0, 0.0, 'lb', 142881.59655, 'typed', '2026-10-11T15:00:00.000Z', 'RB');
INSERT INTO "made_stage_void" VALUES (2.0, 'decimal point', '2026-10-11T15:01:00.000Z', 'RB');
INSERT INTO "made_analysis" VALUES (1.0, 1.0, 'water activity', '0.95', 0.95, 'meter', '2026-10-12T15:00:00.000Z', 'MK');
INSERT INTO "made_analysis" VALUES (2.0, 1.0, 'ph', '50', 50.0, 'meter', '2026-10-12T15:01:00.000Z', 'MK');
INSERT INTO "made_analysis_void" VALUES (2.0, 'decimal point', '2026-10-12T15:02:00.000Z', 'MK');
INSERT INTO "made_package" VALUES (6.0, 1.0, '2026-10-12T16:00:00.000Z', 'MK');
INSERT INTO "load" VALUES (1.0, 2026.0, 1.0, 'L26-001', 'big smokehouse', '2026-10-10T16:00:00.000Z', 'RB');
INSERT INTO "load_batch" VALUES (1.0, 1.0, 1.0, '2026-10-10T16:00:00.000Z', 'RB');
INSERT INTO "load_batch" VALUES (2.0, 1.0, 2.0, '2026-10-10T16:00:01.000Z', 'RB');
INSERT INTO "load_batch_void" VALUES (2.0, 'hangs elsewhere', '2026-10-10T16:00:30.000Z', 'RB');
INSERT INTO "load_record" VALUES (1.0, 1.0, 'open', '{"level":"log65"}', '', '2026-10-10T16:01:00.000Z', 'RB');
INSERT INTO "load_log" VALUES (1.0, 1.0, 'both', 'P1', 'F', 'file', 'cook.csv', 'ab', '2026-10-11T12:00:00.000Z', 'RB');
INSERT INTO "load_log" VALUES (2.0, 1.0, 'both', 'P2', 'F', 'typed', '', '', '2026-10-11T12:00:01.000Z', 'RB');
INSERT INTO "load_log_void" VALUES (2.0, 'of another load', '2026-10-11T12:01:00.000Z', 'RB');
INSERT INTO "load_reading" VALUES (1.0, 1.0, '2026-10-10T20:00:00.000Z', '152.4', 152.4, '2026-10-11T12:00:00.000Z', 'RB');
INSERT INTO "load_reading" VALUES (2.0, 1.0, '2026-10-10T20:05:00.000Z', '---', NULL, '2026-10-11T12:00:00.000Z', 'RB');
INSERT INTO "load_reading" VALUES (3.0, 2.0, '2026-10-10T20:05:00.000Z', '151', 151.0, '2026-10-11T12:00:01.000Z', 'RB');
INSERT INTO "load_exclusion" VALUES (1.0, 2.0, 'probe was pulled out', '2026-10-11T12:02:00.000Z', 'RB');
INSERT INTO "load_exclusion" VALUES (2.0, 1.0, 'wrong row', '2026-10-11T12:03:00.000Z', 'RB');
INSERT INTO "load_exclusion_void" VALUES (2.0, 'it counts', '2026-10-11T12:04:00.000Z', 'RB');
INSERT INTO "load_verdict" VALUES (1.0, 1.0, 'not-proven', 'not-proven', '1 2 2', '{"missing":["log.gap"]}', '2026-10-11T12:05:00.000Z', 'RB');
INSERT INTO "deviation" VALUES (1.0, 1.0, NULL, 'cook again', 'Mika Koski', 'the logger stopped', '2026-10-11T12:10:00.000Z', 'MK');
INSERT INTO "deviation" VALUES (2.0, NULL, 1.0, 'discard', 'Mika Koski', 'fell on the floor', '2026-10-11T12:11:00.000Z', 'MK');
INSERT INTO "deviation_void" VALUES (2.0, 'of another batch', '2026-10-11T12:12:00.000Z', 'MK');
INSERT INTO "station" VALUES (1.0, '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 'https://192.168.1.5:47115', 'Safari', '2026-10-12T17:00:00.000Z', 'MK');
INSERT INTO "station_name" VALUES (1.0, 1.0, 'Table', 'table', 'en-US', '2026-10-12T17:00:00.000Z', 'MK');
INSERT INTO "station_name" VALUES (2.0, 1.0, 'Table 2', 'table', 'es-MX', '2026-10-12T17:01:00.000Z', 'MK');
INSERT INTO "station_state" VALUES (1.0, 1.0, 'paused', 'left in the truck', '2026-10-12T17:02:00.000Z', 'MK');
INSERT INTO "station_state" VALUES (2.0, 1.0, 'open', 'found', '2026-10-12T17:03:00.000Z', 'MK');
INSERT INTO "station_line" VALUES (1.0, 1.0, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b01', '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO "station_entry" VALUES (1.0, 1.0, 1.0, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b02', '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 1.0, 'table.weigh', '{"ok":true,"value":{"id":1}}', 'RB', 0.0, '2026-10-12T16:50:00.000Z', 2000.0, '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO "station_write" VALUES (1.0, 1.0, 'table.weigh', '1', 'RB', 0.0, '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO "staff_pin" VALUES (1.0, 'RB', 'c2FsdA', 'aGFzaA', '2026-10-12T17:05:00.000Z', 'MK');
INSERT INTO "staff_pin" VALUES (2.0, 'RB', '', NULL, '2026-10-12T17:06:00.000Z', 'MK');
INSERT INTO "draft" VALUES (1.0, 1.0, 'es-MX', 'Dana Whitlock', '307-555-0142', 'WY-1', 'T-9', 'elk', 'male', '2026-09-30', 'Area 7', '{"note":"thick steaks"}', 'Pick up within 5 days.', 'M10,10L40,60', NULL, '2026-10-01T13:50:00.000Z', '', NULL, 0.0, '', NULL);
INSERT INTO "draft" VALUES (2.0, NULL, 'en-US', 'Pat Reed', '', '', '', 'mule-deer', 'unknown', NULL, '', NULL, '', '', NULL, '2026-10-01T13:55:00.000Z', 'MK', NULL, 0.0, '', NULL);
INSERT INTO "draft" VALUES (3.0, NULL, 'fr-CA', 'Luc Morin', '', '', 'B-3', 'elk', 'male', NULL, '', NULL, '', '', NULL, '2026-10-02T05:00:00.000Z', '', 2.0, 1.0, '', NULL);
INSERT INTO "draft" VALUES (4.0, 1.0, 'es-MX', 'Rosa Vega', '', '', '', 'elk', 'female', NULL, '', NULL, 'Recoja en 5 días.', 'M1,1L2,2', NULL, '2026-10-02T05:10:00.000Z', '', NULL, 0.0, 'es-MX', '2026-09-01T12:00:00.000Z');
INSERT INTO "draft_state" VALUES (1.0, 1.0, 'taken', 1.0, '', '2026-10-01T14:00:00.000Z', 'MK');
INSERT INTO "draft_state" VALUES (2.0, 2.0, 'dismissed', NULL, 'left again', '2026-10-01T14:10:00.000Z', 'MK');
INSERT INTO "draft_state" VALUES (3.0, 2.0, 'open', NULL, '', '2026-10-01T14:11:00.000Z', 'MK');
INSERT INTO "station_made" VALUES (1.0, 1.0, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b03', 'intake.takeIn', 1.0, '2026-10-12T17:08:00.000Z', 'RB');
INSERT INTO "photograph" VALUES (1.0, 1.0, 'tag', '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 182000.0, 1200.0, 1600.0, 1.0, '2026-10-01T14:01:00.000Z', '2026-10-01T14:02:00.000Z', 'MK');
INSERT INTO "photograph" VALUES (2.0, 2.0, 'damage', 'a79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046de3f', 90000.0, 1600.0, 900.0, NULL, '2026-10-02T14:01:00.000Z', '2026-10-02T14:02:00.000Z', 'RB');
INSERT INTO "photograph" VALUES (3.0, 2.0, 'animal', 'b79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046de3f', 90000.0, 1600.0, 900.0, NULL, '2026-10-02T14:03:00.000Z', '2026-10-02T14:03:00.000Z', 'RB');
INSERT INTO "photograph_void" VALUES (2.0, 'of another animal', '2026-10-02T14:05:00.000Z', 'RB');
INSERT INTO "photograph_removal" VALUES (3.0, '2026-10-13T14:05:00.000Z', 'MK');
INSERT INTO "slip" VALUES (1.0, '483-201-957', '2026-10-01T20:00:00.000Z', 'MK');
INSERT INTO "slip" VALUES (2.0, '004-000-112', '2026-10-01T20:00:00.000Z', 'MK');
INSERT INTO "slip_animal" VALUES (1.0, 1.0, '2026-10-02T14:00:00.000Z', 'MK');
INSERT INTO "lesson_given" VALUES (1.0, '1f0c7e52-52b4-4d5c-8f0c-0d8f0e0f9a11', '{"yields":[]}', '2026-11-30T18:00:00.000Z', 'MK');
INSERT INTO "lesson" VALUES (1.0, '5b7a3c4e-9d21-4e0a-a1b2-7c6d5e4f3a2b', 'The shop in town', 'file', '2026-11-28', 412.0, 37.0, '{"yields":[]}', '2026-11-30T18:05:00.000Z', 'MK');
INSERT INTO "lesson_use" VALUES (1.0, 1.0, 0.0, '2026-11-30T18:06:00.000Z', 'MK');
CREATE INDEX hunter_by_name ON hunter (name_key);
CREATE INDEX animal_by_hunter ON animal (hunter_id);
CREATE INDEX animal_by_stage ON animal (stage, received_on);
CREATE INDEX animal_by_species ON animal (species, season);
CREATE INDEX weighing_by_animal ON weighing (animal_id, stage, part);
CREATE INDEX weighing_by_batch ON weighing (batch_id, stage);
CREATE INDEX fat_movement_by_lot ON fat_movement (lot_id);
CREATE INDEX fat_movement_by_weighing ON fat_movement (weighing_id);
CREATE INDEX batch_animal_by_animal ON batch_animal (animal_id);
CREATE INDEX hold_by_animal ON hold (animal_id);
CREATE INDEX instruction_by_animal ON instruction (animal_id);
CREATE INDEX grind_pass_by_batch ON grind_pass (batch_id);
CREATE INDEX fat_test_by_batch ON fat_test (batch_id);
CREATE INDEX payment_by_animal ON payment (animal_id);
CREATE INDEX call_note_by_animal ON call_note (animal_id);
CREATE INDEX bill_by_animal ON bill (animal_id);
CREATE INDEX cooler_temperature_by_cooler ON cooler_temperature (cooler_id, at);
CREATE INDEX audit_by_record ON audit (record, record_id);
CREATE VIEW weighing_now AS
  SELECT w.* FROM weighing w WHERE NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id);
CREATE VIEW animal_weight AS
  SELECT animal_id,
    sum(iif(stage = 'received', grams, NULL)) AS received,
    sum(iif(stage = 'hanging', grams, NULL)) AS hanging,
    sum(iif(stage = 'cut' AND part = 'whole cuts', grams, NULL)) AS whole_cuts,
    sum(iif(stage = 'cut' AND part = 'trim', grams, NULL)) AS trim,
    sum(iif(stage = 'cut' AND part = 'fat saved', grams, NULL)) AS fat_saved,
    sum(iif(stage = 'cut' AND part = 'sinew', grams, NULL)) AS sinew,
    sum(iif(stage = 'cut' AND part = 'bone', grams, NULL)) AS bone,
    sum(iif(stage = 'cut' AND part = 'damage', grams, NULL)) AS damage,
    sum(iif(stage = 'grinder' AND part = 'trim', grams, 0.0)) AS trim_ground,
    sum(iif(stage = 'grinder' AND part = 'fat saved', grams, 0.0)) AS own_fat_ground,
    sum(iif(stage = 'packed', grams, NULL)) AS packed
  FROM weighing_now WHERE animal_id IS NOT NULL GROUP BY animal_id;
CREATE TRIGGER weighing_no_update BEFORE UPDATE ON weighing
  BEGIN SELECT RAISE(ABORT, 'weighing is written once'); END;
CREATE TRIGGER weighing_no_delete BEFORE DELETE ON weighing
  BEGIN SELECT RAISE(ABORT, 'weighing is written once'); END;
CREATE TRIGGER weighing_void_no_delete BEFORE DELETE ON weighing_void
  BEGIN SELECT RAISE(ABORT, 'weighing_void is written once'); END;
CREATE TRIGGER fat_movement_no_delete BEFORE DELETE ON fat_movement
  BEGIN SELECT RAISE(ABORT, 'fat_movement is written once'); END;
CREATE TRIGGER price_book_no_update BEFORE UPDATE ON price_book
  BEGIN SELECT RAISE(ABORT, 'price_book is written once'); END;
CREATE TRIGGER price_book_no_delete BEFORE DELETE ON price_book
  BEGIN SELECT RAISE(ABORT, 'price_book is written once'); END;
CREATE TRIGGER price_line_no_update BEFORE UPDATE ON price_line
  BEGIN SELECT RAISE(ABORT, 'price_line is written once'); END;
CREATE TRIGGER price_line_no_delete BEFORE DELETE ON price_line
  BEGIN SELECT RAISE(ABORT, 'price_line is written once'); END;
CREATE TRIGGER quote_no_delete BEFORE DELETE ON quote
  BEGIN SELECT RAISE(ABORT, 'quote is written once'); END;
CREATE TRIGGER bill_no_update BEFORE UPDATE ON bill
  BEGIN SELECT RAISE(ABORT, 'bill is written once'); END;
CREATE TRIGGER bill_no_delete BEFORE DELETE ON bill
  BEGIN SELECT RAISE(ABORT, 'bill is written once'); END;
CREATE TRIGGER bill_line_no_update BEFORE UPDATE ON bill_line
  BEGIN SELECT RAISE(ABORT, 'bill_line is written once'); END;
CREATE TRIGGER bill_line_no_delete BEFORE DELETE ON bill_line
  BEGIN SELECT RAISE(ABORT, 'bill_line is written once'); END;
CREATE TRIGGER bill_void_no_delete BEFORE DELETE ON bill_void
  BEGIN SELECT RAISE(ABORT, 'bill_void is written once'); END;
CREATE TRIGGER payment_no_update BEFORE UPDATE ON payment
  BEGIN SELECT RAISE(ABORT, 'payment is written once'); END;
CREATE TRIGGER payment_no_delete BEFORE DELETE ON payment
  BEGIN SELECT RAISE(ABORT, 'payment is written once'); END;
CREATE TRIGGER payment_void_no_delete BEFORE DELETE ON payment_void
  BEGIN SELECT RAISE(ABORT, 'payment_void is written once'); END;
CREATE TRIGGER call_note_no_update BEFORE UPDATE ON call_note
  BEGIN SELECT RAISE(ABORT, 'call_note is written once'); END;
CREATE TRIGGER call_note_no_delete BEFORE DELETE ON call_note
  BEGIN SELECT RAISE(ABORT, 'call_note is written once'); END;
CREATE TRIGGER hold_no_delete BEFORE DELETE ON hold
  BEGIN SELECT RAISE(ABORT, 'hold is written once'); END;
CREATE TRIGGER instruction_no_delete BEFORE DELETE ON instruction
  BEGIN SELECT RAISE(ABORT, 'instruction is written once'); END;
CREATE TRIGGER grind_pass_no_update BEFORE UPDATE ON grind_pass
  BEGIN SELECT RAISE(ABORT, 'grind_pass is written once'); END;
CREATE TRIGGER grind_pass_no_delete BEFORE DELETE ON grind_pass
  BEGIN SELECT RAISE(ABORT, 'grind_pass is written once'); END;
CREATE TRIGGER fat_test_no_update BEFORE UPDATE ON fat_test
  BEGIN SELECT RAISE(ABORT, 'fat_test is written once'); END;
CREATE TRIGGER fat_test_no_delete BEFORE DELETE ON fat_test
  BEGIN SELECT RAISE(ABORT, 'fat_test is written once'); END;
CREATE TRIGGER cooler_temperature_no_update BEFORE UPDATE ON cooler_temperature
  BEGIN SELECT RAISE(ABORT, 'cooler_temperature is written once'); END;
CREATE TRIGGER cooler_temperature_no_delete BEFORE DELETE ON cooler_temperature
  BEGIN SELECT RAISE(ABORT, 'cooler_temperature is written once'); END;
CREATE TRIGGER cooler_temperature_void_no_delete BEFORE DELETE ON cooler_temperature_void
  BEGIN SELECT RAISE(ABORT, 'cooler_temperature_void is written once'); END;
CREATE TRIGGER audit_no_delete BEFORE DELETE ON audit
  BEGIN SELECT RAISE(ABORT, 'audit is written once'); END;
CREATE INDEX animal_sum_by_season ON animal_sum (season, species);
CREATE INDEX animal_sum_by_share ON animal_sum (species, season, share, brought, sex, age, damaged, detail, cutter, received_on)
  WHERE share IS NOT NULL;
CREATE INDEX batch_source_sum_by_animal ON batch_source_sum (animal_id) WHERE animal_id > 0;
CREATE VIEW batch_source_sum_now AS
  SELECT batch_id, coalesce(animal_id, 0) AS animal_id, coalesce(fat_lot_id, 0) AS fat_lot_id, sum(grams) AS grams
  FROM weighing_now WHERE stage = 'grinder' AND batch_id IS NOT NULL GROUP BY 1, 2, 3;
CREATE VIEW batch_sum_now AS
  SELECT b.id AS batch_id, b.season, b.started_on, b.product, b.state,
    coalesce((SELECT sum(s.grams) FROM batch_source_sum s WHERE s.batch_id = b.id AND s.animal_id > 0), 0.0) AS own,
    coalesce((SELECT sum(s.grams) FROM batch_source_sum s WHERE s.batch_id = b.id AND s.animal_id = 0), 0.0) AS bought,
    coalesce((SELECT sum(w.grams) FROM weighing_now w WHERE w.batch_id = b.id AND w.stage = 'packed'), 0.0) AS out
  FROM batch b;
CREATE INDEX batch_sum_by_season ON batch_sum (season);
CREATE INDEX weighing_by_lot ON weighing (fat_lot_id) WHERE fat_lot_id IS NOT NULL;
CREATE INDEX batch_by_season ON batch (season);
CREATE INDEX animal_by_number ON animal (number);
CREATE TRIGGER animal_sum_of_new AFTER INSERT ON animal BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.id;
END;
CREATE TRIGGER animal_sum_of_changed AFTER UPDATE ON animal BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.id;
END;
CREATE TRIGGER batch_sum_of_new AFTER INSERT ON batch BEGIN
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.id;
END;
CREATE TRIGGER batch_sum_of_changed AFTER UPDATE ON batch BEGIN
  DELETE FROM batch_source_sum WHERE batch_id = NEW.id;
  INSERT INTO batch_source_sum SELECT * FROM batch_source_sum_now WHERE batch_id = NEW.id;
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.id;
END;
CREATE TRIGGER batch_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.batch_id IS NOT NULL BEGIN
  DELETE FROM batch_source_sum WHERE batch_id = NEW.batch_id;
  INSERT INTO batch_source_sum SELECT * FROM batch_source_sum_now WHERE batch_id = NEW.batch_id;
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.batch_id;
END;
CREATE TRIGGER batch_sum_of_voided AFTER INSERT ON weighing_void BEGIN
  UPDATE batch SET state = state WHERE id = (SELECT w.batch_id FROM weighing w WHERE w.id = NEW.weighing_id);
END;
CREATE INDEX animal_by_old_number ON animal (old_number) WHERE old_number <> '';
CREATE INDEX cooler_stay_by_animal ON cooler_stay (animal_id);
CREATE INDEX quote_by_hunter ON quote (hunter_id);
CREATE TRIGGER brought_in_no_update BEFORE UPDATE ON brought_in
  BEGIN SELECT RAISE(ABORT, 'brought_in is written once'); END;
CREATE TRIGGER brought_in_no_delete BEFORE DELETE ON brought_in
  BEGIN SELECT RAISE(ABORT, 'brought_in is written once'); END;
CREATE TRIGGER brought_in_undone_no_update BEFORE UPDATE ON brought_in_undone
  BEGIN SELECT RAISE(ABORT, 'brought_in_undone is written once'); END;
CREATE TRIGGER brought_in_undone_no_delete BEFORE DELETE ON brought_in_undone
  BEGIN SELECT RAISE(ABORT, 'brought_in_undone is written once'); END;
CREATE INDEX fat_lot_sum_by_left ON fat_lot_sum (left_grams) WHERE left_grams > 0;
CREATE TRIGGER fat_lot_sum_of_new AFTER INSERT ON fat_lot BEGIN
  INSERT OR REPLACE INTO fat_lot_sum SELECT * FROM fat_lot_sum_now WHERE lot_id = NEW.id;
END;
CREATE TRIGGER fat_lot_sum_of_moved AFTER INSERT ON fat_movement BEGIN
  INSERT OR REPLACE INTO fat_lot_sum SELECT * FROM fat_lot_sum_now WHERE lot_id = NEW.lot_id;
END;
CREATE VIEW fat_on_hand AS
  SELECT l.*, s.left_grams, s.start_grams FROM fat_lot l JOIN fat_lot_sum s ON s.lot_id = l.id;
CREATE VIEW cut_sum_now AS
  SELECT i.animal_id, i.body ->> '$.cutsShare' AS cuts_ordered,
    coalesce((SELECT sum(p.grams) FROM weighing_now p
      WHERE p.animal_id = i.animal_id AND p.stage = 'packed' AND (p.product = i.body ->> '$.grindProduct'
        OR p.product IN (SELECT g.value ->> '$.product' FROM json_each(i.body, '$.alsoGround') g))), 0.0) AS packed_ground
  FROM instruction i WHERE i.id = (SELECT max(n.id) FROM instruction n WHERE n.animal_id = i.animal_id);
CREATE TRIGGER cut_sum_of_instruction AFTER INSERT ON instruction BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER cut_sum_of_packed AFTER INSERT ON weighing WHEN NEW.stage = 'packed' AND NEW.animal_id IS NOT NULL BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER cut_sum_of_voided AFTER INSERT ON weighing_void
WHEN (SELECT w.stage FROM weighing w WHERE w.id = NEW.weighing_id) = 'packed' BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now
  WHERE animal_id = (SELECT w.animal_id FROM weighing w WHERE w.id = NEW.weighing_id);
END;
CREATE TRIGGER season_taught_is_old AFTER INSERT ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = NEW.season;
END;
CREATE TRIGGER season_taught_is_less AFTER DELETE ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = OLD.season;
END;
CREATE TRIGGER season_taught_is_ordered_anew AFTER INSERT ON cut_sum BEGIN
  DELETE FROM season_taught WHERE season = (SELECT a.season FROM animal a WHERE a.id = NEW.animal_id);
END;
CREATE VIEW cooler_temperature_now AS
  SELECT t.* FROM cooler_temperature t
  WHERE NOT EXISTS (SELECT 1 FROM cooler_temperature_void v WHERE v.temperature_id = t.id)
    AND NOT EXISTS (SELECT 1 FROM cooler_log_undone u JOIN cooler_log l ON l.id = u.cooler_log_id
      WHERE t.id BETWEEN l.temperature_first AND l.temperature_last);
CREATE TRIGGER cooler_log_no_update BEFORE UPDATE ON cooler_log
  BEGIN SELECT RAISE(ABORT, 'cooler_log is written once'); END;
CREATE TRIGGER cooler_log_no_delete BEFORE DELETE ON cooler_log
  BEGIN SELECT RAISE(ABORT, 'cooler_log is written once'); END;
CREATE TRIGGER cooler_log_undone_no_update BEFORE UPDATE ON cooler_log_undone
  BEGIN SELECT RAISE(ABORT, 'cooler_log_undone is written once'); END;
CREATE TRIGGER cooler_log_undone_no_delete BEFORE DELETE ON cooler_log_undone
  BEGIN SELECT RAISE(ABORT, 'cooler_log_undone is written once'); END;
CREATE TRIGGER cooler_stay_no_update BEFORE UPDATE ON cooler_stay
  BEGIN SELECT RAISE(ABORT, 'cooler_stay is written once'); END;
CREATE TRIGGER cooler_stay_no_delete BEFORE DELETE ON cooler_stay
  BEGIN SELECT RAISE(ABORT, 'cooler_stay is written once'); END;
CREATE VIEW animal_to_add_up (animal_id) AS SELECT animal_id FROM animal_sum;
CREATE TRIGGER animal_sum_added_up INSTEAD OF INSERT ON animal_to_add_up WHEN NEW.animal_id IS NOT NULL BEGIN
  INSERT INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.animal_id
  ON CONFLICT (animal_id) DO UPDATE SET damaged = excluded.damaged, cutter = excluded.cutter, cut_at = excluded.cut_at, received = excluded.received, hanging = excluded.hanging, whole_cuts = excluded.whole_cuts, trim = excluded.trim, fat_saved = excluded.fat_saved, sinew = excluded.sinew, bone = excluded.bone, damage = excluded.damage, trim_ground = excluded.trim_ground, own_fat_ground = excluded.own_fat_ground, packed = excluded.packed, base = excluded.base, take_home = excluded.take_home, finished = excluded.finished, share = excluded.share;
END;
CREATE TRIGGER animal_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.animal_id IS NOT NULL BEGIN
  INSERT INTO animal_to_add_up VALUES (NEW.animal_id);
END;
CREATE TRIGGER animal_sum_of_voided AFTER INSERT ON weighing_void BEGIN
  INSERT INTO animal_to_add_up SELECT w.animal_id FROM weighing w WHERE w.id = NEW.weighing_id;
END;
CREATE TRIGGER season_taught_is_other AFTER UPDATE ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = NEW.season;
END;
CREATE VIEW hunter_word_lookup_now AS
  SELECT DISTINCT w.value AS word, h.name_key, h.id AS hunter_id
  FROM hunter h, json_each('[' || replace(json_quote(h.name_key), ' ', '","') || ']') w WHERE w.value <> '';
CREATE VIEW word_lookup_now AS SELECT DISTINCT word FROM hunter_word_lookup;
CREATE VIEW hunter_digits_lookup_now AS
  SELECT DISTINCT substr(h.phone_key, 1 + n.key) AS digits, h.id AS hunter_id
  FROM hunter h, json_each('[0' || replace(hex(zeroblob(length(h.phone_key) - 3)), '00', ',0') || ']') n WHERE length(h.phone_key) >= 3;
CREATE INDEX batch_open ON batch (id) WHERE state = 'open';
CREATE TRIGGER word_lookup_of_new AFTER INSERT ON hunter_word_lookup BEGIN
  INSERT OR IGNORE INTO word_lookup VALUES (NEW.word);
END;
CREATE TRIGGER word_lookup_of_gone AFTER DELETE ON hunter_word_lookup
WHEN NOT EXISTS (SELECT 1 FROM hunter_word_lookup o WHERE o.word = OLD.word) BEGIN
  DELETE FROM word_lookup WHERE word = OLD.word;
END;
CREATE TRIGGER hunter_lookup_of_new AFTER INSERT ON hunter BEGIN
  INSERT INTO hunter_word_lookup SELECT * FROM hunter_word_lookup_now WHERE hunter_id = NEW.id;
  INSERT INTO hunter_digits_lookup SELECT * FROM hunter_digits_lookup_now WHERE hunter_id = NEW.id;
END;
CREATE TRIGGER hunter_lookup_of_changed AFTER UPDATE ON hunter
WHEN NEW.name_key <> OLD.name_key OR NEW.phone_key <> OLD.phone_key BEGIN
  DELETE FROM hunter_word_lookup
    WHERE word IN (SELECT value FROM json_each('[' || replace(json_quote(OLD.name_key), ' ', '","') || ']')) AND name_key = OLD.name_key AND hunter_id = OLD.id;
  DELETE FROM hunter_digits_lookup
    WHERE digits IN (SELECT substr(OLD.phone_key, 1 + key) FROM json_each('[0' || replace(hex(zeroblob(length(OLD.phone_key) - 3)), '00', ',0') || ']')) AND hunter_id = OLD.id;
  INSERT INTO hunter_word_lookup SELECT * FROM hunter_word_lookup_now WHERE hunter_id = NEW.id;
  INSERT INTO hunter_digits_lookup SELECT * FROM hunter_digits_lookup_now WHERE hunter_id = NEW.id;
END;
CREATE TRIGGER hunter_lookup_of_gone AFTER DELETE ON hunter BEGIN
  DELETE FROM hunter_word_lookup
    WHERE word IN (SELECT value FROM json_each('[' || replace(json_quote(OLD.name_key), ' ', '","') || ']')) AND name_key = OLD.name_key AND hunter_id = OLD.id;
  DELETE FROM hunter_digits_lookup
    WHERE digits IN (SELECT substr(OLD.phone_key, 1 + key) FROM json_each('[0' || replace(hex(zeroblob(length(OLD.phone_key) - 3)), '00', ',0') || ']')) AND hunter_id = OLD.id;
END;
CREATE INDEX hold_result_by_hold ON hold_result (hold_id);
CREATE INDEX grinder_cleaning_by_moment ON grinder_cleaning (at);
CREATE TRIGGER hold_result_no_delete BEFORE DELETE ON hold_result
  BEGIN SELECT RAISE(ABORT, 'hold_result is written once'); END;
CREATE TRIGGER grinder_cleaning_no_update BEFORE UPDATE ON grinder_cleaning
  BEGIN SELECT RAISE(ABORT, 'grinder_cleaning is written once'); END;
CREATE TRIGGER grinder_cleaning_no_delete BEFORE DELETE ON grinder_cleaning
  BEGIN SELECT RAISE(ABORT, 'grinder_cleaning is written once'); END;
CREATE TRIGGER grinder_cleaning_void_no_delete BEFORE DELETE ON grinder_cleaning_void
  BEGIN SELECT RAISE(ABORT, 'grinder_cleaning_void is written once'); END;
CREATE INDEX former_ticket_by_number ON former_ticket (season, number);
CREATE INDEX former_ticket_by_animal ON former_ticket (animal_id);
CREATE INDEX animal_by_received ON animal (received_on);
CREATE TRIGGER former_ticket_no_update BEFORE UPDATE ON former_ticket
  BEGIN SELECT RAISE(ABORT, 'former_ticket is written once'); END;
CREATE TRIGGER former_ticket_no_delete BEFORE DELETE ON former_ticket
  BEGIN SELECT RAISE(ABORT, 'former_ticket is written once'); END;
CREATE TRIGGER season_taught_is_left AFTER UPDATE OF season ON animal WHEN OLD.season <> NEW.season BEGIN
  DELETE FROM season_taught WHERE season = OLD.season;
END;
CREATE INDEX part_none_by_animal ON part_none (animal_id, part);
CREATE TRIGGER part_none_no_update BEFORE UPDATE ON part_none
  BEGIN SELECT RAISE(ABORT, 'part_none is written once'); END;
CREATE TRIGGER part_none_no_delete BEFORE DELETE ON part_none
  BEGIN SELECT RAISE(ABORT, 'part_none is written once'); END;
CREATE TRIGGER part_none_void_no_delete BEFORE DELETE ON part_none_void
  BEGIN SELECT RAISE(ABORT, 'part_none_void is written once'); END;
CREATE VIEW part_none_now AS
  SELECT n.* FROM part_none n WHERE NOT EXISTS (SELECT 1 FROM part_none_void v WHERE v.none_id = n.id);
CREATE TRIGGER animal_sum_of_none AFTER INSERT ON part_none BEGIN
  INSERT INTO animal_to_add_up VALUES (NEW.animal_id);
END;
CREATE TRIGGER animal_sum_of_none_voided AFTER INSERT ON part_none_void BEGIN
  INSERT INTO animal_to_add_up SELECT n.animal_id FROM part_none n WHERE n.id = NEW.none_id;
END;
CREATE INDEX release_by_animal ON release (animal_id);
CREATE INDEX release_mend_by_release ON release_mend (release_id);
CREATE INDEX disposal_by_animal ON disposal (animal_id);
CREATE TRIGGER release_no_update BEFORE UPDATE ON release
  BEGIN SELECT RAISE(ABORT, 'release is written once'); END;
CREATE TRIGGER release_no_delete BEFORE DELETE ON release
  BEGIN SELECT RAISE(ABORT, 'release is written once'); END;
CREATE TRIGGER release_mend_no_update BEFORE UPDATE ON release_mend
  BEGIN SELECT RAISE(ABORT, 'release_mend is written once'); END;
CREATE TRIGGER release_mend_no_delete BEFORE DELETE ON release_mend
  BEGIN SELECT RAISE(ABORT, 'release_mend is written once'); END;
CREATE TRIGGER release_void_no_delete BEFORE DELETE ON release_void
  BEGIN SELECT RAISE(ABORT, 'release_void is written once'); END;
CREATE TRIGGER disposal_no_delete BEFORE DELETE ON disposal
  BEGIN SELECT RAISE(ABORT, 'disposal is written once'); END;
CREATE TRIGGER disposal_void_no_delete BEFORE DELETE ON disposal_void
  BEGIN SELECT RAISE(ABORT, 'disposal_void is written once'); END;
CREATE VIEW release_now AS
  SELECT r.id, r.animal_id, coalesce(m.given_to, r.given_to) AS given_to,
    coalesce(m.released_on, r.released_on) AS released_on, r.unpaid_override, r.note, r.at, r.by
  FROM release r LEFT JOIN release_mend m
    ON m.id = (SELECT max(newest.id) FROM release_mend newest WHERE newest.release_id = r.id)
  WHERE NOT EXISTS (SELECT 1 FROM release_void v WHERE v.release_id = r.id);
CREATE VIEW disposal_now AS
  SELECT d.* FROM disposal d WHERE NOT EXISTS (SELECT 1 FROM disposal_void v WHERE v.disposal_id = d.id);
CREATE INDEX hold_end_by_hold ON hold_end (hold_id);
CREATE TRIGGER hold_end_no_update BEFORE UPDATE ON hold_end
  BEGIN SELECT RAISE(ABORT, 'hold_end is written once'); END;
CREATE TRIGGER hold_end_no_delete BEFORE DELETE ON hold_end
  BEGIN SELECT RAISE(ABORT, 'hold_end is written once'); END;
CREATE VIEW hold_now AS
  SELECT h.id, h.animal_id, h.reason, h.sample, h.at, h.by,
    (coalesce(r.result, e.outcome) IS 'positive') AS positive
  FROM hold h
  LEFT JOIN hold_end e ON e.id = (SELECT max(n.id) FROM hold_end n WHERE n.hold_id = h.id)
  LEFT JOIN hold_result r ON r.id = (SELECT max(n.id) FROM hold_result n WHERE n.hold_id = h.id)
  WHERE CASE
    WHEN r.result = 'positive' THEN 1
    WHEN r.result = 'not detected' THEN 0
    WHEN e.outcome = 'withdrawn' THEN 0
    WHEN r.result = 'none' THEN 1
    ELSE e.id IS NULL OR e.outcome = 'positive' END;
CREATE VIEW fat_lot_sum_now AS
  SELECT l.id AS lot_id, coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id), 0.0) AS left_grams,
    coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id AND (m.kind IN ('bought', 'saved')
      OR m.kind = 'voided' AND m.weighing_id IN (SELECT s.weighing_id FROM fat_movement s WHERE s.lot_id = l.id AND s.kind = 'saved'))), 0.0) AS start_grams
  FROM fat_lot l;
CREATE INDEX intake_cancel_by_animal ON intake_cancel (animal_id);
CREATE VIEW intake_cancel_now AS
  SELECT r.* FROM intake_cancel r WHERE NOT EXISTS (SELECT 1 FROM intake_cancel_void v WHERE v.cancel_id = r.id);
CREATE VIEW animal_sum_now AS
WITH summed AS (
  -- As in animal_weight, but from the animal on: one with nothing weighed has a row too.
  SELECT a.id AS animal_id, a.season, a.species, a.brought, a.sex, a.age, a.detail, a.stage, a.received_on, a.ready_on,
    a.damage AS damage_note,
    min(iif(w.stage IN ('primal', 'cut', 'packed'), w.at, NULL)) AS cut_at,
    sum(iif(w.stage = 'received', w.grams, NULL)) AS received,
    sum(iif(w.stage = 'hanging', w.grams, NULL)) AS hanging,
    sum(iif(w.stage = 'cut' AND w.part = 'whole cuts', w.grams, NULL)) AS whole_cuts,
    sum(iif(w.stage = 'cut' AND w.part = 'trim', w.grams, NULL)) AS trim,
    -- Own fat that went into the grinder was weighed there.
    coalesce(sum(iif(w.stage = 'cut' AND w.part = 'fat saved', w.grams, NULL)),
      iif(sum(iif(w.stage = 'grinder' AND w.part = 'fat saved', w.grams, 0.0)) = 0, (SELECT 0.0 FROM part_none_now n WHERE n.animal_id = a.id AND n.part = 'fat saved' LIMIT 1), NULL)) AS fat_saved,
    coalesce(sum(iif(w.stage = 'cut' AND w.part = 'sinew', w.grams, NULL)), (SELECT 0.0 FROM part_none_now n WHERE n.animal_id = a.id AND n.part = 'sinew' LIMIT 1)) AS sinew,
    coalesce(sum(iif(w.stage = 'cut' AND w.part = 'bone', w.grams, NULL)), (SELECT 0.0 FROM part_none_now n WHERE n.animal_id = a.id AND n.part = 'bone' LIMIT 1)) AS bone,
    coalesce(sum(iif(w.stage = 'cut' AND w.part = 'damage', w.grams, NULL)), (SELECT 0.0 FROM part_none_now n WHERE n.animal_id = a.id AND n.part = 'damage' LIMIT 1)) AS damage,
    sum(iif(w.stage = 'grinder' AND w.part = 'trim', w.grams, 0.0)) AS trim_ground,
    sum(iif(w.stage = 'grinder' AND w.part = 'fat saved', w.grams, 0.0)) AS own_fat_ground,
    sum(iif(w.stage = 'packed', w.grams, NULL)) AS packed
  FROM animal a LEFT JOIN weighing w ON w.animal_id = a.id
    AND NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id)
  WHERE NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = a.id)
  GROUP BY a.id
), weighed AS (
  SELECT *, iif(damage_note <> '' OR damage > 0, 1, 0) AS damaged,
    (SELECT c.by FROM weighing_now c WHERE c.animal_id = summed.animal_id AND c.stage IN ('cut', 'packed') AND c.by <> ''
      GROUP BY c.by ORDER BY count(*) DESC, c.by LIMIT 1) AS cutter,
    iif(brought IN ('whole', 'skinned'),
      coalesce(hanging, iif(brought = 'skinned', received, NULL)), coalesce(received, hanging)) AS base,
    -- Steaks packed without being weighed at the Table count by their packages, but only when the grind went through a batch.
    coalesce(whole_cuts, iif(trim_ground > 0, packed, NULL)) AS cuts,
    coalesce(fat_saved, own_fat_ground) AS own_fat
  FROM summed
), gave AS (
  SELECT *, CASE
    -- Steaks were only packed, and their trim still waits for the grinder.
    WHEN whole_cuts IS NULL AND trim IS NOT NULL AND trim_ground = 0 THEN NULL
    WHEN cuts IS NOT NULL OR trim IS NOT NULL THEN coalesce(cuts, 0.0) + coalesce(trim, trim_ground) + own_fat
    WHEN packed IS NOT NULL OR trim_ground > 0 THEN coalesce(packed, 0.0) + trim_ground + own_fat
    END AS take_home,
    iif(stage IN ('packing', 'ready', 'released') AND coalesce(hanging, received) IS NOT NULL, 1, 0) AS finished
  FROM weighed
)
SELECT animal_id, season, species, brought, sex, age, detail, stage, received_on, ready_on, damaged, cutter, cut_at,
  received, hanging, whole_cuts, trim, fat_saved, sinew, bone, damage, trim_ground, own_fat_ground, packed, base, take_home,
  finished, iif(finished = 1 AND brought IN ('whole', 'skinned') AND base > 0, take_home / base, NULL) AS share
FROM gave;
CREATE TRIGGER animal_sum_of_canceled AFTER INSERT ON intake_cancel BEGIN
  DELETE FROM animal_sum WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER animal_sum_of_uncanceled AFTER INSERT ON intake_cancel_void BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now
  WHERE animal_id = (SELECT c.animal_id FROM intake_cancel c WHERE c.id = NEW.cancel_id);
END;
CREATE INDEX belonging_by_animal ON belonging (animal_id);
CREATE VIEW belonging_now AS
  SELECT r.* FROM belonging r WHERE NOT EXISTS (SELECT 1 FROM belonging_void v WHERE v.belonging_id = r.id);
CREATE INDEX belonging_end_by_belonging ON belonging_end (belonging_id);
CREATE VIEW belonging_end_now AS
  SELECT r.* FROM belonging_end r WHERE NOT EXISTS (SELECT 1 FROM belonging_end_void v WHERE v.end_id = r.id);
CREATE INDEX share_split_by_animal ON share_split (animal_id);
CREATE INDEX share_by_hunter ON share (hunter_id);
CREATE VIEW share_now AS
  SELECT p.animal_id, p.basis, s.* FROM share_split p JOIN share s ON s.split_id = p.id
  WHERE p.id = (SELECT max(n.id) FROM share_split n WHERE n.animal_id = p.animal_id);
CREATE INDEX share_pickup_by_animal ON share_pickup (animal_id);
CREATE VIEW share_pickup_now AS
  SELECT r.* FROM share_pickup r WHERE NOT EXISTS (SELECT 1 FROM share_pickup_void v WHERE v.pickup_id = r.id);
CREATE INDEX payment_by_hunter ON payment (hunter_id) WHERE hunter_id IS NOT NULL;
CREATE INDEX donation_by_animal ON donation (animal_id);
CREATE INDEX donation_by_day ON donation (donated_on);
CREATE VIEW donation_now AS
  SELECT r.* FROM donation r WHERE NOT EXISTS (SELECT 1 FROM donation_void v WHERE v.donation_id = r.id);
CREATE INDEX unprocessed_by_animal ON unprocessed (animal_id);
CREATE VIEW unprocessed_now AS
  SELECT r.* FROM unprocessed r WHERE NOT EXISTS (SELECT 1 FROM unprocessed_void v WHERE v.unprocessed_id = r.id);
CREATE INDEX pickup_notice_by_animal ON pickup_notice (animal_id);
CREATE VIEW pickup_notice_now AS
  SELECT r.* FROM pickup_notice r WHERE NOT EXISTS (SELECT 1 FROM pickup_notice_void v WHERE v.notice_id = r.id);
CREATE TRIGGER intake_cancel_no_delete BEFORE DELETE ON intake_cancel
  BEGIN SELECT RAISE(ABORT, 'intake_cancel is written once'); END;
CREATE TRIGGER intake_cancel_void_no_delete BEFORE DELETE ON intake_cancel_void
  BEGIN SELECT RAISE(ABORT, 'intake_cancel_void is written once'); END;
CREATE TRIGGER belonging_no_update BEFORE UPDATE ON belonging
  BEGIN SELECT RAISE(ABORT, 'belonging is written once'); END;
CREATE TRIGGER belonging_no_delete BEFORE DELETE ON belonging
  BEGIN SELECT RAISE(ABORT, 'belonging is written once'); END;
CREATE TRIGGER belonging_void_no_delete BEFORE DELETE ON belonging_void
  BEGIN SELECT RAISE(ABORT, 'belonging_void is written once'); END;
CREATE TRIGGER belonging_end_no_update BEFORE UPDATE ON belonging_end
  BEGIN SELECT RAISE(ABORT, 'belonging_end is written once'); END;
CREATE TRIGGER belonging_end_no_delete BEFORE DELETE ON belonging_end
  BEGIN SELECT RAISE(ABORT, 'belonging_end is written once'); END;
CREATE TRIGGER belonging_end_void_no_delete BEFORE DELETE ON belonging_end_void
  BEGIN SELECT RAISE(ABORT, 'belonging_end_void is written once'); END;
CREATE TRIGGER share_split_no_delete BEFORE DELETE ON share_split
  BEGIN SELECT RAISE(ABORT, 'share_split is written once'); END;
CREATE TRIGGER share_no_update BEFORE UPDATE ON share
  BEGIN SELECT RAISE(ABORT, 'share is written once'); END;
CREATE TRIGGER share_no_delete BEFORE DELETE ON share
  BEGIN SELECT RAISE(ABORT, 'share is written once'); END;
CREATE TRIGGER share_pickup_no_update BEFORE UPDATE ON share_pickup
  BEGIN SELECT RAISE(ABORT, 'share_pickup is written once'); END;
CREATE TRIGGER share_pickup_no_delete BEFORE DELETE ON share_pickup
  BEGIN SELECT RAISE(ABORT, 'share_pickup is written once'); END;
CREATE TRIGGER share_pickup_void_no_delete BEFORE DELETE ON share_pickup_void
  BEGIN SELECT RAISE(ABORT, 'share_pickup_void is written once'); END;
CREATE TRIGGER donation_no_update BEFORE UPDATE ON donation
  BEGIN SELECT RAISE(ABORT, 'donation is written once'); END;
CREATE TRIGGER donation_no_delete BEFORE DELETE ON donation
  BEGIN SELECT RAISE(ABORT, 'donation is written once'); END;
CREATE TRIGGER donation_void_no_delete BEFORE DELETE ON donation_void
  BEGIN SELECT RAISE(ABORT, 'donation_void is written once'); END;
CREATE TRIGGER unprocessed_no_delete BEFORE DELETE ON unprocessed
  BEGIN SELECT RAISE(ABORT, 'unprocessed is written once'); END;
CREATE TRIGGER unprocessed_void_no_delete BEFORE DELETE ON unprocessed_void
  BEGIN SELECT RAISE(ABORT, 'unprocessed_void is written once'); END;
CREATE TRIGGER pickup_notice_no_update BEFORE UPDATE ON pickup_notice
  BEGIN SELECT RAISE(ABORT, 'pickup_notice is written once'); END;
CREATE TRIGGER pickup_notice_no_delete BEFORE DELETE ON pickup_notice
  BEGIN SELECT RAISE(ABORT, 'pickup_notice is written once'); END;
CREATE TRIGGER pickup_notice_void_no_delete BEFORE DELETE ON pickup_notice_void
  BEGIN SELECT RAISE(ABORT, 'pickup_notice_void is written once'); END;
CREATE INDEX payment_by_day ON payment (paid_on);
CREATE INDEX payment_void_by_moment ON payment_void (at);
CREATE INDEX bill_by_day ON bill (billed_on);
CREATE INDEX bill_void_by_moment ON bill_void (at);
CREATE INDEX till_float_by_day ON till_float (currency, day);
CREATE INDEX till_close_by_day ON till_close (day, currency);
CREATE INDEX till_close_entry_by_payment ON till_close_entry (payment_id, what);
CREATE TRIGGER till_float_no_update BEFORE UPDATE ON till_float
  BEGIN SELECT RAISE(ABORT, 'till_float is written once'); END;
CREATE TRIGGER till_float_no_delete BEFORE DELETE ON till_float
  BEGIN SELECT RAISE(ABORT, 'till_float is written once'); END;
CREATE TRIGGER till_close_no_update BEFORE UPDATE ON till_close
  BEGIN SELECT RAISE(ABORT, 'till_close is written once'); END;
CREATE TRIGGER till_close_no_delete BEFORE DELETE ON till_close
  BEGIN SELECT RAISE(ABORT, 'till_close is written once'); END;
CREATE TRIGGER till_close_entry_no_update BEFORE UPDATE ON till_close_entry
  BEGIN SELECT RAISE(ABORT, 'till_close_entry is written once'); END;
CREATE TRIGGER till_close_entry_no_delete BEFORE DELETE ON till_close_entry
  BEGIN SELECT RAISE(ABORT, 'till_close_entry is written once'); END;
CREATE TRIGGER till_close_void_no_delete BEFORE DELETE ON till_close_void
  BEGIN SELECT RAISE(ABORT, 'till_close_void is written once'); END;
CREATE VIEW till_close_now AS
  SELECT c.* FROM till_close c WHERE NOT EXISTS (SELECT 1 FROM till_close_void v WHERE v.till_close_id = c.id);
CREATE INDEX work_time_by_animal ON work_time (animal_id);
CREATE INDEX adjustment_by_animal ON adjustment (animal_id);
CREATE TRIGGER work_time_no_update BEFORE UPDATE ON work_time
  BEGIN SELECT RAISE(ABORT, 'work_time is written once'); END;
CREATE TRIGGER work_time_no_delete BEFORE DELETE ON work_time
  BEGIN SELECT RAISE(ABORT, 'work_time is written once'); END;
CREATE TRIGGER work_time_void_no_delete BEFORE DELETE ON work_time_void
  BEGIN SELECT RAISE(ABORT, 'work_time_void is written once'); END;
CREATE TRIGGER adjustment_no_delete BEFORE DELETE ON adjustment
  BEGIN SELECT RAISE(ABORT, 'adjustment is written once'); END;
CREATE TRIGGER adjustment_void_no_delete BEFORE DELETE ON adjustment_void
  BEGIN SELECT RAISE(ABORT, 'adjustment_void is written once'); END;
CREATE VIEW work_time_now AS
  SELECT t.* FROM work_time t WHERE NOT EXISTS (SELECT 1 FROM work_time_void v WHERE v.work_time_id = t.id);
CREATE VIEW adjustment_now AS
  SELECT a.* FROM adjustment a WHERE NOT EXISTS (SELECT 1 FROM adjustment_void v WHERE v.adjustment_id = a.id);
CREATE INDEX affected_note_by_animal ON affected_note (animal_id);
CREATE INDEX affected_note_by_source ON affected_note (source_id);
CREATE TRIGGER affected_note_no_update BEFORE UPDATE ON affected_note
  BEGIN SELECT RAISE(ABORT, 'affected_note is written once'); END;
CREATE TRIGGER affected_note_no_delete BEFORE DELETE ON affected_note
  BEGIN SELECT RAISE(ABORT, 'affected_note is written once'); END;
CREATE TRIGGER affected_note_void_no_delete BEFORE DELETE ON affected_note_void
  BEGIN SELECT RAISE(ABORT, 'affected_note_void is written once'); END;
CREATE VIEW affected_note_now AS
  SELECT n.* FROM affected_note n
  WHERE NOT EXISTS (SELECT 1 FROM affected_note_void v WHERE v.note_id = n.id);
CREATE INDEX grinder_cleaning_by_cleaned ON grinder_cleaning (coalesce(cleaned_at, at));
CREATE VIEW grinder_cleaning_now AS
  SELECT c.id, c.batch_id, c.how, coalesce(c.cleaned_at, c.at) AS at, c.by, c.at AS entered_at FROM grinder_cleaning c
  WHERE NOT EXISTS (SELECT 1 FROM grinder_cleaning_void v WHERE v.cleaning_id = c.id);
CREATE INDEX hold_result_positive ON hold_result (hold_id) WHERE result = 'positive';
CREATE INDEX hold_end_positive ON hold_end (hold_id) WHERE outcome = 'positive';
CREATE TRIGGER quote_taken_no_update BEFORE UPDATE ON quote_taken
  BEGIN SELECT RAISE(ABORT, 'quote_taken is written once'); END;
CREATE TRIGGER quote_taken_no_delete BEFORE DELETE ON quote_taken
  BEGIN SELECT RAISE(ABORT, 'quote_taken is written once'); END;
CREATE TRIGGER quote_taken_once BEFORE INSERT ON quote_taken
WHEN EXISTS (
  SELECT 1 FROM quote_taken t WHERE t.quote_id = NEW.quote_id AND t.animal_id <> NEW.animal_id
  AND NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = t.animal_id)
)
  BEGIN SELECT RAISE(ABORT, 'another animal has this quote'); END;
CREATE VIEW quote_taken_now AS
  SELECT t.* FROM quote_taken t
  WHERE NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = t.animal_id);
CREATE INDEX ingredient_version_by_ingredient ON ingredient_version (ingredient_id);
CREATE INDEX recipe_version_by_recipe ON recipe_version (recipe_id);
CREATE INDEX made_batch_by_batch ON made_batch (batch_id);
CREATE INDEX made_batch_by_recipe ON made_batch (recipe_id);
CREATE VIEW made_batch_now AS
  SELECT r.* FROM made_batch r WHERE NOT EXISTS (SELECT 1 FROM made_batch_void v WHERE v.made_id = r.id);
CREATE INDEX made_start_by_made ON made_start (made_id);
CREATE INDEX made_weighed_by_made ON made_weighed (made_id);
CREATE VIEW made_weighed_now AS
  SELECT r.* FROM made_weighed r WHERE NOT EXISTS (SELECT 1 FROM made_weighed_void v WHERE v.weighed_id = r.id);
CREATE INDEX made_stage_by_made ON made_stage (made_id);
CREATE VIEW made_stage_now AS
  SELECT r.* FROM made_stage r WHERE NOT EXISTS (SELECT 1 FROM made_stage_void v WHERE v.stage_id = r.id);
CREATE INDEX made_analysis_by_made ON made_analysis (made_id);
CREATE VIEW made_analysis_now AS
  SELECT r.* FROM made_analysis r WHERE NOT EXISTS (SELECT 1 FROM made_analysis_void v WHERE v.analysis_id = r.id);
CREATE INDEX made_package_by_made ON made_package (made_id);
CREATE TRIGGER made_package_of_corrected AFTER INSERT ON weighing
WHEN NEW.corrects IS NOT NULL AND NEW.stage = 'packed' BEGIN
  INSERT INTO made_package SELECT NEW.id, p.made_id, NEW.at, NEW.by FROM made_package p
  JOIN made_batch m ON m.id = p.made_id AND m.batch_id = NEW.batch_id
  WHERE p.weighing_id = NEW.corrects;
END;
CREATE INDEX load_batch_by_load ON load_batch (load_id);
CREATE INDEX load_batch_by_made ON load_batch (made_id);
CREATE VIEW load_batch_now AS
  SELECT r.* FROM load_batch r WHERE NOT EXISTS (SELECT 1 FROM load_batch_void v WHERE v.load_batch_id = r.id);
CREATE INDEX load_record_by_load ON load_record (load_id);
CREATE INDEX load_log_by_load ON load_log (load_id);
CREATE VIEW load_log_now AS
  SELECT r.* FROM load_log r WHERE NOT EXISTS (SELECT 1 FROM load_log_void v WHERE v.log_id = r.id);
CREATE INDEX load_reading_by_log ON load_reading (log_id);
CREATE INDEX load_exclusion_by_reading ON load_exclusion (reading_id);
CREATE VIEW load_exclusion_now AS
  SELECT r.* FROM load_exclusion r WHERE NOT EXISTS (SELECT 1 FROM load_exclusion_void v WHERE v.exclusion_id = r.id);
CREATE INDEX load_verdict_by_load ON load_verdict (load_id);
CREATE INDEX deviation_by_load ON deviation (load_id);
CREATE INDEX deviation_by_made ON deviation (made_id);
CREATE VIEW deviation_now AS
  SELECT r.* FROM deviation r WHERE NOT EXISTS (SELECT 1 FROM deviation_void v WHERE v.deviation_id = r.id);
CREATE TRIGGER ingredient_version_no_update BEFORE UPDATE ON ingredient_version
  BEGIN SELECT RAISE(ABORT, 'ingredient_version is written once'); END;
CREATE TRIGGER ingredient_version_no_delete BEFORE DELETE ON ingredient_version
  BEGIN SELECT RAISE(ABORT, 'ingredient_version is written once'); END;
CREATE TRIGGER recipe_version_no_delete BEFORE DELETE ON recipe_version
  BEGIN SELECT RAISE(ABORT, 'recipe_version is written once'); END;
CREATE TRIGGER made_batch_no_update BEFORE UPDATE ON made_batch
  BEGIN SELECT RAISE(ABORT, 'made_batch is written once'); END;
CREATE TRIGGER made_batch_no_delete BEFORE DELETE ON made_batch
  BEGIN SELECT RAISE(ABORT, 'made_batch is written once'); END;
CREATE TRIGGER made_batch_void_no_delete BEFORE DELETE ON made_batch_void
  BEGIN SELECT RAISE(ABORT, 'made_batch_void is written once'); END;
CREATE TRIGGER made_start_no_update BEFORE UPDATE ON made_start
  BEGIN SELECT RAISE(ABORT, 'made_start is written once'); END;
CREATE TRIGGER made_start_no_delete BEFORE DELETE ON made_start
  BEGIN SELECT RAISE(ABORT, 'made_start is written once'); END;
CREATE TRIGGER made_weighed_no_update BEFORE UPDATE ON made_weighed
  BEGIN SELECT RAISE(ABORT, 'made_weighed is written once'); END;
CREATE TRIGGER made_weighed_no_delete BEFORE DELETE ON made_weighed
  BEGIN SELECT RAISE(ABORT, 'made_weighed is written once'); END;
CREATE TRIGGER made_weighed_void_no_delete BEFORE DELETE ON made_weighed_void
  BEGIN SELECT RAISE(ABORT, 'made_weighed_void is written once'); END;
CREATE TRIGGER made_stage_no_update BEFORE UPDATE ON made_stage
  BEGIN SELECT RAISE(ABORT, 'made_stage is written once'); END;
CREATE TRIGGER made_stage_no_delete BEFORE DELETE ON made_stage
  BEGIN SELECT RAISE(ABORT, 'made_stage is written once'); END;
CREATE TRIGGER made_stage_void_no_delete BEFORE DELETE ON made_stage_void
  BEGIN SELECT RAISE(ABORT, 'made_stage_void is written once'); END;
CREATE TRIGGER made_analysis_no_update BEFORE UPDATE ON made_analysis
  BEGIN SELECT RAISE(ABORT, 'made_analysis is written once'); END;
CREATE TRIGGER made_analysis_no_delete BEFORE DELETE ON made_analysis
  BEGIN SELECT RAISE(ABORT, 'made_analysis is written once'); END;
CREATE TRIGGER made_analysis_void_no_delete BEFORE DELETE ON made_analysis_void
  BEGIN SELECT RAISE(ABORT, 'made_analysis_void is written once'); END;
CREATE TRIGGER made_package_no_update BEFORE UPDATE ON made_package
  BEGIN SELECT RAISE(ABORT, 'made_package is written once'); END;
CREATE TRIGGER made_package_no_delete BEFORE DELETE ON made_package
  BEGIN SELECT RAISE(ABORT, 'made_package is written once'); END;
CREATE TRIGGER load_no_update BEFORE UPDATE ON load
  BEGIN SELECT RAISE(ABORT, 'load is written once'); END;
CREATE TRIGGER load_no_delete BEFORE DELETE ON load
  BEGIN SELECT RAISE(ABORT, 'load is written once'); END;
CREATE TRIGGER load_batch_no_update BEFORE UPDATE ON load_batch
  BEGIN SELECT RAISE(ABORT, 'load_batch is written once'); END;
CREATE TRIGGER load_batch_no_delete BEFORE DELETE ON load_batch
  BEGIN SELECT RAISE(ABORT, 'load_batch is written once'); END;
CREATE TRIGGER load_batch_void_no_delete BEFORE DELETE ON load_batch_void
  BEGIN SELECT RAISE(ABORT, 'load_batch_void is written once'); END;
CREATE TRIGGER load_record_no_delete BEFORE DELETE ON load_record
  BEGIN SELECT RAISE(ABORT, 'load_record is written once'); END;
CREATE TRIGGER load_log_no_update BEFORE UPDATE ON load_log
  BEGIN SELECT RAISE(ABORT, 'load_log is written once'); END;
CREATE TRIGGER load_log_no_delete BEFORE DELETE ON load_log
  BEGIN SELECT RAISE(ABORT, 'load_log is written once'); END;
CREATE TRIGGER load_log_void_no_delete BEFORE DELETE ON load_log_void
  BEGIN SELECT RAISE(ABORT, 'load_log_void is written once'); END;
CREATE TRIGGER load_reading_no_update BEFORE UPDATE ON load_reading
  BEGIN SELECT RAISE(ABORT, 'load_reading is written once'); END;
CREATE TRIGGER load_reading_no_delete BEFORE DELETE ON load_reading
  BEGIN SELECT RAISE(ABORT, 'load_reading is written once'); END;
CREATE TRIGGER load_exclusion_no_delete BEFORE DELETE ON load_exclusion
  BEGIN SELECT RAISE(ABORT, 'load_exclusion is written once'); END;
CREATE TRIGGER load_exclusion_void_no_delete BEFORE DELETE ON load_exclusion_void
  BEGIN SELECT RAISE(ABORT, 'load_exclusion_void is written once'); END;
CREATE TRIGGER load_verdict_no_update BEFORE UPDATE ON load_verdict
  BEGIN SELECT RAISE(ABORT, 'load_verdict is written once'); END;
CREATE TRIGGER load_verdict_no_delete BEFORE DELETE ON load_verdict
  BEGIN SELECT RAISE(ABORT, 'load_verdict is written once'); END;
CREATE TRIGGER deviation_no_update BEFORE UPDATE ON deviation
  BEGIN SELECT RAISE(ABORT, 'deviation is written once'); END;
CREATE TRIGGER deviation_no_delete BEFORE DELETE ON deviation
  BEGIN SELECT RAISE(ABORT, 'deviation is written once'); END;
CREATE TRIGGER deviation_void_no_delete BEFORE DELETE ON deviation_void
  BEGIN SELECT RAISE(ABORT, 'deviation_void is written once'); END;
CREATE INDEX station_name_by_station ON station_name (station_id);
CREATE INDEX station_state_by_station ON station_state (station_id);
CREATE TRIGGER station_state_removed BEFORE INSERT ON station_state
WHEN EXISTS (SELECT 1 FROM station_state s WHERE s.station_id = NEW.station_id AND s.state = 'removed')
BEGIN SELECT RAISE(ABORT, 'a removed station stays removed'); END;
CREATE VIEW station_now AS
  SELECT s.id, s.secret_hash, s.origin, s.agent, s.at, s.by, n.name, n.place, n.language,
    coalesce((SELECT t.state FROM station_state t WHERE t.station_id = s.id ORDER BY t.id DESC LIMIT 1), 'open') AS state
  FROM station s JOIN station_name n ON n.id = (SELECT max(m.id) FROM station_name m WHERE m.station_id = s.id);
CREATE INDEX station_line_by_station ON station_line (station_id);
CREATE TRIGGER station_entry_in_order BEFORE INSERT ON station_entry
WHEN NEW.number <> (SELECT coalesce(max(e.number), 0) + 1 FROM station_entry e WHERE e.line_id = NEW.line_id)
BEGIN SELECT RAISE(ABORT, 'entries of a line have no gap'); END;
CREATE INDEX station_write_by_record ON station_write (call, record_id);
CREATE INDEX staff_pin_by_initials ON staff_pin (initials);
CREATE TRIGGER station_no_update BEFORE UPDATE ON station
  BEGIN SELECT RAISE(ABORT, 'station is written once'); END;
CREATE TRIGGER station_no_delete BEFORE DELETE ON station
  BEGIN SELECT RAISE(ABORT, 'station is written once'); END;
CREATE TRIGGER station_name_no_update BEFORE UPDATE ON station_name
  BEGIN SELECT RAISE(ABORT, 'station_name is written once'); END;
CREATE TRIGGER station_name_no_delete BEFORE DELETE ON station_name
  BEGIN SELECT RAISE(ABORT, 'station_name is written once'); END;
CREATE TRIGGER station_state_no_delete BEFORE DELETE ON station_state
  BEGIN SELECT RAISE(ABORT, 'station_state is written once'); END;
CREATE TRIGGER station_line_no_update BEFORE UPDATE ON station_line
  BEGIN SELECT RAISE(ABORT, 'station_line is written once'); END;
CREATE TRIGGER station_line_no_delete BEFORE DELETE ON station_line
  BEGIN SELECT RAISE(ABORT, 'station_line is written once'); END;
CREATE TRIGGER station_entry_no_delete BEFORE DELETE ON station_entry
  BEGIN SELECT RAISE(ABORT, 'station_entry is written once'); END;
CREATE TRIGGER station_write_no_update BEFORE UPDATE ON station_write
  BEGIN SELECT RAISE(ABORT, 'station_write is written once'); END;
CREATE TRIGGER station_write_no_delete BEFORE DELETE ON station_write
  BEGIN SELECT RAISE(ABORT, 'station_write is written once'); END;
CREATE TRIGGER staff_pin_no_update BEFORE UPDATE ON staff_pin
  BEGIN SELECT RAISE(ABORT, 'staff_pin is written once'); END;
CREATE TRIGGER staff_pin_no_delete BEFORE DELETE ON staff_pin
  BEGIN SELECT RAISE(ABORT, 'staff_pin is written once'); END;
CREATE INDEX draft_by_at ON draft (at);
CREATE INDEX draft_state_by_draft ON draft_state (draft_id);
CREATE TRIGGER draft_state_taken BEFORE INSERT ON draft_state
WHEN EXISTS (SELECT 1 FROM draft_state s WHERE s.draft_id = NEW.draft_id AND s.state = 'taken')
BEGIN SELECT RAISE(ABORT, 'a draft becomes one ticket'); END;
CREATE VIEW draft_now AS
  SELECT d.*, coalesce(s.state, 'open') AS state, s.animal_id
  FROM draft d LEFT JOIN draft_state s ON s.id = (SELECT max(m.id) FROM draft_state m WHERE m.draft_id = d.id);
CREATE TRIGGER draft_no_delete BEFORE DELETE ON draft
  BEGIN SELECT RAISE(ABORT, 'draft is written once'); END;
CREATE TRIGGER draft_state_no_delete BEFORE DELETE ON draft_state
  BEGIN SELECT RAISE(ABORT, 'draft_state is written once'); END;
CREATE TRIGGER station_made_no_update BEFORE UPDATE ON station_made
  BEGIN SELECT RAISE(ABORT, 'station_made is written once'); END;
CREATE TRIGGER station_made_no_delete BEFORE DELETE ON station_made
  BEGIN SELECT RAISE(ABORT, 'station_made is written once'); END;
CREATE INDEX photograph_by_animal ON photograph (animal_id);
CREATE INDEX photograph_by_digest ON photograph (digest);
CREATE VIEW photograph_now AS
  SELECT p.* FROM photograph p
  WHERE NOT EXISTS (SELECT 1 FROM photograph_void v WHERE v.photograph_id = p.id)
    AND NOT EXISTS (SELECT 1 FROM photograph_removal r WHERE r.photograph_id = p.id);
CREATE TRIGGER photograph_no_update BEFORE UPDATE ON photograph
  BEGIN SELECT RAISE(ABORT, 'photograph is written once'); END;
CREATE TRIGGER photograph_no_delete BEFORE DELETE ON photograph
  BEGIN SELECT RAISE(ABORT, 'photograph is written once'); END;
CREATE TRIGGER photograph_void_no_delete BEFORE DELETE ON photograph_void
  BEGIN SELECT RAISE(ABORT, 'photograph_void is written once'); END;
CREATE TRIGGER photograph_removal_no_update BEFORE UPDATE ON photograph_removal
  BEGIN SELECT RAISE(ABORT, 'photograph_removal is written once'); END;
CREATE TRIGGER photograph_removal_no_delete BEFORE DELETE ON photograph_removal
  BEGIN SELECT RAISE(ABORT, 'photograph_removal is written once'); END;
CREATE INDEX slip_animal_by_animal ON slip_animal (animal_id);
CREATE INDEX draft_by_slip ON draft (slip_id) WHERE slip_id IS NOT NULL;
CREATE TRIGGER slip_no_update BEFORE UPDATE ON slip
  BEGIN SELECT RAISE(ABORT, 'slip is written once'); END;
CREATE TRIGGER slip_no_delete BEFORE DELETE ON slip
  BEGIN SELECT RAISE(ABORT, 'slip is written once'); END;
CREATE TRIGGER slip_animal_no_update BEFORE UPDATE ON slip_animal
  BEGIN SELECT RAISE(ABORT, 'slip_animal is written once'); END;
CREATE TRIGGER slip_animal_no_delete BEFORE DELETE ON slip_animal
  BEGIN SELECT RAISE(ABORT, 'slip_animal is written once'); END;
CREATE INDEX lesson_by_source ON lesson (source);
CREATE INDEX lesson_use_by_lesson ON lesson_use (lesson_id);
CREATE VIEW lesson_now AS
  SELECT l.*, coalesce(u.used, 1) AS used
  FROM lesson l LEFT JOIN lesson_use u ON u.id = (SELECT max(m.id) FROM lesson_use m WHERE m.lesson_id = l.id);
CREATE TRIGGER lesson_given_no_update BEFORE UPDATE ON lesson_given
  BEGIN SELECT RAISE(ABORT, 'lesson_given is written once'); END;
CREATE TRIGGER lesson_given_no_delete BEFORE DELETE ON lesson_given
  BEGIN SELECT RAISE(ABORT, 'lesson_given is written once'); END;
CREATE TRIGGER lesson_no_update BEFORE UPDATE ON lesson
  BEGIN SELECT RAISE(ABORT, 'lesson is written once'); END;
CREATE TRIGGER lesson_no_delete BEFORE DELETE ON lesson
  BEGIN SELECT RAISE(ABORT, 'lesson is written once'); END;
CREATE TRIGGER lesson_use_no_update BEFORE UPDATE ON lesson_use
  BEGIN SELECT RAISE(ABORT, 'lesson_use is written once'); END;
CREATE TRIGGER lesson_use_no_delete BEFORE DELETE ON lesson_use
  BEGIN SELECT RAISE(ABORT, 'lesson_use is written once'); END;
CREATE TRIGGER adjustment_no_update BEFORE UPDATE ON adjustment
  BEGIN SELECT RAISE(ABORT, 'adjustment is written once'); END;
CREATE TRIGGER adjustment_void_no_update BEFORE UPDATE ON adjustment_void
  BEGIN SELECT RAISE(ABORT, 'adjustment_void is written once'); END;
CREATE TRIGGER affected_note_void_no_update BEFORE UPDATE ON affected_note_void
  BEGIN SELECT RAISE(ABORT, 'affected_note_void is written once'); END;
CREATE TRIGGER audit_no_update BEFORE UPDATE ON audit
  BEGIN SELECT RAISE(ABORT, 'audit is written once'); END;
CREATE TRIGGER belonging_end_void_no_update BEFORE UPDATE ON belonging_end_void
  BEGIN SELECT RAISE(ABORT, 'belonging_end_void is written once'); END;
CREATE TRIGGER belonging_void_no_update BEFORE UPDATE ON belonging_void
  BEGIN SELECT RAISE(ABORT, 'belonging_void is written once'); END;
CREATE TRIGGER bill_void_no_update BEFORE UPDATE ON bill_void
  BEGIN SELECT RAISE(ABORT, 'bill_void is written once'); END;
CREATE TRIGGER cooler_temperature_void_no_update BEFORE UPDATE ON cooler_temperature_void
  BEGIN SELECT RAISE(ABORT, 'cooler_temperature_void is written once'); END;
CREATE TRIGGER deviation_void_no_update BEFORE UPDATE ON deviation_void
  BEGIN SELECT RAISE(ABORT, 'deviation_void is written once'); END;
CREATE TRIGGER disposal_no_update BEFORE UPDATE ON disposal
  BEGIN SELECT RAISE(ABORT, 'disposal is written once'); END;
CREATE TRIGGER disposal_void_no_update BEFORE UPDATE ON disposal_void
  BEGIN SELECT RAISE(ABORT, 'disposal_void is written once'); END;
CREATE TRIGGER donation_void_no_update BEFORE UPDATE ON donation_void
  BEGIN SELECT RAISE(ABORT, 'donation_void is written once'); END;
CREATE TRIGGER draft_state_no_update BEFORE UPDATE ON draft_state
  BEGIN SELECT RAISE(ABORT, 'draft_state is written once'); END;
CREATE TRIGGER grinder_cleaning_void_no_update BEFORE UPDATE ON grinder_cleaning_void
  BEGIN SELECT RAISE(ABORT, 'grinder_cleaning_void is written once'); END;
CREATE TRIGGER hold_no_update BEFORE UPDATE ON hold
  BEGIN SELECT RAISE(ABORT, 'hold is written once'); END;
CREATE TRIGGER hold_result_no_update BEFORE UPDATE ON hold_result
  BEGIN SELECT RAISE(ABORT, 'hold_result is written once'); END;
CREATE TRIGGER intake_cancel_no_update BEFORE UPDATE ON intake_cancel
  BEGIN SELECT RAISE(ABORT, 'intake_cancel is written once'); END;
CREATE TRIGGER intake_cancel_void_no_update BEFORE UPDATE ON intake_cancel_void
  BEGIN SELECT RAISE(ABORT, 'intake_cancel_void is written once'); END;
CREATE TRIGGER load_batch_void_no_update BEFORE UPDATE ON load_batch_void
  BEGIN SELECT RAISE(ABORT, 'load_batch_void is written once'); END;
CREATE TRIGGER load_exclusion_no_update BEFORE UPDATE ON load_exclusion
  BEGIN SELECT RAISE(ABORT, 'load_exclusion is written once'); END;
CREATE TRIGGER load_exclusion_void_no_update BEFORE UPDATE ON load_exclusion_void
  BEGIN SELECT RAISE(ABORT, 'load_exclusion_void is written once'); END;
CREATE TRIGGER load_log_void_no_update BEFORE UPDATE ON load_log_void
  BEGIN SELECT RAISE(ABORT, 'load_log_void is written once'); END;
CREATE TRIGGER load_record_no_update BEFORE UPDATE ON load_record
  BEGIN SELECT RAISE(ABORT, 'load_record is written once'); END;
CREATE TRIGGER made_analysis_void_no_update BEFORE UPDATE ON made_analysis_void
  BEGIN SELECT RAISE(ABORT, 'made_analysis_void is written once'); END;
CREATE TRIGGER made_batch_void_no_update BEFORE UPDATE ON made_batch_void
  BEGIN SELECT RAISE(ABORT, 'made_batch_void is written once'); END;
CREATE TRIGGER made_stage_void_no_update BEFORE UPDATE ON made_stage_void
  BEGIN SELECT RAISE(ABORT, 'made_stage_void is written once'); END;
CREATE TRIGGER made_weighed_void_no_update BEFORE UPDATE ON made_weighed_void
  BEGIN SELECT RAISE(ABORT, 'made_weighed_void is written once'); END;
CREATE TRIGGER part_none_void_no_update BEFORE UPDATE ON part_none_void
  BEGIN SELECT RAISE(ABORT, 'part_none_void is written once'); END;
CREATE TRIGGER payment_void_no_update BEFORE UPDATE ON payment_void
  BEGIN SELECT RAISE(ABORT, 'payment_void is written once'); END;
CREATE TRIGGER photograph_void_no_update BEFORE UPDATE ON photograph_void
  BEGIN SELECT RAISE(ABORT, 'photograph_void is written once'); END;
CREATE TRIGGER pickup_notice_void_no_update BEFORE UPDATE ON pickup_notice_void
  BEGIN SELECT RAISE(ABORT, 'pickup_notice_void is written once'); END;
CREATE TRIGGER recipe_version_no_update BEFORE UPDATE ON recipe_version
  BEGIN SELECT RAISE(ABORT, 'recipe_version is written once'); END;
CREATE TRIGGER release_void_no_update BEFORE UPDATE ON release_void
  BEGIN SELECT RAISE(ABORT, 'release_void is written once'); END;
CREATE TRIGGER share_pickup_void_no_update BEFORE UPDATE ON share_pickup_void
  BEGIN SELECT RAISE(ABORT, 'share_pickup_void is written once'); END;
CREATE TRIGGER share_split_no_update BEFORE UPDATE ON share_split
  BEGIN SELECT RAISE(ABORT, 'share_split is written once'); END;
CREATE TRIGGER station_state_no_update BEFORE UPDATE ON station_state
  BEGIN SELECT RAISE(ABORT, 'station_state is written once'); END;
CREATE TRIGGER till_close_void_no_update BEFORE UPDATE ON till_close_void
  BEGIN SELECT RAISE(ABORT, 'till_close_void is written once'); END;
CREATE TRIGGER unprocessed_no_update BEFORE UPDATE ON unprocessed
  BEGIN SELECT RAISE(ABORT, 'unprocessed is written once'); END;
CREATE TRIGGER unprocessed_void_no_update BEFORE UPDATE ON unprocessed_void
  BEGIN SELECT RAISE(ABORT, 'unprocessed_void is written once'); END;
CREATE TRIGGER weighing_void_no_update BEFORE UPDATE ON weighing_void
  BEGIN SELECT RAISE(ABORT, 'weighing_void is written once'); END;
CREATE TRIGGER work_time_void_no_update BEFORE UPDATE ON work_time_void
  BEGIN SELECT RAISE(ABORT, 'work_time_void is written once'); END;
CREATE TRIGGER fat_movement_no_update BEFORE UPDATE ON fat_movement
  BEGIN SELECT RAISE(ABORT, 'fat_movement is written once'); END;
CREATE TRIGGER quote_no_update BEFORE UPDATE ON quote
  BEGIN SELECT RAISE(ABORT, 'quote is written once'); END;
CREATE TRIGGER station_entry_no_update BEFORE UPDATE ON station_entry
  BEGIN SELECT RAISE(ABORT, 'station_entry is written once'); END;
CREATE TRIGGER instruction_no_update BEFORE UPDATE ON instruction
  BEGIN SELECT RAISE(ABORT, 'instruction is written once'); END;
CREATE TRIGGER draft_no_update BEFORE UPDATE ON draft
  BEGIN SELECT RAISE(ABORT, 'draft is written once'); END;
PRAGMA user_version = 30;
