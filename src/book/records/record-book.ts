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
interface OfficerFilter {
  season: number | null;
  from: string | null;
  to: string | null;
  species: string | null;
  state: 'open' | 'closed' | null;
}

interface DisposalRow {
  what: string;
  how: string;
  reason: string;
  disposed_on: string;
  by: string;
}

interface TicketRun {
  season: number;
  first: number;
  last: number;
  firstTicket: string;
  lastTicket: string;
  entries: number;
}

/** An animal whose received date is impossible. */
interface WrongDayRow {
  id: number;
  ticket: string;
  received_on: string;
}

interface ReleaseRow {
  id: number;
  given_to: string;
  /** The recipient as first entered. */
  first_to: string;
  released_on: string;
  at: string;
  by: string;
}

interface Voiding {
  animalId: number;
  reason: string;
  at: string;
  by: string;
}

/** The record book for a wildlife officer, including releases and disposals. */
export function recordBook(db: Db) {
  const weighed = (stage: string): string =>
    `(SELECT sum(w.grams) FROM weighing_now w WHERE w.animal_id = a.id AND w.stage = '${stage}')`;
  const fromFile = `(SELECT b.file FROM brought_in b WHERE a.id BETWEEN b.animal_first AND b.animal_last
    AND NOT EXISTS (SELECT 1 FROM brought_in_undone u WHERE u.brought_in_id = b.id))`;
  const ofBill = (column: string): string => `(SELECT b.${column} FROM bill b WHERE b.animal_id = a.id
    AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id) ORDER BY b.number DESC LIMIT 1)`;
  const entries = db.prepare<OfficerFilter, OfficerRow>(
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
       ${weighed('received')} AS received_grams, ${weighed('hanging')} AS hanging_grams, ${weighed('packed')} AS packed_grams,
       r.released_on, r.given_to, d.disposed_on, d.what AS disposed_what, d.how AS disposed_how,
       c.reason AS cancel_reason, c.at AS canceled_at,
       (SELECT iif(n.positive, 'positive', n.reason) FROM hold_now n WHERE n.animal_id = a.id ORDER BY n.positive DESC, n.id LIMIT 1) AS hold,
       (SELECT json_group_array(json_object('result', t.result, 'sample', t.sample, 'lab', t.lab, 'on', t.reported_on)) FROM (
          SELECT t.* FROM hold h JOIN hold_result t ON t.id = (SELECT max(x.id) FROM hold_result x WHERE x.hold_id = h.id)
          WHERE h.animal_id = a.id AND t.result <> 'none' ORDER BY t.id DESC) t) AS results,
       (SELECT json_group_array(json_object('id', b.id, 'season', b.season)) FROM batch_animal m JOIN batch b ON b.id = m.batch_id
          WHERE m.animal_id = a.id) AS batches,
       (SELECT count(*) FROM photograph_now p WHERE p.animal_id = a.id) AS photos,
       ${ofBill('total_minor')} AS billed_minor, ${ofBill('currency')} AS billed_currency,
       (SELECT CAST(total(iif(p.kind = 'refund', -p.amount_minor, p.amount_minor)) AS INTEGER) FROM payment p
          WHERE p.animal_id = a.id AND NOT EXISTS (SELECT 1 FROM payment_void v WHERE v.payment_id = p.id)) AS paid_minor
     FROM animal a JOIN hunter h ON h.id = a.hunter_id LEFT JOIN release_now r ON r.animal_id = a.id
     LEFT JOIN disposal_now d ON d.animal_id = a.id LEFT JOIN intake_cancel_now c ON c.animal_id = a.id
     WHERE (@season IS NULL OR a.season = @season) AND (@from IS NULL OR a.received_on >= @from)
       AND (@to IS NULL OR a.received_on <= @to) AND (@species IS NULL OR a.species = @species)
       AND (@state IS NULL OR (a.stage IN ('released', 'disposed')) = (@state = 'closed'))
     ORDER BY a.season, a.number`,
  );
  const ticketRuns = db.prepare<[], TicketRun>(
    `SELECT r.*, f.ticket AS firstTicket, l.ticket AS lastTicket FROM
       (SELECT season, min(number) AS first, max(number) AS last, count(*) AS entries FROM animal GROUP BY season) r
     JOIN animal f ON f.season = r.season AND f.number = r.first JOIN animal l ON l.season = r.season AND l.number = r.last
     ORDER BY r.season DESC`,
  );
  const wrongDays = db.prepare<{ first: string; last: string; most: number }, WrongDayRow>(
    `SELECT id, ticket, received_on FROM animal WHERE received_on < @first OR received_on > @last ORDER BY id LIMIT @most`,
  );
  // A number more than one above its predecessor leaves a gap.
  const gaps = db.prepare<[number], { after: number; before: number }>(
    `SELECT earlier AS after, number AS before FROM
       (SELECT number, lag(number, 1, 0) OVER (ORDER BY number) AS earlier FROM animal WHERE season = ?)
     WHERE number > earlier + 1 ORDER BY number`,
  );
  const leftBefore = db
    // Counts by the first date entered, then adjusts for the few corrected and voided ones.
    .prepare<{ day: string }, number>(
      `SELECT (SELECT count(*) FROM release WHERE released_on < @day)
         + (SELECT coalesce(sum((n.released_on < @day) - (r.released_on < @day)), 0) FROM release r JOIN release_now n ON n.id = r.id
            WHERE r.id IN (SELECT release_id FROM release_mend))
         - (SELECT count(*) FROM release_void v JOIN release r ON r.id = v.release_id WHERE r.released_on < @day)
         + (SELECT count(*) FROM disposal_now d WHERE d.disposed_on < @day
            AND NOT EXISTS (SELECT 1 FROM release_now r WHERE r.animal_id = d.animal_id))`,
    )
    .pluck();
  const release = db.prepare(
    'INSERT INTO release (animal_id, given_to, released_on, unpaid_override, note, at, by) VALUES (@animalId, @to, @on, @unpaidBy, @note, @at, @by)',
  );
  const releaseOf = db.prepare<[number], ReleaseRow>(
    `SELECT n.id, n.given_to, r.given_to AS first_to, n.released_on, n.at, n.by
     FROM release_now n JOIN release r ON r.id = n.id WHERE n.animal_id = ?`,
  );
  const correctRelease = db.prepare<{ releaseId: number; to: string; on: string; at: string; by: string }>(
    'INSERT INTO release_mend (release_id, given_to, released_on, at, by) VALUES (@releaseId, @to, @on, @at, @by)',
  );
  const dispose = db.prepare(
    `INSERT INTO disposal (animal_id, what, how, reason, disposed_on, at, by)
     VALUES (@animalId, @what, @how, @reason, @on, @at, @by)`,
  );
  const disposalOf = db.prepare<[number], DisposalRow>(
    'SELECT what, how, reason, disposed_on, by FROM disposal_now WHERE animal_id = ?',
  );
  const voidRelease = db.prepare<Voiding>(
    `INSERT INTO release_void (release_id, reason, at, by)
     SELECT id, @reason, @at, @by FROM release_now WHERE animal_id = @animalId`,
  );
  const voidDisposal = db.prepare<Voiding>(
    `INSERT INTO disposal_void (disposal_id, reason, at, by)
     SELECT id, @reason, @at, @by FROM disposal_now WHERE animal_id = @animalId`,
  );
  const lastRelease = db.prepare<[number], Pick<ReleaseRow, 'given_to' | 'released_on'>>(
    `SELECT coalesce(m.given_to, r.given_to) AS given_to, coalesce(m.released_on, r.released_on) AS released_on
     FROM release r LEFT JOIN release_mend m
       ON m.id = (SELECT max(newest.id) FROM release_mend newest WHERE newest.release_id = r.id)
     WHERE r.animal_id = ? ORDER BY r.id DESC LIMIT 1`,
  );
  return {
    /** Ordered by ticket. */
    entries: (filter: OfficerFilter) => eachRow(entries, filter),
    /** The range of ticket numbers of each season, newest season first. */
    ticketRuns: () => ticketRuns.all(),
    /** Gaps in a season's numbers, each as the numbers before and after it. */
    gaps: (season: number) => gaps.all(season),
    /** Animals received before `first` or after `last`, up to `most`. */
    wrongDays: (first: string, last: string, most: number) => wrongDays.all({ first, last, most }),
    /** Number of animals that left the shop before a day. */
    leftBefore: (day: string): number => leftBefore.get({ day }) ?? 0,
    release: (row: {
      animalId: number;
      to: string;
      on: string;
      note: string;
      /** Initials of the person responsible for an unpaid release, or null. */
      unpaidBy: string | null;
      at: string;
      by: string;
    }): void => void release.run(row),
    dispose: (row: {
      animalId: number;
      what: string;
      how: string;
      reason: string;
      on: string;
      at: string;
      by: string;
    }): void => void dispose.run(row),
    disposalOf: (animalId: number) => disposalOf.get(animalId),
    /** Voids the valid release or disposal. An imported animal may have neither. */
    voidLeaving(row: Voiding): void {
      voidRelease.run(row);
      voidDisposal.run(row);
    },
    /** The newest release, valid or voided. */
    lastRelease: (animalId: number) => lastRelease.get(animalId),
    /** The release as last corrected. */
    releaseOf: (animalId: number) => releaseOf.get(animalId),
    /** Corrects a release; former values stay in the book. */
    correctRelease: (row: { releaseId: number; to: string; on: string; at: string; by: string }): void =>
      void correctRelease.run(row),
  };
}
