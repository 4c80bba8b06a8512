/**
 * What was done about each animal that a positive result reaches, and cleanings of the grinder that are written down later
 * than they were done.
 */
const WRITTEN_ONCE = ['affected_note', 'affected_note_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const affected = `
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
CREATE INDEX affected_note_by_animal ON affected_note (animal_id);
CREATE INDEX affected_note_by_source ON affected_note (source_id);

CREATE TABLE affected_note_void (
  note_id INTEGER PRIMARY KEY REFERENCES affected_note (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

${writtenOnce}

-- Notes that count: not voided.
CREATE VIEW affected_note_now AS
  SELECT n.* FROM affected_note n
  WHERE NOT EXISTS (SELECT 1 FROM affected_note_void v WHERE v.note_id = n.id);

-- When it was cleaned, where that is earlier than the moment of writing; NULL: at that moment.
ALTER TABLE grinder_cleaning ADD COLUMN cleaned_at TEXT;
CREATE INDEX grinder_cleaning_by_cleaned ON grinder_cleaning (coalesce(cleaned_at, at));

DROP VIEW grinder_cleaning_now;
-- Cleanings that count, by the moment at which they were done: not voided.
CREATE VIEW grinder_cleaning_now AS
  SELECT c.id, c.batch_id, c.how, coalesce(c.cleaned_at, c.at) AS at, c.by, c.at AS entered_at FROM grinder_cleaning c
  WHERE NOT EXISTS (SELECT 1 FROM grinder_cleaning_void v WHERE v.cleaning_id = c.id);

-- Positive results are few, and looked for whenever meat leaves.
CREATE INDEX hold_result_positive ON hold_result (hold_id) WHERE result = 'positive';
CREATE INDEX hold_end_positive ON hold_end (hold_id) WHERE outcome = 'positive';
`;
