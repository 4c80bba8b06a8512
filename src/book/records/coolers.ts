import type { Db } from '../file/db.ts';

interface CoolerRow {
  id: number;
  name: string;
  places: number;
  hanging: number;
  tenths_c: number | null;
  at: string | null;
}

interface TemperatureRow {
  id: number;
  cooler_id: number;
  typed: string;
  tenths_c: number;
  at: string;
  by: string;
}

interface StayRow {
  cooler_id: number;
  cooler: string;
  place: string;
  at: string;
}

/** Coolers, their animals and places, and their temperatures. */
export function coolerRecords(db: Db) {
  const all = db.prepare<[], CoolerRow>(
    `SELECT c.id, c.name, c.places,
       (SELECT count(*) FROM animal a WHERE a.stage IN ('hanging', 'cutting')
          AND c.id = (SELECT s.cooler_id FROM cooler_stay s WHERE s.animal_id = a.id ORDER BY s.id DESC LIMIT 1)) AS hanging,
       t.tenths_c, t.at
     FROM cooler c
     LEFT JOIN cooler_temperature t ON t.id = (SELECT n.id FROM cooler_temperature_now n WHERE n.cooler_id = c.id ORDER BY n.at DESC, n.id DESC LIMIT 1)
     WHERE c.active = 1 ORDER BY c.id`,
  );
  const add = db.prepare('INSERT INTO cooler (name, places) VALUES (?, ?)');
  const change = db.prepare('UPDATE cooler SET name = ?, places = ? WHERE id = ? AND active = 1');
  const archive = db.prepare('UPDATE cooler SET active = 0 WHERE id = ? AND active = 1');
  const restore = db.prepare('UPDATE cooler SET active = 1 WHERE id = ? AND active = 0');
  const log = db.prepare(
    'INSERT INTO cooler_temperature (cooler_id, typed, tenths_c, at, by) VALUES (?, ?, ?, ?, ?)',
  );
  const temperatures = db.prepare<[number, string], TemperatureRow>(
    'SELECT * FROM cooler_temperature_now WHERE cooler_id = ? AND at >= ? ORDER BY at, id',
  );
  const named = db.prepare<[number], { id: number; name: string }>(
    'SELECT id, name FROM cooler WHERE id = ?',
  );
  const between = db.prepare<[number, string, string], TemperatureRow & { log_id: number | null }>(
    `SELECT t.*, (SELECT l.id FROM cooler_log l WHERE t.id BETWEEN l.temperature_first AND l.temperature_last) AS log_id
     FROM cooler_temperature_now t WHERE t.cooler_id = ? AND t.at >= ? AND t.at < ? ORDER BY t.at, t.id`,
  );
  const voidedTemperatures = db.prepare<[number, string, string], TemperatureRow & { reason: string }>(
    `SELECT t.id, t.cooler_id, t.typed, t.tenths_c, t.at, v.reason, v.by FROM cooler_temperature t
     JOIN cooler_temperature_void v ON v.temperature_id = t.id WHERE t.cooler_id = ? AND t.at >= ? AND t.at < ? ORDER BY t.at`,
  );
  const isRead = db
    .prepare<[number, string], 1>(
      'SELECT 1 FROM cooler_temperature_now WHERE cooler_id = ? AND at = ? LIMIT 1',
    )
    .pluck();
  const temperature = db.prepare<[number], TemperatureRow & { void_by: string | null }>(
    `SELECT t.*, v.by AS void_by FROM cooler_temperature t
     LEFT JOIN cooler_temperature_void v ON v.temperature_id = t.id WHERE t.id = ?`,
  );
  const voidTemperature = db.prepare(
    'INSERT INTO cooler_temperature_void (temperature_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const hang = db.prepare(
    'INSERT INTO cooler_stay (animal_id, cooler_id, place, at, by) VALUES (?, ?, ?, ?, ?)',
  );
  const stay = db.prepare<[number], StayRow>(
    `SELECT s.cooler_id, c.name AS cooler, s.place, s.at FROM cooler_stay s JOIN cooler c ON c.id = s.cooler_id
     WHERE s.animal_id = ? ORDER BY s.id DESC LIMIT 1`,
  );
  return {
    all: () => all.all(),
    add: (name: string, places: number): number => Number(add.run(name, places).lastInsertRowid),
    change: (id: number, name: string, places: number): boolean => change.run(name, places, id).changes === 1,
    archive: (id: number): boolean => archive.run(id).changes === 1,
    /** Restores an archived cooler; false if there is none with this id. */
    restore: (id: number): boolean => restore.run(id).changes === 1,
    log: (coolerId: number, typed: string, tenthsC: number, at: string, by: string): void =>
      void log.run(coolerId, typed, tenthsC, at, by),
    temperatures: (coolerId: number, since: string) => temperatures.all(coolerId, since),
    /** A cooler by id, including archived ones. */
    named: (id: number) => named.get(id),
    /** Valid readings from `from` until before `to`, each with its logger file or null. */
    between: (coolerId: number, from: string, to: string) => between.all(coolerId, from, to),
    voidedTemperatures: (coolerId: number, from: string, to: string) =>
      voidedTemperatures.all(coolerId, from, to),
    /** Whether a valid reading of exactly this time exists. */
    isRead: (coolerId: number, at: string): boolean => isRead.get(coolerId, at) !== undefined,
    /** A reading by id, including voided ones. */
    temperature: (id: number) => temperature.get(id),
    voidTemperature: (id: number, reason: string, at: string, by: string): void =>
      void voidTemperature.run(id, reason, at, by),
    hang: (animalId: number, coolerId: number, place: string, at: string, by: string): void =>
      void hang.run(animalId, coolerId, place, at, by),
    /** The current place of an animal: its newest stay. */
    stay: (animalId: number) => stay.get(animalId),
  };
}
