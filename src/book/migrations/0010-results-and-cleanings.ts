/** What a laboratory reported on a held animal, and when the grinder was taken apart and cleaned. */
const WRITTEN_ONCE = ['hold_result', 'grinder_cleaning', 'grinder_cleaning_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const resultsAndCleanings = `
-- The newest row of a hold counts; 'none' takes back a result that was entered by mistake.
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
CREATE INDEX hold_result_by_hold ON hold_result (hold_id);

CREATE TABLE grinder_cleaning (
  id INTEGER PRIMARY KEY,
  -- The batch after which it was cleaned, where somebody said so.
  batch_id INTEGER REFERENCES batch (id),
  how TEXT NOT NULL CHECK (length(how) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX grinder_cleaning_by_moment ON grinder_cleaning (at);

CREATE TABLE grinder_cleaning_void (
  cleaning_id INTEGER PRIMARY KEY REFERENCES grinder_cleaning (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

${writtenOnce}

-- Cleanings that count: not voided.
CREATE VIEW grinder_cleaning_now AS
  SELECT c.* FROM grinder_cleaning c
  WHERE NOT EXISTS (SELECT 1 FROM grinder_cleaning_void v WHERE v.cleaning_id = c.id);

-- Holds that last. Before results had rows of their own, hold_end said what was found.
DROP VIEW hold_now;
CREATE VIEW hold_now AS
  SELECT h.id, h.animal_id, h.reason, h.sample, h.at, h.by,
    (coalesce(r.result, e.outcome) IS 'positive') AS positive
  FROM hold h LEFT JOIN hold_end e ON e.hold_id = h.id
  LEFT JOIN hold_result r ON r.id = (SELECT max(n.id) FROM hold_result n WHERE n.hold_id = h.id)
  WHERE CASE WHEN r.id IS NULL THEN e.hold_id IS NULL OR e.outcome = 'positive' ELSE r.result <> 'not detected' END;
`;
