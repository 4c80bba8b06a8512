import type { Db } from '../file/db.ts';

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
