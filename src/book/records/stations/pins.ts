import type { Db } from '../../file/db.ts';

interface PinRow {
  initials: string;
  salt: string;
  hash: string | null;
}

/** PINs of staff: a salted hash each. */
export function pinRecords(db: Db) {
  const newest = 'SELECT max(id) FROM staff_pin GROUP BY initials';
  const all = db
    .prepare<[], string>(
      `SELECT initials FROM staff_pin WHERE id IN (${newest}) AND hash IS NOT NULL ORDER BY initials`,
    )
    .pluck();
  const get = db.prepare<[string], PinRow>(
    'SELECT initials, salt, hash FROM staff_pin WHERE initials = ? ORDER BY id DESC LIMIT 1',
  );
  const add = db.prepare(
    'INSERT INTO staff_pin (initials, salt, hash, at, by) VALUES (@initials, @salt, @hash, @at, @by)',
  );
  return {
    /** Initials of those who have one. */
    who: () => all.all(),
    /** Undefined without one. */
    get(initials: string): { salt: string; hash: string } | undefined {
      const row = get.get(initials);
      return row && row.hash !== null ? { salt: row.salt, hash: row.hash } : undefined;
    },
    /** @param row `hash` null takes the PIN away */
    add: (row: { initials: string; salt: string; hash: string | null; at: string; by: string }): void =>
      void add.run(row),
  };
}
