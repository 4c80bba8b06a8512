/** The entries of the record book for a wildlife officer. */
import { eachRow } from '../file/each-row.ts';
import type { Db } from '../file/db.ts';
import type { AnimalStage, Brought, Sex } from '../../trade/animal.ts';

export interface OfficerRow {
  id: number;
  ticket: string;
  hunter: string;
  address: string;
  phone: string;
  /** When the owner's details were removed, or null. */
  details_removed_at: string | null;
  deliverer_name: string;
  deliverer_address: string;
  licence: string;
  tag: string;
  species: string;
  sex: Sex;
  brought: Brought;
  /** JSON: `[{ primal, count }]`. */
  parts: string;
  kill_date: string | null;
  kill_area: string;
  received_on: string;
  created_at: string;
  /** The imported file that it came from, or null. */
  from_file: string | null;
  stage: AnimalStage;
  origin: 'hunter' | 'farm';
  received_grams: number | null;
  hanging_grams: number | null;
  packed_grams: number | null;
  released_on: string | null;
  given_to: string | null;
  disposed_on: string | null;
  disposed_what: string | null;
  disposed_how: string | null;
  /** JSON: `[{ kind, tag, evidence, went, name, on }]`. */
  belongings: string;
  /** JSON: `[{ name, amount }]`; one or none for a single hunter. */
  sharers: string;
  /** JSON: `[{ program, grams, confirmation, on }]`. */
  donations: string;
  cancel_reason: string | null;
  canceled_at: string | null;
  /** The active hold: its reason, or `positive`. */
  hold: string | null;
  /** JSON: valid results, newest first: `[{ result, sample, lab, on }]`. */
  results: string;
  /** How many photographs stand. */
  photos: number;
  /** JSON: its batches: `[{ id, season }]`. */
  batches: string;
  /** Total of the active bill, or null. */
  billed_minor: number | null;
  billed_currency: string | null;
  paid_minor: number;
}

/** Filter of the entries; null matches all. */
export interface OfficerFilter {
  season: number | null;
  from: string | null;
  to: string | null;
  species: string | null;
  state: 'open' | 'closed' | null;
}

/** Only what is asked for: a condition that may be absent would keep SQLite from an index. */
const CONDITIONS: Readonly<Record<keyof OfficerFilter, string>> = {
  season: 'a.season = @season',
  from: 'a.received_on >= @from',
  to: 'a.received_on <= @to',
  species: 'a.species = @species',
  state: "(a.stage IN ('released', 'disposed')) = (@state = 'closed')",
};

/** The filtered entries, ordered by ticket. */
export function recordEntries(db: Db, filter: OfficerFilter): Generator<OfficerRow> {
  const fromFile = `(SELECT b.file FROM brought_in b WHERE a.id BETWEEN b.animal_first AND b.animal_last
    AND NOT EXISTS (SELECT 1 FROM brought_in_undone u WHERE u.brought_in_id = b.id))`;
  // A canceled intake stays in the record book and has no sums: its weights are added up here.
  const weighed = (stage: string): string =>
    `iif(s.animal_id IS NULL, (SELECT sum(w.grams) FROM weighing_now w WHERE w.animal_id = a.id AND w.stage = '${stage}'), s.${stage}) AS ${stage}_grams`;
  // One value each: a join with the view would first read the releases of all seasons.
  const released = (column: string): string =>
    `(SELECT r.${column} FROM release_now r WHERE r.animal_id = a.id) AS ${column}`;
  const asked = Object.fromEntries(
    Object.entries(filter).filter(([, value]) => value !== null),
  ) as Partial<OfficerFilter>;
  const conditions = (Object.keys(asked) as (keyof OfficerFilter)[]).map((key) => CONDITIONS[key]);
  const entries = db.prepare<Partial<OfficerFilter>, OfficerRow>(
    `SELECT a.id, a.ticket, h.name AS hunter, h.address, h.phone, h.details_removed_at, a.deliverer_name, a.deliverer_address, a.licence, a.tag, a.species,
       a.sex, a.brought, a.kill_date, a.kill_area, a.received_on, a.created_at, ${fromFile} AS from_file, iif(c.id IS NULL, a.stage, 'canceled') AS stage, a.origin,
       (SELECT json_group_array(json_object('primal', p.primal, 'count', p.count)) FROM animal_part p WHERE p.animal_id = a.id) AS parts,
       (SELECT json_group_array(json_object('kind', b.kind, 'tag', b.tag, 'evidence', b.evidence, 'went', e.went, 'name', e.name, 'on', e.ended_on))
          FROM belonging_now b LEFT JOIN belonging_end_now e ON e.belonging_id = b.id WHERE b.animal_id = a.id) AS belongings,
       (SELECT json_group_array(json_object('name', s.name, 'phone', s.phone, 'amount', s.amount, 'to', s.given_to, 'on', s.taken_on)) FROM
          (SELECT o.name, o.phone, n.amount, t.given_to, t.taken_on FROM share_now n JOIN hunter o ON o.id = n.hunter_id
             LEFT JOIN share_pickup_now t ON t.animal_id = n.animal_id AND t.hunter_id = n.hunter_id WHERE n.animal_id = a.id ORDER BY n.position) s) AS sharers,
       (SELECT json_group_array(json_object('program', n.program, 'grams', n.grams, 'confirmation', n.confirmation, 'on', n.donated_on))
          FROM donation_now n WHERE n.animal_id = a.id) AS donations,
       ${weighed('received')}, ${weighed('hanging')}, ${weighed('packed')},
       ${released('released_on')}, ${released('given_to')}, d.disposed_on, d.what AS disposed_what, d.how AS disposed_how,
       c.reason AS cancel_reason, c.at AS canceled_at,
       (SELECT iif(n.positive, 'positive', n.reason) FROM hold_now n WHERE n.animal_id = a.id ORDER BY n.positive DESC, n.id LIMIT 1) AS hold,
       (SELECT json_group_array(json_object('result', t.result, 'sample', t.sample, 'lab', t.lab, 'on', t.reported_on)) FROM (
          SELECT t.* FROM hold h JOIN hold_result t ON t.id = (SELECT max(x.id) FROM hold_result x WHERE x.hold_id = h.id)
          WHERE h.animal_id = a.id AND t.result <> 'none' ORDER BY t.id DESC) t) AS results,
       (SELECT json_group_array(json_object('id', b.id, 'season', b.season)) FROM batch_animal m JOIN batch b ON b.id = m.batch_id
          WHERE m.animal_id = a.id) AS batches,
       (SELECT count(*) FROM photograph_now p WHERE p.animal_id = a.id) AS photos,
       i.total_minor AS billed_minor, i.currency AS billed_currency,
       (SELECT CAST(total(iif(p.kind = 'refund', -p.amount_minor, p.amount_minor)) AS INTEGER) FROM payment p
          WHERE p.animal_id = a.id AND NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)) AS paid_minor
     FROM animal a JOIN hunter h ON h.id = a.hunter_id LEFT JOIN animal_sum s ON s.animal_id = a.id
     LEFT JOIN disposal_now d ON d.animal_id = a.id LEFT JOIN intake_cancel_now c ON c.animal_id = a.id
     LEFT JOIN bill i ON i.id = (SELECT b.id FROM bill b WHERE b.animal_id = a.id
       AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id) ORDER BY b.number DESC LIMIT 1)
     WHERE ${['1', ...conditions].join(' AND ')} ORDER BY a.season, a.number`,
  );
  return eachRow(entries, asked);
}
