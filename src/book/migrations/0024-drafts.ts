/**
 * What a hunter typed at the shop's own check-in, before an animal has a ticket. A draft is written once; its newest state
 * counts. Only the removal of personal details changes a draft.
 */
const writtenOnce = ['draft', 'draft_state']
  .flatMap((table) =>
    (['UPDATE', 'DELETE'] as const).map(
      (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
    ),
  )
  .join('\n');

export const drafts = `
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
) STRICT;
CREATE INDEX draft_by_at ON draft (at);

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
CREATE INDEX draft_state_by_draft ON draft_state (draft_id);
CREATE TRIGGER draft_state_taken BEFORE INSERT ON draft_state
WHEN EXISTS (SELECT 1 FROM draft_state s WHERE s.draft_id = NEW.draft_id AND s.state = 'taken')
BEGIN SELECT RAISE(ABORT, 'a draft becomes one ticket'); END;

CREATE VIEW draft_now AS
  SELECT d.*, coalesce(s.state, 'open') AS state, s.animal_id
  FROM draft d LEFT JOIN draft_state s ON s.id = (SELECT max(m.id) FROM draft_state m WHERE m.draft_id = d.id);

${writtenOnce}
`;
