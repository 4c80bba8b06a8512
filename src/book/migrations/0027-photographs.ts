import { PHOTO_KINDS } from '../../trade/photo.ts';

/**
 * Photographs of animals. The picture is a file beside the book, named by its digest. Nothing is changed or deleted: a void and
 * the removal with a hunter's details are rows of their own.
 */
const writtenOnce = ['photograph', 'photograph_void', 'photograph_removal']
  .flatMap((table) =>
    (['UPDATE', 'DELETE'] as const).map(
      (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
    ),
  )
  .join('\n');

export const photographs = `
CREATE TABLE photograph (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  kind TEXT NOT NULL CHECK (kind IN (${PHOTO_KINDS.map((kind) => `'${kind}'`).join(', ')})),
  -- SHA-256 of the JPEG file.
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  bytes INTEGER NOT NULL CHECK (bytes > 0),
  width INTEGER NOT NULL CHECK (width > 0),
  height INTEGER NOT NULL CHECK (height > 0),
  -- Where it was taken; NULL: at the desk itself.
  station_id INTEGER REFERENCES station (id),
  taken_at TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX photograph_by_animal ON photograph (animal_id);
CREATE INDEX photograph_by_digest ON photograph (digest);

CREATE TABLE photograph_void (
  photograph_id INTEGER PRIMARY KEY REFERENCES photograph (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

-- Its file was deleted with the personal details of a hunter.
CREATE TABLE photograph_removal (
  photograph_id INTEGER PRIMARY KEY REFERENCES photograph (id),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

CREATE VIEW photograph_now AS
  SELECT p.* FROM photograph p
  WHERE NOT EXISTS (SELECT 1 FROM photograph_void v WHERE v.photograph_id = p.id)
    AND NOT EXISTS (SELECT 1 FROM photograph_removal r WHERE r.photograph_id = p.id);

${writtenOnce}
`;
