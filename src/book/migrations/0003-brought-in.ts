/** What was brought in from files, so that it can be told, and undone as one step. */
export const broughtIn = `
-- The shop's own number of an animal from before this book; ours is the ticket.
ALTER TABLE animal ADD COLUMN old_number TEXT NOT NULL DEFAULT '';
CREATE INDEX animal_by_old_number ON animal (old_number) WHERE old_number <> '';

-- One file that was brought in. It wrote its rows in one go, so their ids run without a gap from first to last.
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
) STRICT;

CREATE TABLE brought_in_undone (
  brought_in_id INTEGER PRIMARY KEY REFERENCES brought_in (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- To find what hangs on an animal or a hunter without reading whole tables.
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
`;
