/** Books that another program built something into, or took something out of. */
import Database from 'better-sqlite3';

/** A way to alter a book, and what of it is named. */
export interface Alteration {
  title: string;
  alter: (db: Database.Database) => void;
  named: { how: string; what: string; name: string } | null;
}

const sql = (title: string, text: string, how: string, what: string, name: string): Alteration => ({
  title,
  alter: (db) => void db.exec(text),
  named: { how, what, name },
});

/** Writes into the schema itself, past every check of SQLite. */
function intoSchema(db: Database.Database, text: string): void {
  db.unsafeMode(true);
  db.pragma('writable_schema = ON');
  db.exec(text);
  db.pragma('writable_schema = RESET');
}

export const ALTERATIONS: readonly Alteration[] = [
  { title: 'a version of 0', alter: (db) => void db.pragma('user_version = 0'), named: null },
  { title: 'a version of -1', alter: (db) => void db.pragma('user_version = -1'), named: null },
  {
    title: 'an earlier version than it is of',
    alter: (db) => void db.pragma('user_version = 3'),
    named: null,
  },
  sql('a missing table', 'DROP TABLE call_note', 'missing', 'table', 'call_note'),
  sql(
    'a trigger that rewrites weights',
    "CREATE TRIGGER spy AFTER INSERT ON payment BEGIN UPDATE hunter SET note = 'was here'; END",
    'added',
    'trigger',
    'spy',
  ),
  sql(
    'a trigger that calls a function with side effects',
    "CREATE TRIGGER spy AFTER INSERT ON audit BEGIN SELECT load_extension('/tmp/none'); END",
    'added',
    'trigger',
    'spy',
  ),
  sql('a view', 'CREATE VIEW report AS SELECT * FROM weighing', 'added', 'view', 'report'),
  sql(
    'a view without an end',
    'CREATE VIEW report AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT x FROM n',
    'added',
    'view',
    'report',
  ),
  sql('an index', 'CREATE INDEX hunter_by_note ON hunter (note)', 'added', 'index', 'hunter_by_note'),
  sql(
    'an index on what a function says',
    'CREATE INDEX hunter_slow ON hunter (length(hex(zeroblob(length(note)))))',
    'added',
    'index',
    'hunter_slow',
  ),
  sql('another table', 'CREATE TABLE more (x)', 'added', 'table', 'more'),
  sql('a virtual table', 'CREATE VIRTUAL TABLE words USING fts5 (word)', 'added', 'table', 'words'),
  sql(
    'a column that is worked out',
    'ALTER TABLE hunter ADD COLUMN loud TEXT GENERATED ALWAYS AS (upper(name)) VIRTUAL',
    'changed',
    'table',
    'hunter',
  ),
  sql('a missing guard', 'DROP TRIGGER weighing_no_update', 'missing', 'trigger', 'weighing_no_update'),
  sql(
    'a guard that guards nothing',
    `DROP TRIGGER weighing_no_update;
     CREATE TRIGGER weighing_no_update BEFORE UPDATE ON weighing BEGIN SELECT 1; END`,
    'changed',
    'trigger',
    'weighing_no_update',
  ),
  sql(
    'a view of ours that says something else',
    'DROP VIEW weighing_now; CREATE VIEW weighing_now AS SELECT * FROM weighing',
    'changed',
    'view',
    'weighing_now',
  ),
  {
    title: 'a table whose checks were written out of the schema',
    alter: (db) =>
      intoSchema(
        db,
        "UPDATE sqlite_schema SET sql = replace(sql, 'CHECK (length(text) > 0)', '') WHERE name = 'call_note'",
      ),
    named: { how: 'changed', what: 'table', name: 'call_note' },
  },
  {
    title: 'a check that was put behind a comment',
    alter: (db) =>
      intoSchema(
        db,
        "UPDATE sqlite_schema SET sql = replace(sql, 'length(text) > 0', char(10) || '-- ' || char(10) || 'length(text) > 0') WHERE name = 'call_note'",
      ),
    named: { how: 'changed', what: 'table', name: 'call_note' },
  },
  {
    title: 'a virtual table that passes for the figures of SQLite',
    alter: (db) =>
      intoSchema(
        db,
        "DELETE FROM sqlite_schema WHERE name = 'sqlite_stat4'; INSERT INTO sqlite_schema VALUES ('table', 'sqlite_stat4', 'sqlite_stat4', 0, 'CREATE VIRTUAL TABLE sqlite_stat4 USING dbstat')",
      ),
    named: { how: 'added', what: 'table', name: 'sqlite_stat4' },
  },
  {
    title: 'a name that would turn a sentence around',
    alter: (db) => void db.exec(`CREATE VIEW "\u202Ex${'y'.repeat(200)}" AS SELECT 1`),
    named: { how: 'added', what: 'view', name: `�x${'y'.repeat(58)}…` },
  },
];

/** Alters the closed book at `path`. */
export function alterBook(path: string, { alter }: Alteration): void {
  const db = new Database(path);
  alter(db);
  db.close();
}
