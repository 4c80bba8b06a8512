import type { Db } from '../file/db.ts';

/** Stored summaries of finished seasons for the yield model. Triggers delete outdated ones. */
export function seasonSummaries(db: Db) {
  const all = db.prepare<[string], { season: number; body: string }>(
    'SELECT season, body FROM season_taught WHERE rule = ?',
  );
  const byRule = db.prepare<[string], number>('SELECT season FROM season_taught WHERE rule = ?').pluck();
  const put = db.prepare('INSERT OR REPLACE INTO season_taught (season, rule, body) VALUES (?, ?, ?)');
  const seasons = db
    .prepare<[], number>(
      // One index seek per season, however many animals each has.
      `WITH RECURSIVE s (season) AS (
         SELECT min(season) FROM animal_sum
         UNION ALL SELECT (SELECT min(a.season) FROM animal_sum a WHERE a.season > s.season) FROM s WHERE s.season IS NOT NULL)
       SELECT season FROM s WHERE season IS NOT NULL`,
    )
    .pluck();
  return {
    /** Seasons with animals, oldest first. */
    seasons: () => seasons.all(),
    /** Seasons without a summary by this rule, oldest first. */
    without(rule: string): number[] {
      const summarized = new Set(byRule.all(rule));
      return seasons.all().filter((season) => !summarized.has(season));
    },
    /** Summaries made by this rule. */
    stored: (rule: string) =>
      new Map(all.all(rule).map(({ season, body }) => [season, JSON.parse(body) as unknown])),
    keep: (season: number, rule: string, body: unknown): void =>
      void put.run(season, rule, JSON.stringify(body)),
  };
}
