import type { Db } from '../file/db.ts';

/** Settings of the shop: a JSON value per key. */
export function settingRecords(db: Db) {
  const all = db.prepare<[], { key: string; value: string }>('SELECT key, value FROM setting');
  const put = db.prepare(
    'INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  );
  const people = db.prepare<[], { initials: string; name: string }>(
    'SELECT initials, name FROM staff WHERE active = 1 ORDER BY initials',
  );
  const hire = db.prepare(
    'INSERT INTO staff (initials, name) VALUES (?, ?) ON CONFLICT (initials) DO UPDATE SET name = excluded.name, active = 1',
  );
  return {
    all: (): Record<string, unknown> =>
      Object.fromEntries(all.all().map(({ key, value }) => [key, JSON.parse(value)])),
    put: (key: string, value: unknown): void => void put.run(key, JSON.stringify(value)),
    staff: () => people.all(),
    addStaff: (initials: string, name: string): void => void hire.run(initials, name),
  };
}
