import type { Db } from './open.ts';

/** Finished seasons boiled down to what they teach; triggers throw away what is no longer so. */
export function seasonsTaught(db: Db) {
  const all = db.prepare<[string], { season: number; body: string }>(
    'SELECT season, body FROM season_taught WHERE rule = ?',
  );
  const put = db.prepare('INSERT OR REPLACE INTO season_taught (season, rule, body) VALUES (?, ?, ?)');
  const seasons = db
    .prepare<[], number>(
      // One step down the index for each season, however many animals each has.
      `WITH RECURSIVE s (season) AS (
         SELECT min(season) FROM animal_sum
         UNION ALL SELECT (SELECT min(a.season) FROM animal_sum a WHERE a.season > s.season) FROM s WHERE s.season IS NOT NULL)
       SELECT season FROM s WHERE season IS NOT NULL`,
    )
    .pluck();
  return {
    /** Seasons with animals, oldest first. */
    seasons: () => seasons.all(),
    /** Those boiled down by this rule. */
    kept: (rule: string) =>
      new Map(all.all(rule).map(({ season, body }) => [season, JSON.parse(body) as unknown])),
    keep: (season: number, rule: string, body: unknown): void =>
      void put.run(season, rule, JSON.stringify(body)),
  };
}
