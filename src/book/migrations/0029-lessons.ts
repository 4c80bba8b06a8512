/**
 * What shops teach each other: sums without any customer's data. What was given and taken is written once; whether a taken
 * one is used is its newest `lesson_use`.
 */
const writtenOnce = ['lesson_given', 'lesson', 'lesson_use']
  .flatMap((table) =>
    (['UPDATE', 'DELETE'] as const).map(
      (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
    ),
  )
  .join('\n');

export const lessons = `
CREATE TABLE lesson_given (
  id INTEGER PRIMARY KEY,
  -- A random mark of this shop, drawn at its first; it names nobody.
  source TEXT NOT NULL CHECK (length(source) > 0),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE TABLE lesson (
  id INTEGER PRIMARY KEY,
  -- The mark of the shop that gave it.
  source TEXT NOT NULL CHECK (length(source) > 0),
  -- What this shop calls the other.
  label TEXT NOT NULL CHECK (length(label) > 0),
  via TEXT NOT NULL CHECK (via IN ('file', 'ledger')),
  made_on TEXT NOT NULL,
  animals INTEGER NOT NULL CHECK (animals >= 0),
  batches INTEGER NOT NULL CHECK (batches >= 0),
  body TEXT NOT NULL CHECK (json_valid(body)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX lesson_by_source ON lesson (source);

CREATE TABLE lesson_use (
  id INTEGER PRIMARY KEY,
  lesson_id INTEGER NOT NULL REFERENCES lesson (id),
  used INTEGER NOT NULL CHECK (used IN (0, 1)),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX lesson_use_by_lesson ON lesson_use (lesson_id);

CREATE VIEW lesson_now AS
  SELECT l.*, coalesce(u.used, 1) AS used
  FROM lesson l LEFT JOIN lesson_use u ON u.id = (SELECT max(m.id) FROM lesson_use m WHERE m.lesson_id = l.id);

${writtenOnce}
`;
