import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import type { SumFilter } from './season-filter.ts';

/** Take-home shares, read from the index that contains all filter columns. */
export function seasonYields(db: Db) {
  const species = filtered<{ species: string; animals: number }>(
    db,
    (conditions) =>
      `SELECT s.species, count(*) AS animals FROM animal_sum s WHERE ${conditions} GROUP BY s.species ORDER BY 2 DESC, 1`,
  );
  const days = filtered<{ first: string | null; last: string | null }>(
    db,
    (conditions) =>
      `SELECT min(s.received_on) AS first, max(s.received_on) AS last FROM animal_sum s WHERE ${conditions}`,
  );
  const cutters = filtered<{ cutter: string }>(
    db,
    (conditions) =>
      `SELECT DISTINCT s.cutter FROM animal_sum s WHERE ${conditions} AND s.cutter IS NOT NULL ORDER BY 1`,
  );
  const shares = filtered<{ n: number }>(
    db,
    (conditions) =>
      `SELECT count(*) AS n FROM animal_sum s INDEXED BY animal_sum_by_share WHERE s.share IS NOT NULL AND ${conditions}`,
  );
  const ranked = filtered<{ share: number }>(
    db,
    (conditions) =>
      `SELECT s.share FROM animal_sum s INDEXED BY animal_sum_by_share
       WHERE s.share IS NOT NULL AND ${conditions} ORDER BY s.share LIMIT 2 OFFSET @rank`,
  );
  return {
    /** Received species, most animals first. */
    species: (filter: SumFilter) => species.all(filter),
    days: (filter: SumFilter) => days.get(filter) ?? { first: null, last: null },
    cutters: (filter: SumFilter) => cutters.all(filter).map(({ cutter }) => cutter),
    /** Number of shares; the filter names a species and a season, as below. */
    shares: (filter: SumFilter & { species: string; season: number }) => shares.get(filter)?.n ?? 0,
    /** The share of this rank (from 0, ascending) and the next. */
    ranked: (filter: SumFilter & { species: string; season: number }, rank: number) =>
      ranked.all(filter, { rank }).map(({ share }) => share),
  };
}
