/**
 * Stations: devices of the shop's floor, what they entered and under which number, and the PINs of its people. Nothing is
 * changed or deleted: the newest name and the newest state of a station count.
 */
import { PLACES } from '../../trade/place.ts';

const WRITTEN_ONCE = [
  'station', 'station_name', 'station_state', 'station_line', 'station_entry', 'station_write', 'staff_pin',
]; // prettier-ignore

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

export const stations = `
CREATE TABLE station (
  id INTEGER PRIMARY KEY,
  -- SHA-256 of its secret, which the desk does not keep.
  secret_hash TEXT NOT NULL UNIQUE CHECK (length(secret_hash) = 64),
  -- Where its page came from when it was paired.
  origin TEXT NOT NULL,
  agent TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE station_name (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  name TEXT NOT NULL CHECK (length(name) > 0),
  place TEXT NOT NULL CHECK (place IN (${PLACES.map((place) => `'${place}'`).join(', ')})),
  language TEXT NOT NULL CHECK (length(language) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX station_name_by_station ON station_name (station_id);

CREATE TABLE station_state (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'paused', 'removed')),
  reason TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX station_state_by_station ON station_state (station_id);
CREATE TRIGGER station_state_removed BEFORE INSERT ON station_state
WHEN EXISTS (SELECT 1 FROM station_state s WHERE s.station_id = NEW.station_id AND s.state = 'removed')
BEGIN SELECT RAISE(ABORT, 'a removed station stays removed'); END;

CREATE VIEW station_now AS
  SELECT s.id, s.secret_hash, s.origin, s.agent, s.at, s.by, n.name, n.place, n.language,
    coalesce((SELECT t.state FROM station_state t WHERE t.station_id = s.id ORDER BY t.id DESC LIMIT 1), 'open') AS state
  FROM station s JOIN station_name n ON n.id = (SELECT max(m.id) FROM station_name m WHERE m.station_id = s.id);

-- The outbox of a station. A device that was wiped begins another.
CREATE TABLE station_line (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  line TEXT NOT NULL UNIQUE,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX station_line_by_station ON station_line (station_id);

-- One entry of an outbox with the answer that it got, for the station that asks again.
CREATE TABLE station_entry (
  id INTEGER PRIMARY KEY,
  line_id INTEGER NOT NULL REFERENCES station_line (id),
  -- 1, 2, 3 … of its line.
  number INTEGER NOT NULL CHECK (number > 0),
  -- The station's own name for it.
  entry TEXT NOT NULL UNIQUE,
  -- SHA-256 of what was entered.
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  wire INTEGER NOT NULL CHECK (wire > 0),
  call TEXT NOT NULL,
  answer TEXT NOT NULL CHECK (json_valid(answer)),
  -- Initials of who typed it; checked: signed in, else only said.
  person TEXT NOT NULL,
  checked INTEGER NOT NULL CHECK (checked IN (0, 1)),
  -- By the station's clock, and how far that was ahead of the desk's.
  typed_at TEXT NOT NULL,
  ahead_ms INTEGER NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL,
  UNIQUE (line_id, number)
) STRICT;
CREATE TRIGGER station_entry_in_order BEFORE INSERT ON station_entry
WHEN NEW.number <> (SELECT coalesce(max(e.number), 0) + 1 FROM station_entry e WHERE e.line_id = NEW.line_id)
BEGIN SELECT RAISE(ABORT, 'entries of a line have no gap'); END;

-- Every write that a station made, at once or from its outbox.
CREATE TABLE station_write (
  id INTEGER PRIMARY KEY,
  station_id INTEGER NOT NULL REFERENCES station (id),
  call TEXT NOT NULL,
  -- The row that the call answered with; empty: it names none.
  record_id TEXT NOT NULL,
  person TEXT NOT NULL,
  checked INTEGER NOT NULL CHECK (checked IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX station_write_by_record ON station_write (call, record_id);

-- The newest row of somebody counts; no hash: the PIN was taken away.
CREATE TABLE staff_pin (
  id INTEGER PRIMARY KEY,
  initials TEXT NOT NULL REFERENCES staff (initials),
  salt TEXT NOT NULL,
  hash TEXT,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX staff_pin_by_initials ON staff_pin (initials);

-- Who wrote at which station; NULL: at the desk itself.
ALTER TABLE audit ADD COLUMN station_id INTEGER REFERENCES station (id);
ALTER TABLE audit ADD COLUMN person TEXT;
ALTER TABLE audit ADD COLUMN checked INTEGER CHECK (checked IN (0, 1));

${writtenOnce}
`;
