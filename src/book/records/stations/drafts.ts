import type { Db } from '../../file/db.ts';

/** What a hunter typed, as it is stored. */
export interface NewDraft {
  /** Null: typed at the desk itself. */
  stationId: number | null;
  language: string;
  name: string;
  phone: string;
  licence: string;
  tag: string;
  species: string;
  sex: string;
  killDate: string | null;
  killArea: string;
  /** JSON; null: not asked. */
  instructions: string | null;
  terms: string;
  /** Empty: not noted, or no terms. */
  termsLanguage: string;
  /** The moment from which they were the shop's; null: not noted, or no terms. */
  termsSince: string | null;
  /** Path data of SVG; empty: no signature. */
  signature: string;
  /** The slip whose code it was typed for. */
  slipId: number | null;
  /** 1: on the hunter's own phone. */
  byPhone: 0 | 1;
  at: string;
  by: string;
}

export interface DraftNow extends NewDraft {
  id: number;
  state: 'open' | 'dismissed' | 'taken';
  animalId: number | null;
  detailsRemovedAt: string | null;
  /** The code of its slip. */
  slip: string | null;
}

interface Stamp {
  at: string;
  by: string;
}

const COLUMNS = `id, station_id AS stationId, language, name, phone, licence, tag, species, sex, kill_date AS killDate,
  kill_area AS killArea, instructions, terms, signature, at, by, state, animal_id AS animalId,
  details_removed_at AS detailsRemovedAt, terms_language AS termsLanguage, terms_since AS termsSince, slip_id AS slipId,
  by_phone AS byPhone, (SELECT code FROM slip WHERE slip.id = slip_id) AS slip`;
const STILL_OPEN = "state = 'open' AND details_removed_at IS NULL";

/** Drafts of hunters: each with its newest state. */
export function draftRecords(db: Db) {
  const add = db.prepare(
    `INSERT INTO draft (station_id, language, name, phone, licence, tag, species, sex, kill_date, kill_area, instructions,
       terms, terms_language, terms_since, signature, slip_id, by_phone, at, by)
     VALUES (@stationId, @language, @name, @phone, @licence, @tag, @species, @sex, @killDate, @killArea, @instructions,
       @terms, @termsLanguage, @termsSince, @signature, @slipId, @byPhone, @at, @by)`,
  );
  const addState = db.prepare(
    `INSERT INTO draft_state (draft_id, state, animal_id, reason, at, by)
     VALUES (@id, @state, @animalId, @reason, @at, @by)`,
  );
  const get = db.prepare<[number], DraftNow>(`SELECT ${COLUMNS} FROM draft_now WHERE id = ?`);
  const open = db.prepare<[string], DraftNow>(
    `SELECT ${COLUMNS} FROM draft_now WHERE at >= ? AND ${STILL_OPEN} ORDER BY at, id`,
  );
  const ofAnimal = db.prepare<[number], DraftNow>(
    `SELECT ${COLUMNS} FROM draft_now WHERE id = (SELECT draft_id FROM draft_state WHERE animal_id = ?)`,
  );
  const openAt = db
    .prepare<Pick<NewDraft, 'stationId' | 'byPhone'> & { since: string }, number>(
      `SELECT count(*) FROM draft_now
       WHERE at >= @since AND station_id IS @stationId AND by_phone = @byPhone AND ${STILL_OPEN}`,
    )
    .pluck();
  return {
    add: (draft: NewDraft): number => Number(add.run(draft).lastInsertRowid),
    get: (id: number) => get.get(id),
    /** Neither dismissed nor taken, oldest first. @param since moment */
    open: (since: string) => open.all(since),
    /** The one that the animal came from. */
    ofAnimal: (animalId: number) => ofAnimal.get(animalId),
    /** How many are open of a station, of all phones, or of the desk itself (null). */
    countOpen: (of: Pick<NewDraft, 'stationId' | 'byPhone'>, since: string): number =>
      openAt.get({ stationId: of.stationId, byPhone: of.byPhone, since }) ?? 0,
    dismiss: (id: number, reason: string, stamp: Stamp): void =>
      void addState.run({ id, state: 'dismissed', animalId: null, reason, ...stamp }),
    reopen: (id: number, stamp: Stamp): void =>
      void addState.run({ id, state: 'open', animalId: null, reason: '', ...stamp }),
    take: (id: number, animalId: number, stamp: Stamp): void =>
      void addState.run({ id, state: 'taken', animalId, reason: '', ...stamp }),
  };
}
