/** What a station made while its line was down, by the name that it gave it, so that its later entries can say which they mean. */
export const madeAtStations = `
CREATE TABLE station_made (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  -- The station's own name for it, a UUID.
  made TEXT NOT NULL UNIQUE CHECK (length(made) = 36),
  -- The call that made it, and the row that it answered with.
  call TEXT NOT NULL CHECK (length(call) > 0),
  record_id INTEGER NOT NULL CHECK (record_id > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TRIGGER station_made_no_update BEFORE UPDATE ON station_made
  BEGIN SELECT RAISE(ABORT, 'station_made is written once'); END;
CREATE TRIGGER station_made_no_delete BEFORE DELETE ON station_made
  BEGIN SELECT RAISE(ABORT, 'station_made is written once'); END;
`;
