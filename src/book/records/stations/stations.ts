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
    noteWrite: (
      row: { stationId: number; call: string; recordId: string; person: string; checked: boolean } & Stamp,
    ): void => void noteWrite.run({ ...row, checked: Number(row.checked) }),
  };
}
