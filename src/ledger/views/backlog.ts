import example from '../../../resources/example-costs.json' with { type: 'json' };
import { WHOSE, type ReportView } from './view.ts';

/** Numbers of the newest result or outcome of each hold decide whether an animal tested positive (`hold_now` of the book). */
const POSITIVE = `
  SELECT h.shop, h.animal_id FROM ledger.hold h
    LEFT JOIN (SELECT DISTINCT ON (shop, hold_id) shop, hold_id, outcome FROM ledger.hold_end ORDER BY shop, hold_id, id DESC) e
      ON e.shop = h.shop AND e.hold_id = h.id
    LEFT JOIN (SELECT DISTINCT ON (shop, hold_id) shop, hold_id, result FROM ledger.hold_result ORDER BY shop, hold_id, id DESC) r
      ON r.shop = h.shop AND r.hold_id = h.id
  WHERE coalesce(r.result, e.outcome) = 'positive'`;

export const backlogByAnimal: ReportView = {
  name: 'backlog_by_animal',
  about:
    'One row for each animal in work: hanging, being cut or packed, and not positive. Weights are in grams.',
  columns: [
    ...WHOSE,
    ['season', 'Year in which its season began.'],
    ['animal_id', 'Number of the animal in the shop’s own book.'],
    ['ticket', 'Ticket number.'],
    ['species', 'Code of the species.'],
    ['stage', 'hanging, cutting or packing.'],
    ['received_on', 'Day of intake.'],
    ['uncut', 'Whether it waits for the knife: no part and no package is weighed.'],
    ['base_grams', 'Its weight, as take-home is a share of it; NULL before it is weighed.'],
    ['trim_left_grams', 'Trim that waits for the grinder.'],
  ],
  select: `
    SELECT w.shop, n.name, w.season, w.animal_id, a.ticket, w.species, w.stage, ledger.day(w.received_on),
      w.stage <> 'packing' AND w.cut_at IS NULL, w.base, greatest(0, coalesce(w.trim, 0) - w.trim_ground)
    FROM ledger.animal_sum w JOIN ledger.shop_now n ON n.shop = w.shop
      JOIN ledger.animal a ON a.shop = w.shop AND a.id = w.animal_id
    WHERE w.stage IN ('hanging', 'cutting', 'packing')
      AND NOT EXISTS (SELECT FROM (${POSITIVE}) p WHERE p.shop = w.shop AND p.animal_id = w.animal_id)`,
}; // prettier-ignore

const minutes = (service: 'cutting' | 'grinding', figure: 'minutesPerAnimal' | 'minutesPerKg'): string =>
  `CASE WHEN m.own THEN ledger.number_at(m.body, '{services,${service},${figure}}') ELSE ${example.services[service][figure]} END`;

const hours = (service: 'cutting' | 'grinding', jobs: string, grams: string): string =>
  `((${jobs}) * (${minutes(service, 'minutesPerAnimal')}) + (${grams}) / 1000 * (${minutes(service, 'minutesPerKg')})) / 60`;

/** The same as the desk's (`desk/season/backlog.ts`). Hours of several species do not add up: each grinds batches of its own. */
function backlogBy(kind: 'shop' | 'species'): ReportView {
  const species = kind === 'species' ? ', b.species' : '';
  return {
    name: `backlog_by_${kind}`,
    about: `Work that waits, for each shop and season${kind === 'species' ? ' and species' : ''} with an animal in work. Hours are by the shop’s own minutes, or by an example.`,
    columns: [
      ...WHOSE,
      ['season', 'Year in which the season began.'],
      ...(kind === 'species' ? [['species', 'Code of the species.'] as const] : []),
      ['animals', 'Animals that wait for the knife.'],
      ['weighed_grams', 'Weight of those that are weighed.'],
      ['unweighed', 'Number of those that are not.'],
      [
        'expected_grams',
        'Weight of all of them: an unweighed one counts with the mean of its species in its season and shop.',
      ],
      ['cut_hours', 'Hours of cutting.'],
      ['trim_grams', 'Trim that waits for the grinder.'],
      ['grind_hours', 'Hours of grinding, in batches of the usual size.'],
      ['own_minutes', 'Whether the shop typed its own minutes; false: those of the supplied example.'],
    ],
    select: `
      SELECT b.shop, b.shop_name, b.season${species}, b.animals, b.grams, b.unweighed, b.grams + b.to_come,
        ${hours('cutting', 'b.animals', 'b.grams + b.to_come')}, b.trim,
        ${hours('grinding', `ceil(b.trim / coalesce(z.grams, ${example.weighed.grinding.receivedGrams}))`, 'b.trim')}, m.own
      FROM (
        SELECT b.shop, b.shop_name, b.season${species}, count(*) FILTER (WHERE b.uncut) AS animals,
          coalesce(sum(b.base_grams) FILTER (WHERE b.uncut), 0) AS grams,
          count(*) FILTER (WHERE b.uncut AND b.base_grams IS NULL) AS unweighed,
          coalesce(sum(coalesce(u.grams, ${example.weighed.cutting.receivedGrams})) FILTER (WHERE b.uncut AND b.base_grams IS NULL), 0) AS to_come,
          sum(b.trim_left_grams) AS trim
        FROM ledger.backlog_by_animal b
          LEFT JOIN (SELECT shop, season, species, avg(base) AS grams FROM ledger.animal_sum GROUP BY shop, season, species) u
            ON u.shop = b.shop AND u.season = b.season AND u.species = b.species
        GROUP BY b.shop, b.shop_name, b.season${species}
      ) b
        LEFT JOIN (SELECT shop, season, avg(own) AS grams FROM ledger.batch_sum WHERE state = 'done' AND own > 0 GROUP BY shop, season) z
          ON z.shop = b.shop AND z.season = b.season
        CROSS JOIN LATERAL (
          SELECT c.body, coalesce(${(['cutting', 'grinding'] as const)
            .flatMap((service) =>
              (['minutesPerAnimal', 'minutesPerKg'] as const).map(
                (figure) => `ledger.number_at(c.body, '{services,${service},${figure}}') >= 0`,
              ),
            )
            .join(' AND ')}, false) AS own
          FROM (SELECT (SELECT ledger.json_of(s.value) FROM ledger.setting s WHERE s.shop = b.shop AND s.key = 'costing') AS body) c
        ) m`,
  };
}

export const backlogBySpecies = backlogBy('species');
export const backlogByShop = backlogBy('shop');
