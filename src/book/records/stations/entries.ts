import type { Db } from '../../file/db.ts';

/** What became of an entry, as it is told again. */
export interface StoredEntry {
  digest: string;
  /** JSON. */
  answer: string;
}

/** Outboxes of stations, and what was taken of them. */
export function stationEntryRecords(db: Db) {
  const lineOf = db.prepare<[string], { id: number; stationId: number }>(
    'SELECT id, station_id AS stationId FROM station_line WHERE line = ?',
  );
  const addLine = db.prepare(
    'INSERT INTO station_line (station_id, line, at, by) VALUES (@stationId, @line, @at, @by)',
  );
  const last = db
    .prepare<[number], number>('SELECT coalesce(max(number), 0) FROM station_entry WHERE line_id = ?')
    .pluck();
  const lastUpTo = db
    .prepare<[number, number], number>(
      'SELECT number FROM station_entry WHERE line_id = ? AND id <= ? ORDER BY number DESC LIMIT 1',
    )
    .pluck();
  const newest = db.prepare<[], number>('SELECT coalesce(max(id), 0) FROM station_entry').pluck();
  const get = db.prepare<[number, number], StoredEntry>(
    'SELECT digest, answer FROM station_entry WHERE line_id = ? AND number = ?',
  );
  const isTaken = db.prepare<[string], number>('SELECT 1 FROM station_entry WHERE entry = ?').pluck();
  const add = db.prepare(
    `INSERT INTO station_entry (line_id, number, entry, digest, wire, call, answer, person, checked, typed_at, ahead_ms, at, by)
     VALUES (@lineId, @number, @entry, @digest, @wire, @call, @answer, @person, @checked, @typedAt, @aheadMs, @at, @by)`,
  );
  const madeAs = db.prepare<[string], number>('SELECT record_id FROM station_made WHERE made = ?').pluck();
  const addMade = db.prepare(
    `INSERT INTO station_made (station_id, made, call, record_id, at, by)
     VALUES (@stationId, @made, @call, @recordId, @at, @by)`,
  );
  return {
    line: (line: string) => lineOf.get(line),
    addLine: (row: { stationId: number; line: string; at: string; by: string }): number =>
      Number(addLine.run(row).lastInsertRowid),
    /** The number of the newest entry of a line; 0 before the first. */
    last: (lineId: number): number => last.get(lineId) ?? 0,
    /** The same among the entries up to the one with this id. */
    lastUpTo: (lineId: number, entryId: number): number => lastUpTo.get(lineId, entryId) ?? 0,
    /** The id of the newest entry of all lines; 0 before the first. */
    newest: (): number => newest.get() ?? 0,
    get: (lineId: number, number: number) => get.get(lineId, number),
    /** Whether an entry of this name stands in any line. */
    isTaken: (entry: string): boolean => isTaken.get(entry) !== undefined,
    /** The row that a station made under this name of its own. */
    madeAs: (made: string) => madeAs.get(made),
    addMade: (row: {
      stationId: number;
      made: string;
      call: string;
      recordId: number;
      at: string;
      by: string;
    }): void => void addMade.run(row),
    add: (row: {
      lineId: number;
      number: number;
      entry: string;
      digest: string;
      wire: number;
      call: string;
      answer: string;
      person: string;
      checked: boolean;
      typedAt: string;
      aheadMs: number;
      at: string;
      by: string;
    }): void => void add.run({ ...row, checked: Number(row.checked) }),
  };
}
