import type { Db } from '../../file/db.ts';

export interface LoadLogRow {
  id: number;
  load_id: number;
  phase: 'cook' | 'cooling' | 'both';
  probe: string;
  degrees: 'F' | 'C';
  source: 'file' | 'typed' | 'thermometer';
  file: string;
  sha256: string;
  at: string;
  by: string;
  void_reason: string | null;
}

export interface LoadReadingRow {
  id: number;
  log_id: number;
  read_at: string;
  typed: string;
  value: number | null;
  by: string;
  /** Why it is left out, or null. */
  excluded: string | null;
  exclusion_id: number | null;
}

/** What a judgement takes of a reading. */
export type CountedReading = Pick<LoadReadingRow, 'id' | 'read_at' | 'value'>;

export interface NewReading {
  readAt: string;
  typed: string;
  value: number | null;
}

export interface DeviationRow {
  id: number;
  load_id: number | null;
  made_id: number | null;
  decided: 'hold' | 'cook again' | 'not ready to eat' | 'discard' | 'authority';
  decided_by: string;
  note: string;
  at: string;
  by: string;
  void_reason: string | null;
}

/** A reading that is typed late is later in time than all but few that were written after it. */
const NEWEST = 50;

/** Logs of loads with every reading, readings left out, and what was decided. */
export function loadLogRecords(db: Db) {
  const from = `SELECT l.*, v.reason AS void_reason FROM load_log l LEFT JOIN load_log_void v ON v.log_id = l.id`;
  const ofLoad = db.prepare<[number], LoadLogRow>(`${from} WHERE l.load_id = ? ORDER BY l.id`);
  const get = db.prepare<[number], LoadLogRow>(`${from} WHERE l.id = ?`);
  const add = db.prepare(
    `INSERT INTO load_log (load_id, phase, probe, degrees, source, file, sha256, at, by)
     VALUES (@loadId, @phase, @probe, @degrees, @source, @file, @sha256, @at, @by)`,
  );
  const addVoid = db.prepare('INSERT INTO load_log_void (log_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const counted = 'SELECT id, read_at, value FROM load_reading r WHERE log_id = ?';
  const complete = db.prepare<[number], CountedReading>(`${counted} ORDER BY id`);
  const counting = db.prepare<[number], CountedReading>(
    `${counted} AND NOT EXISTS (SELECT 1 FROM load_exclusion_now x WHERE x.reading_id = r.id) ORDER BY id`,
  );
  const summary = db.prepare<[number], { readings: number }>(
    `SELECT count(*) AS readings FROM load_reading r JOIN load_log l ON l.id = r.log_id
     WHERE l.load_id = ? AND NOT EXISTS (SELECT 1 FROM load_log_void v WHERE v.log_id = l.id)`,
  );
  const newest = db.prepare<[number], { value: number; read_at: string }>(
    `SELECT value, read_at FROM (SELECT r.id, r.value, r.read_at FROM load_reading r WHERE r.log_id = ? ORDER BY r.id DESC LIMIT ${NEWEST}) r
     WHERE value IS NOT NULL AND NOT EXISTS (SELECT 1 FROM load_exclusion_now x WHERE x.reading_id = r.id)
     ORDER BY read_at DESC LIMIT 1`,
  );
  const page = db.prepare<[number, number, number], LoadReadingRow>(
    `SELECT r.id, r.log_id, r.read_at, r.typed, r.value, r.by, x.reason AS excluded, x.id AS exclusion_id
     FROM load_reading r LEFT JOIN load_exclusion_now x ON x.reading_id = r.id WHERE r.log_id = ? ORDER BY r.id LIMIT ? OFFSET ?`,
  );
  const excludedIn = db
    .prepare<[number], number>(
      'SELECT count(*) FROM load_exclusion_now x CROSS JOIN load_reading r ON r.id = x.reading_id WHERE r.log_id = ?',
    )
    .pluck();
  const count = db.prepare<[number], number>('SELECT count(*) FROM load_reading WHERE log_id = ?').pluck();
  const reading = db.prepare<[number], LoadReadingRow & { load_id: number }>(
    `SELECT r.id, r.log_id, r.read_at, r.typed, r.value, r.by, x.reason AS excluded, x.id AS exclusion_id, l.load_id
     FROM load_reading r JOIN load_log l ON l.id = r.log_id LEFT JOIN load_exclusion_now x ON x.reading_id = r.id WHERE r.id = ?`,
  );
  const addReading = db.prepare(
    'INSERT INTO load_reading (log_id, read_at, typed, value, at, by) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const exclude = db.prepare('INSERT INTO load_exclusion (reading_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const include = db.prepare(
    'INSERT INTO load_exclusion_void (exclusion_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const basis = db
    .prepare<{ loadId: number }, string>(
      `SELECT format('%d %d %d %d %d %d',
        (SELECT coalesce(min(r.id), 0) FROM load_record r WHERE r.load_id = @loadId AND r.id > coalesce(
          (SELECT max(o.id) FROM load_record o WHERE o.load_id = @loadId AND json_remove(o.body, '$.note') <>
            (SELECT json_remove(n.body, '$.note') FROM load_record n WHERE n.load_id = @loadId ORDER BY n.id DESC LIMIT 1)), 0)),
        (SELECT coalesce(max((SELECT max(r.id) FROM load_reading r WHERE r.log_id = l.id)), 0) FROM load_log l WHERE l.load_id = @loadId),
        (SELECT count(*) FROM load_log_void v JOIN load_log l ON l.id = v.log_id WHERE l.load_id = @loadId),
        (SELECT count(*) FROM load_exclusion x CROSS JOIN load_reading r ON r.id = x.reading_id CROSS JOIN load_log l ON l.id = r.log_id WHERE l.load_id = @loadId),
        (SELECT count(*) FROM load_exclusion_void v CROSS JOIN load_exclusion x ON x.id = v.exclusion_id
          CROSS JOIN load_reading r ON r.id = x.reading_id CROSS JOIN load_log l ON l.id = r.log_id WHERE l.load_id = @loadId),
        (SELECT coalesce(max(b.id), 0) + count(v.load_batch_id) FROM load_batch b LEFT JOIN load_batch_void v ON v.load_batch_id = b.id
          WHERE b.load_id = @loadId))`,
    )
    .pluck();
  const deviation = `SELECT d.*, v.reason AS void_reason FROM deviation d LEFT JOIN deviation_void v ON v.deviation_id = d.id`;
  const ofLoadDecided = db.prepare<[number], DeviationRow>(`${deviation} WHERE d.load_id = ? ORDER BY d.id`);
  const ofMadeDecided = db.prepare<[number], DeviationRow>(`${deviation} WHERE d.made_id = ? ORDER BY d.id`);
  const oneDeviation = db.prepare<[number], DeviationRow>(`${deviation} WHERE d.id = ?`);
  const decide = db.prepare(
    `INSERT INTO deviation (load_id, made_id, decided, decided_by, note, at, by)
     VALUES (@loadId, @madeId, @decided, @decidedBy, @note, @at, @by)`,
  );
  const voidDeviation = db.prepare(
    'INSERT INTO deviation_void (deviation_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  return {
    /** Voided ones too, in order. */
    ofLoad: (loadId: number) => ofLoad.all(loadId),
    get: (id: number) => get.get(id),
    add: (row: Omit<LoadLogRow, 'id' | 'load_id' | 'void_reason'> & { loadId: number }): number =>
      Number(add.run(row).lastInsertRowid),
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    /** The readings that count, in the order of the file. */
    counting: (logId: number) => ((excludedIn.get(logId) ?? 0) > 0 ? counting : complete).all(logId),
    /** Readings of a load, those of voided logs left out. */
    readingsOf: (loadId: number): number => summary.get(loadId)?.readings ?? 0,
    /** The latest among the readings of a log that were written last, with a number that counts. */
    newest: (logId: number) => newest.get(logId),
    page: (logId: number, from: number, most: number) => page.all(logId, most, from),
    excludedIn: (logId: number): number => excludedIn.get(logId) ?? 0,
    count: (logId: number): number => count.get(logId) ?? 0,
    reading: (id: number) => reading.get(id),
    addReadings(logId: number, rows: readonly NewReading[], at: string, by: string): void {
      for (const { readAt, typed, value } of rows) addReading.run(logId, readAt, typed, value, at, by);
    },
    exclude: (readingId: number, reason: string, at: string, by: string): number =>
      Number(exclude.run(readingId, reason, at, by).lastInsertRowid),
    include: (exclusionId: number, reason: string, at: string, by: string): void =>
      void include.run(exclusionId, reason, at, by),
    /**
     * What a verdict on the load would rest on: it differs once anything of it has changed. Closing and reopening repeat the cook
     * as it was written down, and a note changes no figure.
     */
    basis: (loadId: number): string => basis.get({ loadId }) ?? '',
    decidedOfLoad: (loadId: number) => ofLoadDecided.all(loadId),
    decidedOfMade: (madeId: number) => ofMadeDecided.all(madeId),
    deviation: (id: number) => oneDeviation.get(id),
    decide: (row: {
      loadId: number | null;
      madeId: number | null;
      decided: DeviationRow['decided'];
      decidedBy: string;
      note: string;
      at: string;
      by: string;
    }): number => Number(decide.run(row).lastInsertRowid),
    voidDeviation: (id: number, reason: string, at: string, by: string): void =>
      void voidDeviation.run(id, reason, at, by),
  };
}
