import { hunterSearch } from './hunter-search.ts';
import type { Db } from '../file/db.ts';
import { ticketRecords } from './tickets.ts';
import type { Age, AnimalStage, Brought, Legs, Sex } from '../../trade/animal.ts';

export interface AnimalRow {
  id: number;
  season: number;
  number: number;
  ticket: string;
  hunter_id: number;
  hunter: string;
  deliverer_name: string;
  deliverer_address: string;
  species: string;
  sex: Sex;
  age: Age;
  brought: Brought;
  /** Lower legs of an animal received whole; unknown by default, and for all others. */
  legs: Legs;
  origin: 'hunter' | 'farm';
  licence: string;
  tag: string;
  kill_date: string | null;
  kill_area: string;
  received_on: string;
  promised_on: string | null;
  condition: string;
  damage: string;
  detail: 'detailed' | 'quick';
  stage: AnimalStage;
  ready_on: string | null;
  /** UTC moment of the entry. */
  created_at: string;
  /** The shop's own number from before this book, for an imported animal. */
  old_number: string;
}

type NewAnimal = Omit<AnimalRow, 'id' | 'number' | 'ticket' | 'hunter' | 'stage' | 'ready_on' | 'old_number'>;

export interface HookRow extends AnimalRow {
  phone: string;
  /** Reason of the hold, or `positive` after that result. */
  hold: string | null;
  grams: number | null;
  /** The text of its only weight of that stage, without a container; null if several or none. */
  typed: string | null;
  packages: number;
  packed: number | null;
  /** 1 once cutting instructions were written down. */
  instructed: number;
}

export interface HoldRow {
  id: number;
  reason: string;
  sample: string;
  at: string;
  /** 1 after a positive result: such a hold lasts unless the result is corrected. */
  positive: number;
}

/** Correctable fields of an animal's record. */
export type RecordFields = Pick<
  AnimalRow,
  | 'hunter_id'
  | 'species'
  | 'sex'
  | 'age'
  | 'brought'
  | 'legs'
  | 'origin'
  | 'licence'
  | 'tag'
  | 'kill_date'
  | 'kill_area'
  | 'received_on'
  | 'promised_on'
  | 'deliverer_name'
  | 'deliverer_address'
>;

/** Hunters of one name are looked up directly up to this number; with more, scanning the newest animals is faster. */
const FEW_NAMESAKES = 500;

/** Instructions of a hunter who was asked; extras on a bill may be stored before that. */
const ASKED = `SELECT 1 FROM instruction i WHERE i.animal_id = a.id AND i.body ->> '$.notAsked' IS NULL`;

/** Animals, their received parts, holds and instructions. */
export function animalRecords(db: Db) {
  // The table stores a canceled animal as disposed; this column overrides it after `a.*`.
  const stage =
    "iif(EXISTS (SELECT 1 FROM intake_cancel_now c WHERE c.animal_id = a.id), 'canceled', a.stage) AS stage";
  const columns = `a.*, ${stage}, h.name AS hunter`;
  const from = 'FROM animal a JOIN hunter h ON h.id = a.hunter_id';
  const get = db.prepare<[number], AnimalRow>(`SELECT ${columns} ${from} WHERE a.id = ?`);
  const tickets = ticketRecords(db);
  const byTicket = (ticket: string): AnimalRow | undefined => {
    const id = tickets.holder(ticket);
    return id === undefined ? undefined : get.get(id);
  };
  const byNumber = db.prepare<[number], AnimalRow>(
    `SELECT ${columns} ${from} WHERE a.number = ? ORDER BY a.season DESC LIMIT 8`,
  );
  // A rare name is looked up from its hunters; a frequent one is found quickly among the newest animals.
  const ofHunters = db
    .prepare<[string], number>(
      `SELECT a.id FROM json_each(?) found CROSS JOIN animal a ON a.hunter_id = found.value ORDER BY a.id DESC LIMIT 8`,
    )
    .pluck();
  // As a subquery, so that no filter over all hunters is built first.
  const newestNamed = db
    .prepare<[string], number>(
      `SELECT a.id FROM animal a WHERE instr((SELECT h.name_key FROM hunter h WHERE h.id = a.hunter_id), ?) > 0
       ORDER BY a.id DESC LIMIT 8`,
    )
    .pluck();
  const hunters = hunterSearch(db);
  const byHunter = (key: string): AnimalRow[] => {
    const few = hunters.allNamed(key, FEW_NAMESAKES);
    const ids = few ? ofHunters.all(JSON.stringify(few)) : newestNamed.all(key);
    return ids.flatMap((id) => get.get(id) ?? []);
  };
  const insert = db.prepare(
    `INSERT INTO animal (season, number, ticket, hunter_id, deliverer_name, deliverer_address, species, sex, age, brought, legs, origin,
       licence, tag, kill_date, kill_area, received_on, promised_on, condition, damage, detail, stage, created_at)
     VALUES (@season, @number, @ticket, @hunter_id, @deliverer_name, @deliverer_address, @species, @sex, @age, @brought, @legs, @origin,
       @licence, @tag, @kill_date, @kill_area, @received_on, @promised_on, @condition, @damage, @detail, 'hanging', @created_at)`,
  );
  const insertPart = db.prepare('INSERT INTO animal_part (animal_id, primal, count) VALUES (?, ?, ?)');
  const parts = db.prepare<[number], { primal: string; count: number }>(
    'SELECT primal, count FROM animal_part WHERE animal_id = ? ORDER BY primal',
  );
  const deleteParts = db.prepare('DELETE FROM animal_part WHERE animal_id = ?');
  const setStage = db.prepare(
    "UPDATE animal SET stage = @stage, ready_on = iif(@stage = 'ready', coalesce(ready_on, @on), ready_on) WHERE id = @id",
  );
  const setDetail = db.prepare('UPDATE animal SET detail = ? WHERE id = ?');
  const edit = db.prepare(
    `UPDATE animal SET hunter_id = @hunter_id, species = @species, sex = @sex, age = @age, brought = @brought, legs = @legs, origin = @origin, licence = @licence, tag = @tag, kill_date = @kill_date,
       kill_area = @kill_area, received_on = @received_on, promised_on = @promised_on, deliverer_name = @deliverer_name, deliverer_address = @deliverer_address
     WHERE id = @id`,
  );
  const inShop = db.prepare<[], HookRow>(
    `SELECT ${columns}, h.phone,
       (SELECT iif(n.positive, 'positive', n.reason)
          FROM hold_now n WHERE n.animal_id = a.id ORDER BY n.positive DESC, n.id LIMIT 1) AS hold,
       coalesce(w.hanging, w.received) AS grams,
       (SELECT iif(count(*) = 1 AND max(p.tare_typed) IS NULL, max(p.typed), NULL) FROM weighing_now p
          WHERE p.animal_id = a.id AND p.stage = iif(w.hanging IS NULL, 'received', 'hanging')) AS typed,
       coalesce((SELECT sum(p.count) FROM weighing_now p WHERE p.animal_id = a.id AND p.stage = 'packed'), 0) AS packages,
       w.packed, EXISTS (${ASKED}) AS instructed
     ${from} JOIN animal_sum w ON w.animal_id = a.id
     WHERE a.stage IN ('hanging', 'cutting', 'packing', 'ready') ORDER BY a.received_on, a.id`,
  );
  const hold = db.prepare<[number], HoldRow>(
    'SELECT id, reason, sample, at, positive FROM hold_now WHERE animal_id = ? ORDER BY positive DESC, id LIMIT 1',
  );
  const addHold = db.prepare('INSERT INTO hold (animal_id, reason, sample, at, by) VALUES (?, ?, ?, ?, ?)');
  const endHold = db.prepare('INSERT INTO hold_end (hold_id, outcome, note, at, by) VALUES (?, ?, ?, ?, ?)');
  const instructedOf = db.prepare<[number], AnimalRow>(
    `SELECT ${columns} ${from} WHERE a.hunter_id = ? AND EXISTS (${ASKED})
     ORDER BY a.received_on DESC, a.id DESC LIMIT 60`,
  );
  const instruct = db.prepare('INSERT INTO instruction (animal_id, body, at, by) VALUES (?, ?, ?, ?)');
  const instruction = db
    .prepare<[number], string>('SELECT body FROM instruction WHERE animal_id = ? ORDER BY id DESC LIMIT 1')
    .pluck();
  const seasons = db.prepare<[], number>('SELECT DISTINCT season FROM animal ORDER BY season').pluck();

  return {
    get: (id: number) => get.get(id),
    /** By its current ticket, or one from before its season was corrected. */
    byTicket,
    formerTickets: (id: number) => tickets.former(id),
    /** The ticket that the next animal of a season gets, unless another window is faster. */
    nextTicket: (season: number) => tickets.next(season).ticket,
    toSeason: (animal: AnimalRow, season: number, at: string, by: string) =>
      tickets.move(animal, season, at, by),
    /** By full ticket, by running number, else by part of the hunter's name. */
    find(text: string, nameKey: string): AnimalRow[] {
      const exact = byTicket(text);
      if (exact) return [exact];
      if (/^\d{1,6}$/.test(text)) return byNumber.all(Number(text));
      return nameKey === '' ? [] : byHunter(nameKey);
    },
    /** Assigns the season's next running number; requires a transaction. */
    add(
      animal: NewAnimal,
      brought: readonly { primal: string; count: number }[],
    ): { id: number; number: number; ticket: string } {
      const { number, ticket } = tickets.next(animal.season);
      const id = Number(insert.run({ ...animal, number, ticket }).lastInsertRowid);
      for (const { primal, count } of brought) insertPart.run(id, primal, count);
      return { id, number, ticket };
    },
    parts: (id: number) => parts.all(id),
    /** Replaces the pieces of an animal that was not whole. */
    setParts(id: number, brought: readonly { primal: string; count: number }[]): void {
      deleteParts.run(id);
      for (const { primal, count } of brought) insertPart.run(id, primal, count);
    },
    /** A canceled animal is stored as disposed; its `intake_cancel` row tells the difference. */
    setStage: (id: number, stage: Exclude<AnimalStage, 'canceled'>, on: string): void =>
      void setStage.run({ id, stage, on }),
    setDetail: (id: number, detail: AnimalRow['detail']): void => void setDetail.run(detail, id),
    edit: (id: number, fields: RecordFields): void => void edit.run({ ...fields, id }),
    inShop: () => inShop.all(),
    hold: (id: number) => hold.get(id),
    addHold: (id: number, reason: string, sample: string, at: string, by: string): void =>
      void addHold.run(id, reason, sample, at, by),
    endHold: (holdId: number, outcome: string, note: string, at: string, by: string): void =>
      void endHold.run(holdId, outcome, note, at, by),
    instruct: (id: number, body: unknown, at: string, by: string): void =>
      void instruct.run(id, JSON.stringify(body), at, by),
    instruction: (id: number): unknown => JSON.parse(instruction.get(id) ?? 'null'),
    /** A hunter's animals with instructions, newest first. */
    instructedOf: (hunterId: number) => instructedOf.all(hunterId),
    seasons: () => seasons.all(),
  };
}
