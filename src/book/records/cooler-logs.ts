import type { Db } from '../file/db.ts';

interface CoolerLogRow {
  id: number;
  cooler_id: number;
  file: string;
  temperature_first: number;
  temperature_last: number;
  known: number;
  at: string;
  by: string;
  undone_at: string | null;
}

interface NewCoolerLog {
  coolerId: number;
  file: string;
  sha256: string;
  known: number;
  at: string;
  by: string;
}

/** Files of temperature loggers; their readings are stored with the manual ones. */
export function coolerLogRecords(db: Db) {
  const from = `SELECT l.*, u.at AS undone_at FROM cooler_log l LEFT JOIN cooler_log_undone u ON u.cooler_log_id = l.id`;
  const reading = db.prepare(
    'INSERT INTO cooler_temperature (cooler_id, typed, tenths_c, at, by) VALUES (?, ?, ?, ?, ?)',
  );
  const insert = db.prepare(
    `INSERT INTO cooler_log (cooler_id, file, sha256, temperature_first, temperature_last, known, at, by)
     VALUES (@coolerId, @file, @sha256, @first, @last, @known, @at, @by)`,
  );
  const get = db.prepare<[number], CoolerLogRow>(`${from} WHERE l.id = ?`);
  const of = db.prepare<[number], CoolerLogRow>(`${from} WHERE l.cooler_id = ? ORDER BY l.id DESC`);
  const undone = db.prepare('INSERT INTO cooler_log_undone (cooler_log_id, at, by) VALUES (?, ?, ?)');
  return {
    /** Saves a file with its readings (at least one); requires a transaction. */
    add(log: NewCoolerLog, readings: readonly { at: string; typed: string; tenthsC: number }[]): number {
      const ids = readings.map(({ at, typed, tenthsC }) =>
        Number(reading.run(log.coolerId, typed, tenthsC, at, log.by).lastInsertRowid),
      );
      return Number(insert.run({ ...log, first: ids[0], last: ids.at(-1) }).lastInsertRowid);
    },
    get: (id: number) => get.get(id),
    of: (coolerId: number) => of.all(coolerId),
    undo: (id: number, at: string, by: string): void => void undone.run(id, at, by),
  };
}
