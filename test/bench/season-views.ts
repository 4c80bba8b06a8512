/** Opening each Season view on the large book, beside one query that a careful hand would write for its main figure. */
import Database from 'better-sqlite3';
import type { BenchDesk } from './open-desk.ts';
import type { Measure } from './timing.ts';

const SEASON = 2026;

/** The best single statement that gives what the view's main picture shows, over the raw tables or the sums, whichever is quicker. */
const BY_HAND: Readonly<Record<string, string>> = {
  'season.yields': `SELECT species, share FROM animal_sum WHERE season = ${SEASON} AND share IS NOT NULL ORDER BY species, share`,
  'season.pounds': `SELECT species, count(*), sum(base), sum(take_home), sum(bone), sum(sinew), sum(damage), sum(trim), sum(fat_saved)
    FROM animal_sum WHERE season = ${SEASON} AND finished = 1 AND bone IS NOT NULL AND sinew IS NOT NULL GROUP BY species`,
  'season.fat': `SELECT b.id, b.name, b.target_fat, s.own, s.bought, s.out,
      (SELECT t.fat FROM fat_test t WHERE t.batch_id = b.id ORDER BY t.id DESC LIMIT 1) AS tested
    FROM batch b JOIN batch_sum s ON s.batch_id = b.id WHERE b.season = ${SEASON}`,
  'season.check': `SELECT a.ticket, q.answered ->> '$.takeHomeGrams.low', q.answered ->> '$.takeHomeGrams.mean', q.answered ->> '$.takeHomeGrams.high', s.take_home
    FROM quote_taken t JOIN quote q ON q.id = t.quote_id JOIN animal a ON a.id = t.animal_id JOIN animal_sum s ON s.animal_id = a.id
    WHERE s.season = ${SEASON} AND s.finished = 1`,
  'season.flow': `SELECT received_on, ready_on, cut_at FROM animal_sum WHERE season = ${SEASON}`,
  'costing.look': `SELECT s.species, l.code, sum(l.amount_minor) FROM animal_sum s JOIN bill b ON b.animal_id = s.animal_id
      JOIN bill_line l ON l.bill_id = b.id
    WHERE s.season = ${SEASON} AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id) GROUP BY 1, 2`,
  'season.compare': `SELECT species, avg(share), count(*) FROM animal_sum WHERE season = ${SEASON} AND species IN ('elk', 'mule-deer') GROUP BY 1`,
  'season.behind': `SELECT a.ticket, h.name, s.share FROM animal_sum s JOIN animal a ON a.id = s.animal_id JOIN hunter h ON h.id = a.hunter_id
    WHERE s.season = ${SEASON} AND s.species = 'elk' ORDER BY s.share DESC LIMIT 300`,
};

export function seasonViews(desk: BenchDesk): { measures: Measure[]; close: () => void } {
  const db = new Database(desk.path, { readonly: true });
  const season = SEASON;
  const views: Record<string, () => Promise<unknown>> = {
    'season.yields': () => desk.call('season.yields', { season }),
    'season.pounds': () => desk.call('season.pounds', { season }),
    'season.compare': () =>
      desk.call('season.compare', { a: { season, species: 'elk' }, b: { season, species: 'mule-deer' } }),
    'season.behind': () => desk.call('season.behind', { season, species: 'elk', order: 'takeHome' }),
    'season.fat': () => desk.call('season.fat', { season }),
    'season.check': () => desk.call('season.check', { season }),
    'season.flow': () => desk.call('season.flow', { season }),
    'costing.look': () => desk.call('costing.look', { season }),
  };
  return {
    measures: Object.entries(views).map(([name, run]) => {
      const byHand = db.prepare(BY_HAND[name] ?? '');
      return {
        name: `open ${name}`,
        run,
        baseline: { what: 'one query by hand', run: () => byHand.all() },
        bar: { ms: 100, ratio: 2 },
      };
    }),
    close: () => void db.close(),
  };
}
