import { WHOSE, type ReportView } from './view.ts';

/** What was weighed in is the shop's own sum (`batch_sum_now` of the book). */
export const fatByBatch: ReportView = {
  name: 'fat_by_batch',
  about:
    'One row for each batch of the grinder, finished or not. Weights are in grams, without voided ones; fat is a fraction (0.2 is 20%).',
  columns: [
    ...WHOSE,
    ['season', 'Year in which its season began.'],
    ['batch_id', 'Number of the batch in the shop’s own book.'],
    ['batch', 'Name of the batch, such as G26-012; each shop counts for itself.'],
    ['started_on', 'Day on which it was started.'],
    ['product', 'What was made.'],
    ['finished', 'Whether the batch is finished.'],
    ['target_fat', 'Fat that was wanted; NULL without a target.'],
    ['planned_fat', 'Fat that its plan came to.'],
    ['tested_fat', 'The newest fat test; NULL without one.'],
    ['own_grams', 'Meat and saved fat of animals that went in.'],
    ['bought_fat_grams', 'Bought fat that went in.'],
    ['out_grams', 'Packages that came out.'],
    ['species', 'Codes of the species in it; empty for a batch without an animal.'],
    ['tickets', 'Tickets of the animals in it.'],
  ],
  select: `
    SELECT b.shop, n.name, b.season, b.id, b.name, ledger.day(b.started_on), b.product, b.state = 'done', b.target_fat,
      ledger.number_at(ledger.json_of(b.plan), '{fat}'), t.fat, s.own, s.bought, s.out,
      ARRAY(SELECT DISTINCT w.species FROM ledger.batch_animal m JOIN ledger.animal_sum w ON w.shop = m.shop AND w.animal_id = m.animal_id
        WHERE m.shop = b.shop AND m.batch_id = b.id ORDER BY 1),
      ARRAY(SELECT a.ticket FROM ledger.batch_animal m JOIN ledger.animal a ON a.shop = m.shop AND a.id = m.animal_id
        WHERE m.shop = b.shop AND m.batch_id = b.id ORDER BY a.id)
    FROM ledger.batch b JOIN ledger.shop_now n ON n.shop = b.shop
      LEFT JOIN ledger.batch_sum s ON s.shop = b.shop AND s.batch_id = b.id
      LEFT JOIN (SELECT DISTINCT ON (shop, batch_id) shop, batch_id, fat FROM ledger.fat_test ORDER BY shop, batch_id, id DESC) t
        ON t.shop = b.shop AND t.batch_id = b.id`,
}; // prettier-ignore
