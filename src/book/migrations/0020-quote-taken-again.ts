/** A quote whose intake was canceled can be taken by another animal: one row for each animal, not one for each quote. */
export const quoteTakenAgain = `
CREATE TABLE quote_taken_again (
  quote_id INTEGER NOT NULL REFERENCES quote (id),
  animal_id INTEGER NOT NULL UNIQUE REFERENCES animal (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  PRIMARY KEY (quote_id, animal_id)
) STRICT;
INSERT INTO quote_taken_again SELECT quote_id, animal_id, at, by FROM quote_taken;
DROP TABLE quote_taken;
ALTER TABLE quote_taken_again RENAME TO quote_taken;

CREATE TRIGGER quote_taken_no_update BEFORE UPDATE ON quote_taken
  BEGIN SELECT RAISE(ABORT, 'quote_taken is written once'); END;
CREATE TRIGGER quote_taken_no_delete BEFORE DELETE ON quote_taken
  BEGIN SELECT RAISE(ABORT, 'quote_taken is written once'); END;
-- Two animals that both count would promise one price twice.
CREATE TRIGGER quote_taken_once BEFORE INSERT ON quote_taken
WHEN EXISTS (
  SELECT 1 FROM quote_taken t WHERE t.quote_id = NEW.quote_id AND t.animal_id <> NEW.animal_id
  AND NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = t.animal_id)
)
  BEGIN SELECT RAISE(ABORT, 'another animal has this quote'); END;

-- The animal that has each quote: not one whose intake was canceled.
CREATE VIEW quote_taken_now AS
  SELECT t.* FROM quote_taken t
  WHERE NOT EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = t.animal_id);
`;
