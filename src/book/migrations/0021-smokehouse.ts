/**
 * The smokehouse: ingredients and recipes in versions, batches made from a grind, and loads of the smokehouse with their logs.
 * The meat of a made batch is that of its grind, so owners, holds and packages stay where they are.
 */
const WRITTEN_ONCE = [
  'ingredient_version', 'recipe_version', 'made_batch', 'made_batch_void', 'made_start', 'made_weighed', 'made_weighed_void',
  'made_stage', 'made_stage_void', 'made_analysis', 'made_analysis_void', 'made_package', 'load', 'load_batch', 'load_batch_void',
  'load_record', 'load_log', 'load_log_void', 'load_reading', 'load_exclusion', 'load_exclusion_void', 'load_verdict', 'deviation',
  'deviation_void',
]; // prettier-ignore

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

const voids = (table: string, key: string): string => `CREATE TABLE ${table}_void (
  ${key} INTEGER PRIMARY KEY REFERENCES ${table} (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE VIEW ${table}_now AS
  SELECT r.* FROM ${table} r WHERE NOT EXISTS (SELECT 1 FROM ${table}_void v WHERE v.${key} = r.id);`;

/** A weight exactly as typed, with the grams that follow from it. */
const WEIGHT = `typed TEXT NOT NULL,
  digits INTEGER NOT NULL CHECK (digits > 0),
  decimals INTEGER NOT NULL CHECK (decimals BETWEEN 0 AND 9),
  unit TEXT NOT NULL CHECK (unit IN ('lb', 'oz', 'kg', 'g')),
  grams REAL NOT NULL CHECK (grams > 0)`;

export const smokehouse = `
-- What goes into a product besides meat. Its newest version counts; one put away is not offered.
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
CREATE INDEX ingredient_version_by_ingredient ON ingredient_version (ingredient_id);

CREATE TABLE recipe (
  id INTEGER PRIMARY KEY,
  active INTEGER NOT NULL DEFAULT 1 CHECK (active IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- The newest version counts; batches refer to the one that they were started with.
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
CREATE INDEX recipe_version_by_recipe ON recipe_version (recipe_id);

-- A product made from a grind, or from part of it.
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
CREATE INDEX made_batch_by_batch ON made_batch (batch_id);
CREATE INDEX made_batch_by_recipe ON made_batch (recipe_id);
${voids('made_batch', 'made_id')}

-- Amounts, parts per million and findings as they were on that day, with the recipe and the packets behind them. The newest counts.
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
CREATE INDEX made_start_by_made ON made_start (made_id);

-- What was really weighed of an ingredient.
CREATE TABLE made_weighed (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  ingredient_id INTEGER NOT NULL REFERENCES ingredient (id),
  ${WEIGHT},
  lot TEXT NOT NULL,
  source TEXT NOT NULL CHECK (source IN ('typed', 'scale', 'practice')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX made_weighed_by_made ON made_weighed (made_id);
${voids('made_weighed', 'weighed_id')}

-- Weights on the way: stuffed, and out of the smokehouse. Packed weights are packages of the grind.
CREATE TABLE made_stage (
  id INTEGER PRIMARY KEY,
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  stage TEXT NOT NULL CHECK (stage IN ('stuffed', 'cooked')),
  pieces INTEGER CHECK (pieces > 0),
  ${WEIGHT},
  source TEXT NOT NULL CHECK (source IN ('typed', 'scale', 'practice')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX made_stage_by_made ON made_stage (made_id);
${voids('made_stage', 'stage_id')}

-- A figure from a laboratory or a meter.
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
CREATE INDEX made_analysis_by_made ON made_analysis (made_id);
${voids('made_analysis', 'analysis_id')}

-- Packages of the grind that are this product.
CREATE TABLE made_package (
  weighing_id INTEGER PRIMARY KEY REFERENCES weighing (id),
  made_id INTEGER NOT NULL REFERENCES made_batch (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX made_package_by_made ON made_package (made_id);
-- A corrected or restored weight of the same grind stays the product's.
CREATE TRIGGER made_package_of_corrected AFTER INSERT ON weighing
WHEN NEW.corrects IS NOT NULL AND NEW.stage = 'packed' BEGIN
  INSERT INTO made_package SELECT NEW.id, p.made_id, NEW.at, NEW.by FROM made_package p
  JOIN made_batch m ON m.id = p.made_id AND m.batch_id = NEW.batch_id
  WHERE p.weighing_id = NEW.corrects;
END;

-- One load of the smokehouse: several batches, one cook.
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
CREATE INDEX load_batch_by_load ON load_batch (load_id);
CREATE INDEX load_batch_by_made ON load_batch (made_id);
${voids('load_batch', 'load_batch_id')}

-- What is written down of the cook: oven on and off, humidity, thermometer, figures to meet. The newest row counts.
CREATE TABLE load_record (
  id INTEGER PRIMARY KEY,
  load_id INTEGER NOT NULL REFERENCES load (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'closed')),
  body TEXT NOT NULL CHECK (json_valid(body)),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX load_record_by_load ON load_record (load_id);

-- A logger's file, or what one thermometer showed, of one probe.
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
CREATE INDEX load_log_by_load ON load_log (load_id);
${voids('load_log', 'log_id')}

-- Readings as they stand in the file or were typed; nothing is left out, and their order is that of the file.
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
CREATE INDEX load_reading_by_log ON load_reading (log_id);

-- A reading that somebody leaves out of the judgement, with the reason.
CREATE TABLE load_exclusion (
  id INTEGER PRIMARY KEY,
  reading_id INTEGER NOT NULL REFERENCES load_reading (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX load_exclusion_by_reading ON load_exclusion (reading_id);
${voids('load_exclusion', 'exclusion_id')}

-- What the logs say of the figures, on that day.
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
CREATE INDEX load_verdict_by_load ON load_verdict (load_id);

-- What was decided of a load or batch that is not proven, and by whom.
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
CREATE INDEX deviation_by_load ON deviation (load_id);
CREATE INDEX deviation_by_made ON deviation (made_id);
${voids('deviation', 'deviation_id')}

${writtenOnce}
`;
