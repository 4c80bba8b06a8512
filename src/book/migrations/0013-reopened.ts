/**
 * An animal that left by mistake, or whose weights are put right after it left, is opened again: its handing over or its
 * disposal is voided with a reason and stays to be read, so one animal may have several of each.
 */
const WRITTEN_ONCE = ['release', 'release_mend', 'release_void', 'disposal', 'disposal_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const reopened = `
DROP VIEW release_now;
CREATE TABLE old_release AS SELECT * FROM release;
CREATE TABLE old_release_mend AS SELECT * FROM release_mend;
CREATE TABLE old_disposal AS SELECT * FROM disposal;
DROP TABLE release_mend;
DROP TABLE release;
DROP TABLE disposal;

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
CREATE INDEX release_by_animal ON release (animal_id);

CREATE TABLE release_mend (
  id INTEGER PRIMARY KEY,
  release_id INTEGER NOT NULL REFERENCES release (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  released_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX release_mend_by_release ON release_mend (release_id);

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
CREATE INDEX disposal_by_animal ON disposal (animal_id);

CREATE TABLE disposal_void (
  disposal_id INTEGER PRIMARY KEY REFERENCES disposal (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

INSERT INTO release SELECT * FROM old_release;
INSERT INTO release_mend SELECT * FROM old_release_mend;
INSERT INTO disposal SELECT * FROM old_disposal;
DROP TABLE old_release;
DROP TABLE old_release_mend;
DROP TABLE old_disposal;

${writtenOnce}

-- The handing over of each animal that counts, as it was last put right.
CREATE VIEW release_now AS
  SELECT r.id, r.animal_id, coalesce(m.given_to, r.given_to) AS given_to,
    coalesce(m.released_on, r.released_on) AS released_on, r.unpaid_override, r.note, r.at, r.by
  FROM release r LEFT JOIN release_mend m
    ON m.id = (SELECT max(newest.id) FROM release_mend newest WHERE newest.release_id = r.id)
  WHERE NOT EXISTS (SELECT 1 FROM release_void v WHERE v.release_id = r.id);

-- Disposals that count.
CREATE VIEW disposal_now AS
  SELECT d.* FROM disposal d WHERE NOT EXISTS (SELECT 1 FROM disposal_void v WHERE v.disposal_id = d.id);
`;
