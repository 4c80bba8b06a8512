/** Whom an animal was handed to, and when, put right afterwards: what was written first stays. */
export const releaseMended = `
CREATE TABLE release_mend (
  id INTEGER PRIMARY KEY,
  release_id INTEGER NOT NULL REFERENCES release (id),
  given_to TEXT NOT NULL CHECK (length(given_to) > 0),
  released_on TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX release_mend_by_release ON release_mend (release_id);

CREATE TRIGGER release_mend_no_update BEFORE UPDATE ON release_mend
  BEGIN SELECT RAISE(ABORT, 'release_mend is written once'); END;
CREATE TRIGGER release_mend_no_delete BEFORE DELETE ON release_mend
  BEGIN SELECT RAISE(ABORT, 'release_mend is written once'); END;

-- Each handing over as it was last put right.
CREATE VIEW release_now AS
  SELECT r.id, r.animal_id, coalesce(m.given_to, r.given_to) AS given_to,
    coalesce(m.released_on, r.released_on) AS released_on, r.unpaid_override, r.note, r.at, r.by
  FROM release r LEFT JOIN release_mend m
    ON m.id = (SELECT max(newest.id) FROM release_mend newest WHERE newest.release_id = r.id);
`;
