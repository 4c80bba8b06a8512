/** An in-memory cache of a season's rows, since the season views read the same thousands of rows repeatedly. */
import type { ChangeLog } from '../changes/change-log.ts';
import type { Db } from '../file/db.ts';

/** The number of seasons compared side by side. Each takes some megabytes. */
const MAX_SEASONS = 2;

/**
 * Rows of a season's animals, read once; after a change only rows of the changed animals are read again. All callers
 * share them, so they must not be modified.
 * @param sql the query for some animals of `animal_sum s`, by a condition; its rows contain their `animal_id`
 * @param kept maps a row to its cached form
 */
export function cachedRows<Raw extends { animal_id: number }, Row>(
  db: Db,
  changes: ChangeLog,
  sql: (condition: string) => string,
  kept: (raw: Raw) => Row,
): (season: number) => readonly Row[] {
  const all = db.prepare<[number], Raw>(sql('s.season = ?'));
  const one = db.prepare<[number, number], Raw>(sql('s.season = ? AND s.animal_id = ?'));
  const seasons = new Map<number, { byAnimal: Map<number, Row[]>; rows: readonly Row[]; mark: number }>();

  function readAll(season: number): readonly Row[] {
    const mark = changes.mark();
    const byAnimal = new Map<number, Row[]>();
    const rows = all.all(season).map((raw) => {
      const row = kept(raw);
      const beside = byAnimal.get(raw.animal_id);
      if (beside) beside.push(row);
      else byAnimal.set(raw.animal_id, [row]);
      return row;
    });
    seasons.delete(season);
    seasons.set(season, { byAnimal, rows, mark });
    const [oldest] = seasons.keys();
    if (seasons.size > MAX_SEASONS && oldest !== undefined) seasons.delete(oldest);
    return rows;
  }

  return (season) => {
    const known = seasons.get(season);
    const since = known && changes.since(known.mark);
    if (!known || !since) return readAll(season);
    for (const id of since.animals.keys()) {
      const rows = one.all(season, id).map(kept);
      if (rows.length > 0) known.byAnimal.set(id, rows);
      else known.byAnimal.delete(id);
    }
    if (since.animals.size > 0) known.rows = [...known.byAnimal.values()].flat();
    known.mark = since.mark;
    return known.rows;
  };
}
