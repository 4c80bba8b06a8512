import { filtered } from './filtered.ts';
import type { Db } from './open.ts';
import type { SumFilter } from './season-filter.ts';

/** One finished animal's share of take-home, and what it can be parted by. */
export interface SharePoint {
  animal_id: number;
  share: number;
  brought: string;
  sex: string;
  age: string;
  damaged: 0 | 1;
  detail: string;
  cutter: string | null;
}

export interface SeasonCount {
  animals: number;
  take_home: number;
  untold: number;
}

/** Take-home shares, read off the index that holds all that a view filters by. */
export function seasonYields(db: Db) {
  const counts = filtered<SeasonCount>(
    db,
    (conditions) =>
      `SELECT count(*) AS animals, total(iif(s.finished = 1, s.take_home, NULL)) AS take_home,
         count(iif(s.stage IN ('packing', 'ready', 'released') AND s.share IS NULL, 1, NULL)) AS untold
       FROM animal_sum s WHERE ${conditions}`,
  );
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
  const points = filtered<SharePoint>(
    db,
    (conditions) =>
      `SELECT s.animal_id, s.share, s.brought, s.sex, s.age, s.damaged, s.detail, s.cutter
       FROM animal_sum s INDEXED BY animal_sum_by_share WHERE s.share IS NOT NULL AND ${conditions}
       ORDER BY s.species, s.season, s.share`,
  );
  const seasons = filtered<{ season: number; n: number }>(
    db,
    (conditions) =>
      `SELECT s.season, count(*) AS n FROM animal_sum s INDEXED BY animal_sum_by_share
       WHERE s.share IS NOT NULL AND ${conditions} GROUP BY s.season ORDER BY 1`,
  );
  const ranked = filtered<{ share: number }>(
    db,
    (conditions) =>
      `SELECT s.share FROM animal_sum s INDEXED BY animal_sum_by_share
       WHERE s.share IS NOT NULL AND ${conditions} ORDER BY s.share LIMIT 2 OFFSET @rank`,
  );
  const tickets = db.prepare<[string], { id: number; ticket: string }>(
    'SELECT a.id, a.ticket FROM json_each(?) j JOIN animal a ON a.id = j.value',
  );
  return {
    counts: (filter: SumFilter): SeasonCount => counts.get(filter) ?? { animals: 0, take_home: 0, untold: 0 },
    /** Species that came in, most first. */
    species: (filter: SumFilter) => species.all(filter),
    days: (filter: SumFilter) => days.get(filter) ?? { first: null, last: null },
    cutters: (filter: SumFilter) => cutters.all(filter).map(({ cutter }) => cutter),
    /** In ascending order of share; the filter names a species and a season. */
    points: (filter: SumFilter & { species: string; season: number }) => points.all(filter),
    /** How many shares each season has; the filter names a species. */
    seasons: (filter: SumFilter & { species: string }) => seasons.all(filter),
    /** The share of this rank (from 0, ascending) and the next; the filter names a species and a season. */
    ranked: (filter: SumFilter & { species: string; season: number }, rank: number) =>
      ranked.all(filter, { rank }).map(({ share }) => share),
    tickets: (ids: readonly number[]) =>
      new Map(tickets.all(JSON.stringify(ids)).map((one) => [one.id, one.ticket])),
  };
}
