/** Files of temperature loggers, each undone as a whole, and stays in coolers that are written once like the rest. */
export const coolerLogs = `
-- One file of a logger. It wrote its readings in one go, so their ids run without a gap from first to last.
CREATE TABLE cooler_log (
  id INTEGER PRIMARY KEY,
  cooler_id INTEGER NOT NULL REFERENCES cooler (id),
  file TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  temperature_first INTEGER NOT NULL REFERENCES cooler_temperature (id),
  temperature_last INTEGER NOT NULL REFERENCES cooler_temperature (id),
  known INTEGER NOT NULL CHECK (known >= 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE cooler_log_undone (
  cooler_log_id INTEGER PRIMARY KEY REFERENCES cooler_log (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

DROP VIEW cooler_temperature_now;
CREATE VIEW cooler_temperature_now AS
  SELECT t.* FROM cooler_temperature t
  WHERE NOT EXISTS (SELECT 1 FROM cooler_temperature_void v WHERE v.temperature_id = t.id)
    AND NOT EXISTS (SELECT 1 FROM cooler_log_undone u JOIN cooler_log l ON l.id = u.cooler_log_id
      WHERE t.id BETWEEN l.temperature_first AND l.temperature_last);

CREATE TRIGGER cooler_log_no_update BEFORE UPDATE ON cooler_log
  BEGIN SELECT RAISE(ABORT, 'cooler_log is written once'); END;
CREATE TRIGGER cooler_log_no_delete BEFORE DELETE ON cooler_log
  BEGIN SELECT RAISE(ABORT, 'cooler_log is written once'); END;
CREATE TRIGGER cooler_log_undone_no_update BEFORE UPDATE ON cooler_log_undone
  BEGIN SELECT RAISE(ABORT, 'cooler_log_undone is written once'); END;
CREATE TRIGGER cooler_log_undone_no_delete BEFORE DELETE ON cooler_log_undone
  BEGIN SELECT RAISE(ABORT, 'cooler_log_undone is written once'); END;
CREATE TRIGGER cooler_stay_no_update BEFORE UPDATE ON cooler_stay
  BEGIN SELECT RAISE(ABORT, 'cooler_stay is written once'); END;
CREATE TRIGGER cooler_stay_no_delete BEFORE DELETE ON cooler_stay
  BEGIN SELECT RAISE(ABORT, 'cooler_stay is written once'); END;
`;
