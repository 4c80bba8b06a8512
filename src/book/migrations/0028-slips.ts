/**
 * Blank slips for night drop-off: a slip's code finds what was typed for it and the animal that came with it. Of a draft: whether
 * it was typed on the hunter's own phone, and which terms were signed.
 */
const writtenOnce = ['slip', 'slip_animal']
  .flatMap((table) =>
    (['UPDATE', 'DELETE'] as const).map(
      (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
    ),
  )
  .join('\n');

export const slips = `
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
CREATE INDEX slip_animal_by_animal ON slip_animal (animal_id);

ALTER TABLE draft ADD COLUMN slip_id INTEGER REFERENCES slip (id);
CREATE INDEX draft_by_slip ON draft (slip_id) WHERE slip_id IS NOT NULL;
ALTER TABLE draft ADD COLUMN by_phone INTEGER NOT NULL DEFAULT 0 CHECK (by_phone IN (0, 1));
-- The language of the terms, and since when they were the shop's; empty and NULL: not noted, or no terms.
ALTER TABLE draft ADD COLUMN terms_language TEXT NOT NULL DEFAULT '';
ALTER TABLE draft ADD COLUMN terms_since TEXT;

${writtenOnce}
`;
