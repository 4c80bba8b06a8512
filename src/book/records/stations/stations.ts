import type { Place } from '../../../trade/place.ts';
import type { Db } from '../../file/db.ts';

export type StoredState = 'open' | 'paused' | 'removed';

export interface StationNow {
  id: number;
  origin: string;
  agent: string;
  at: string;
  by: string;
  name: string;
  place: Place;
  language: string;
  state: StoredState;
}

interface Stamp {
  at: string;
  by: string;
}

const COLUMNS = 'id, origin, agent, at, by, name, place, language, state';

export interface LastWorkRow {
  at: string;
  by: string;
  what: 'weighed' | 'voided' | 'changed';
  /** Null: at the desk itself. */
  station: string | null;
}

const stationOf = (calls: string, recordId: string): string =>
  `(SELECT s.station_id FROM station_write s WHERE s.call IN (${calls}) AND s.record_id = CAST(${recordId} AS TEXT)
    ORDER BY s.id DESC LIMIT 1)`;

/** The newest of each kind first, so that a long history costs nothing. */
const LAST_WORK = `
  SELECT x.at, x.by, x.what, n.name AS station FROM (
    SELECT * FROM (SELECT w.at, w.by, 'weighed' AS what, ${stationOf("'table.weigh', 'table.correct'", 'w.id')} AS station_id
      FROM weighing w WHERE w.animal_id = @id AND w.stage <> 'grinder' ORDER BY w.id DESC LIMIT 1)
    UNION ALL
    SELECT * FROM (SELECT v.at, v.by, 'voided', ${stationOf("'table.void'", 'w.id')}
      FROM weighing w JOIN weighing_void v ON v.weighing_id = w.id
      WHERE w.animal_id = @id AND NOT EXISTS (SELECT 1 FROM weighing c WHERE c.corrects = w.id) ORDER BY v.at DESC LIMIT 1)
    UNION ALL
    SELECT * FROM (SELECT u.at, u.by, 'changed', u.station_id
      FROM audit u WHERE u.record = 'animal' AND u.record_id = CAST(@id AS TEXT) ORDER BY u.id DESC LIMIT 1)
    UNION ALL
    SELECT * FROM (SELECT i.at, i.by, 'changed', ${stationOf("'animals.saveOrders'", 'i.animal_id')}
      FROM instruction i WHERE i.animal_id = @id ORDER BY i.id DESC LIMIT 1)
  ) x LEFT JOIN station_now n ON n.id = x.station_id
  ORDER BY x.at DESC, x.what DESC LIMIT 1`;

/** Devices of the floor: each with its newest name and state. */
export function stationRecords(db: Db) {
  const add = db.prepare(
    'INSERT INTO station (secret_hash, origin, agent, at, by) VALUES (@secretHash, @origin, @agent, @at, @by)',
  );
  const addName = db.prepare(
    `INSERT INTO station_name (station_id, name, place, language, at, by)
     VALUES (@id, @name, @place, @language, @at, @by)`,
  );
  const addState = db.prepare(
    'INSERT INTO station_state (station_id, state, reason, at, by) VALUES (@id, @state, @reason, @at, @by)',
  );
  const all = db.prepare<[], StationNow & { entries: number }>(
    `SELECT ${COLUMNS}, (SELECT count(*) FROM station_line l JOIN station_entry e ON e.line_id = l.id
       WHERE l.station_id = station_now.id) AS entries
     FROM station_now ORDER BY id`,
  );
  const get = db.prepare<[number], StationNow>(`SELECT ${COLUMNS} FROM station_now WHERE id = ?`);
  const ofSecret = db.prepare<[string], StationNow>(
    `SELECT ${COLUMNS} FROM station_now WHERE secret_hash = ?`,
  );
  const lastWork = db.prepare<[{ id: number }], LastWorkRow>(LAST_WORK);
  const noteWrite = db.prepare(
    `INSERT INTO station_write (station_id, call, record_id, person, checked, at, by)
     VALUES (@stationId, @call, @recordId, @person, @checked, @at, @by)`,
  );
  return {
    /** @param device `secretHash`: SHA-256 of its secret, in hexadecimal digits */
    add(
      device: { secretHash: string; origin: string; agent: string } & Stamp,
      named: { name: string; place: Place; language: string },
    ): number {
      const id = Number(add.run(device).lastInsertRowid);
      addName.run({ id, ...named, at: device.at, by: device.by });
      return id;
    },
    rename: (row: { id: number; name: string; place: Place; language: string } & Stamp): void =>
      void addName.run(row),
    setState: (row: { id: number; state: StoredState; reason: string } & Stamp): void =>
      void addState.run(row),
    /** Removed ones too. */
    all: () => all.all(),
    get: (id: number) => get.get(id),
    ofSecret: (secretHash: string) => ofSecret.get(secretHash),
    /** Who last did something with an animal; undefined for one of a table that was brought in. */
    lastWork: (animalId: number) => lastWork.get({ id: animalId }),
    noteWrite: (
      row: { stationId: number; call: string; recordId: string; person: string; checked: boolean } & Stamp,
    ): void => void noteWrite.run({ ...row, checked: Number(row.checked) }),
  };
}
