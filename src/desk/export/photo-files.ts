/** Photographs in an archive: `photos/26-0147/tag 3f79bb7b.jpg`, each file as it lies beside the book. */
import type { Db } from '../../book/file/db.ts';
import { photoFolder, readPhoto } from '../../book/file/photos/files.ts';
import type { ZipFile } from './zip.ts';

/** Digits of a digest in a name: enough to find its row. */
const SHORT = 8;

interface Named {
  ticket: string;
  kind: string;
  digest: string;
}

/**
 * All photographs that stand, or those of one hunter's animals. Files that are missing or altered are left out: the table of
 * photographs names them.
 */
export function* photoFiles(db: Db, bookPath: string, hunterId: number | null = null): Generator<ZipFile> {
  const rows = db
    .prepare<{ hunterId: number | null }, Named>(
      `SELECT DISTINCT a.ticket, p.kind, p.digest FROM photograph_now p JOIN animal a ON a.id = p.animal_id
       WHERE @hunterId IS NULL OR a.hunter_id = @hunterId ORDER BY p.id`,
    )
    .all({ hunterId });
  for (const { ticket, kind, digest } of rows)
    yield {
      name: `photos/${ticket}/${kind} ${digest.slice(0, SHORT)}.jpg`,
      bytes: () => {
        const file = readPhoto(photoFolder(bookPath), digest);
        return file.state === 'here' ? file.bytes : null;
      },
    };
}
