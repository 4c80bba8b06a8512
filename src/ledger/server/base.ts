/**
 * What a ledger has besides the books' tables, as steps that were released one after the other; never edit one. `prepare.ts`
 * runs them, and makes the tables of the books.
 */
export const BASE: readonly string[] = [
  `
CREATE SCHEMA IF NOT EXISTS ledger;

-- How far each part was prepared, and the oldest program that may still write.
CREATE TABLE ledger.version (
  part text PRIMARY KEY,
  version integer NOT NULL,
  least integer NOT NULL,
  at timestamptz NOT NULL DEFAULT now()
);

-- One row for each branch of a book. A restored book, or one that two computers go on with, is a new branch.
CREATE TABLE ledger.shop (
  shop integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  book text NOT NULL CHECK (book ~ '^[0-9a-f]{32}$'),
  branch integer NOT NULL CHECK (branch > 0),
  name text NOT NULL,
  -- The role that may write it.
  role name NOT NULL DEFAULT current_user,
  -- The last change of the book that is here; both in the transaction that wrote the rows.
  seq bigint NOT NULL DEFAULT 0,
  mark bigint NOT NULL DEFAULT 0,
  -- False while the rest of a large backlog is on its way: part of a bill may be missing.
  whole boolean NOT NULL DEFAULT false,
  book_version integer NOT NULL,
  -- Whether names, addresses and free text about customers are sent.
  personal boolean NOT NULL,
  superseded_by integer REFERENCES ledger.shop,
  began_at timestamptz NOT NULL DEFAULT now(),
  sent_at timestamptz,
  UNIQUE (book, branch)
);

-- One row for each batch that was taken.
CREATE TABLE ledger.taken (
  shop integer NOT NULL REFERENCES ledger.shop,
  upto bigint NOT NULL,
  since bigint NOT NULL,
  mark bigint NOT NULL,
  at timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (shop, upto)
);

-- Rows that PostgreSQL has no place for, such as text with U+0000. The body is JSON in plain text: nothing is lost.
CREATE TABLE ledger.quarantine (
  shop integer NOT NULL REFERENCES ledger.shop,
  tbl text NOT NULL,
  key text NOT NULL,
  why text NOT NULL,
  body text NOT NULL,
  at timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (shop, tbl, key)
);

-- Rows of tables that only a newer program knows, until the owner prepares the server with it.
CREATE TABLE ledger.other (
  shop integer NOT NULL REFERENCES ledger.shop,
  tbl text NOT NULL,
  key text NOT NULL,
  body jsonb NOT NULL,
  PRIMARY KEY (shop, tbl, key)
);

-- The branches that whoever asks may read and write.
CREATE FUNCTION ledger.mine() RETURNS SETOF integer LANGUAGE sql STABLE
  AS 'SELECT shop FROM ledger.shop WHERE role = current_user';
`,
  `
-- What each shop has learned, as sums without any customer's data. Every shop reads all of them.
CREATE TABLE ledger.shared_lesson (
  -- The random mark of the shop that learned it: nobody else can write under it.
  source text PRIMARY KEY,
  shop integer NOT NULL REFERENCES ledger.shop,
  label text NOT NULL,
  body text NOT NULL,
  at timestamptz NOT NULL DEFAULT now()
);
`,
];

/** The oldest version of the base that this program can write to. */
export const LEAST_BASE = 1;

/** Tables of the base whose rows belong to a shop. */
export const BASE_TABLES: readonly string[] = ['taken', 'quarantine', 'other', 'shared_lesson'];

/** Those of them that every shop reads. */
export const SHARED_TABLES: readonly string[] = ['shared_lesson'];
