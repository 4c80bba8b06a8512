import { WHOSE, type ReportView } from './view.ts';

/** A place in a saved quote. */
const quoted = (path: string): string => `ledger.number_at(j.body, '{${path}}')`;

/** The same as the desk compares (`desk/quotes/kept-quotes.ts`): what goes home is the animal's own meat and what was added to it. */
export const quoteAccuracy: ReportView = {
  name: 'quote_accuracy',
  about:
    'One row for each animal that was taken in with a quote and is finished: what was quoted, and what came of it. Weights are in grams.',
  columns: [
    ...WHOSE,
    ['season', 'Season of the animal.'],
    ['animal_id', 'Number of the animal in the shop’s own book.'],
    ['ticket', 'Ticket number of the animal.'],
    ['species', 'Code of the species.'],
    ['quote', 'Name of the quote.'],
    ['quoted_hanging_grams', 'Hanging weight that the quote expected.'],
    ['base_grams', 'The weight that take-home is a share of, as weighed.'],
    ['quoted_low_grams', 'Lowest quoted take-home.'],
    ['quoted_mean_grams', 'Expected quoted take-home.'],
    ['quoted_high_grams', 'Highest quoted take-home.'],
    ['take_home_grams', 'What went home: own meat and fat, bought fat, and what recipes added less what cooks lost.'],
    ['held', 'Whether that is within the quoted range.'],
    ['off_share', 'How far it is from the expected take-home, as a fraction of that: 0.1 is a tenth more than quoted.'],
  ],
  select: `
    SELECT r.shop, r.name, r.season, r.animal_id, r.ticket, r.species, r.quote, r.hanging, r.base, r.low, r.mean, r.high, r.home,
      r.home BETWEEN r.low AND r.high, r.home / nullif(r.mean, 0) - 1
    FROM (
      SELECT w.shop, n.name, w.season, w.animal_id, a.ticket, w.species, q.name AS quote, w.base,
        ${quoted('hangingGrams,mean')} AS hanging, ${quoted('takeHomeGrams,low')} AS low, ${quoted('takeHomeGrams,mean')} AS mean,
        ${quoted('takeHomeGrams,high')} AS high, w.take_home + coalesce(g.bought, 0) + coalesce(g.changed, 0) AS home
      FROM ledger.quote_taken t JOIN ledger.shop_now n ON n.shop = t.shop
        JOIN ledger.animal_sum w ON w.shop = t.shop AND w.animal_id = t.animal_id
        JOIN ledger.animal a ON a.shop = t.shop AND a.id = t.animal_id
        JOIN ledger.quote q ON q.shop = t.shop AND q.id = t.quote_id
        CROSS JOIN LATERAL (SELECT ledger.json_of(q.answered) AS body OFFSET 0) j
        LEFT JOIN (
          SELECT x.shop, x.animal_id, sum(x.grams * s.bought / s.own) AS bought, sum(x.grams * m.grams / s.own) AS changed
          FROM ledger.batch_source_sum x JOIN ledger.batch_sum s ON s.shop = x.shop AND s.batch_id = x.batch_id
            LEFT JOIN (
              SELECT m.shop, m.batch_id, sum(p.grams - o.grams) AS grams
              FROM ledger.made_batch m
                JOIN (SELECT k.shop, k.made_id, sum(w.grams) AS grams FROM ledger.made_package k
                  JOIN ledger.weighing w ON w.shop = k.shop AND w.id = k.weighing_id
                  WHERE NOT EXISTS (SELECT FROM ledger.weighing_void v WHERE v.shop = w.shop AND v.weighing_id = w.id)
                  GROUP BY k.shop, k.made_id) p ON p.shop = m.shop AND p.made_id = m.id
                JOIN (SELECT DISTINCT ON (shop, made_id) shop, made_id, grams FROM ledger.made_start ORDER BY shop, made_id, id DESC) o
                  ON o.shop = m.shop AND o.made_id = m.id
              WHERE NOT EXISTS (SELECT FROM ledger.made_batch_void v WHERE v.shop = m.shop AND v.made_id = m.id)
              GROUP BY m.shop, m.batch_id
            ) m ON m.shop = x.shop AND m.batch_id = x.batch_id
          WHERE x.animal_id > 0 AND s.own > 0 GROUP BY x.shop, x.animal_id
        ) g ON g.shop = t.shop AND g.animal_id = t.animal_id
      WHERE w.finished = 1 AND w.base > 0 AND w.take_home IS NOT NULL
    ) r`,
}; // prettier-ignore
