import { partNone } from './0012-part-none.ts';

/**
 * What belongs to an animal besides its meat, whose it is, and where it goes otherwise than home: an intake that was a
 * mistake, what came with the animal, hunters who share it, meat that is donated or goes back as it came, and notices to a
 * hunter who does not come for it. Every row is written once; a void is a row of its own.
 */
const WRITTEN_ONCE = [
  'intake_cancel', 'intake_cancel_void', 'belonging', 'belonging_void', 'belonging_end', 'belonging_end_void', 'share_split',
  'share', 'share_pickup', 'share_pickup_void', 'donation', 'donation_void', 'unprocessed', 'unprocessed_void', 'pickup_notice',
  'pickup_notice_void',
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

/** The sums of step 12, without animals whose intake was a mistake: they count nowhere. */
const sumsWithoutCanceled = partNone
  .slice(
    partNone.indexOf('DROP VIEW animal_sum_now'),
    partNone.indexOf('CREATE TRIGGER animal_sum_of_none AFTER'),
  )
  .replace(
    'GROUP BY a.id',
    'WHERE NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = a.id)\n  GROUP BY a.id',
  );

export const whatBelongs = `
-- An intake that was a mistake. Its animal is closed (its stage is 'disposed') and keeps its ticket number.
CREATE TABLE intake_cancel (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  -- Where it was, for when the cancelation is voided.
  stage_before TEXT NOT NULL,
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX intake_cancel_by_animal ON intake_cancel (animal_id);
${voids('intake_cancel', 'cancel_id')}

${sumsWithoutCanceled}
CREATE TRIGGER animal_sum_of_canceled AFTER INSERT ON intake_cancel BEGIN
  DELETE FROM animal_sum WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER animal_sum_of_uncanceled AFTER INSERT ON intake_cancel_void BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now
  WHERE animal_id = (SELECT c.animal_id FROM intake_cancel c WHERE c.id = NEW.cancel_id);
END;

-- Antlers, cape, heart and whatever else came with an animal.
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
CREATE INDEX belonging_by_animal ON belonging (animal_id);
${voids('belonging', 'belonging_id')}

-- Where it went.
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
CREATE INDEX belonging_end_by_belonging ON belonging_end (belonging_id);
${voids('belonging_end', 'end_id')}

-- Who shares an animal; the newest row counts, and one of a single hunter ends the sharing.
CREATE TABLE share_split (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  basis TEXT NOT NULL CHECK (basis IN ('percent', 'pounds', 'pieces')),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX share_split_by_animal ON share_split (animal_id);
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
CREATE INDEX share_by_hunter ON share (hunter_id);
CREATE VIEW share_now AS
  SELECT p.animal_id, p.basis, s.* FROM share_split p JOIN share s ON s.split_id = p.id
  WHERE p.id = (SELECT max(n.id) FROM share_split n WHERE n.animal_id = p.animal_id);

-- One of several hunters took his or her part; the animal leaves with the last.
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
CREATE INDEX share_pickup_by_animal ON share_pickup (animal_id);
${voids('share_pickup', 'pickup_id')}

-- Which of several hunters paid; NULL counts for the one in whose name the animal stands.
ALTER TABLE payment ADD COLUMN hunter_id INTEGER REFERENCES hunter (id);
CREATE INDEX payment_by_hunter ON payment (hunter_id) WHERE hunter_id IS NOT NULL;

-- Meat given away through a program. What the program pays is frozen with it.
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
CREATE INDEX donation_by_animal ON donation (animal_id);
CREATE INDEX donation_by_day ON donation (donated_on);
${voids('donation', 'donation_id')}

-- The meat goes back as it came; billed is only what was done.
CREATE TABLE unprocessed (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX unprocessed_by_animal ON unprocessed (animal_id);
${voids('unprocessed', 'unprocessed_id')}

-- Notices to a hunter who does not come for what is ready.
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
CREATE INDEX pickup_notice_by_animal ON pickup_notice (animal_id);
${voids('pickup_notice', 'notice_id')}

${writtenOnce}
`;
