/**
 * Tickets that animals had before their season was put right. Rows with a wrong season keep their printed ticket: the
 * numbering steps over it, so a book that could take no animal in any more does so again.
 */
export const formerTickets = `
CREATE TABLE former_ticket (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  season INTEGER NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  ticket TEXT NOT NULL UNIQUE,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX former_ticket_by_number ON former_ticket (season, number);
CREATE INDEX former_ticket_by_animal ON former_ticket (animal_id);

-- Animals received on a day that cannot be are looked for in each look at the record book.
CREATE INDEX animal_by_received ON animal (received_on);

CREATE TRIGGER former_ticket_no_update BEFORE UPDATE ON former_ticket
  BEGIN SELECT RAISE(ABORT, 'former_ticket is written once'); END;
CREATE TRIGGER former_ticket_no_delete BEFORE DELETE ON former_ticket
  BEGIN SELECT RAISE(ABORT, 'former_ticket is written once'); END;

-- What the season that an animal leaves had taught is learned again without it.
CREATE TRIGGER season_taught_is_left AFTER UPDATE OF season ON animal WHEN OLD.season <> NEW.season BEGIN
  DELETE FROM season_taught WHERE season = OLD.season;
END;
`;
