import type { Db } from './open.ts';

export interface TemplateRow {
  id: number;
  name: string;
  carcass: string | null;
  /** JSON in the desk's instructions shape. */
  body: string;
}

/** Cutting instructions of the shop's own to start from. */
export function templateRecords(db: Db) {
  const all = db.prepare<[], TemplateRow>(
    'SELECT id, name, carcass, body FROM instruction_template WHERE active = 1 ORDER BY name, id',
  );
  const add = db.prepare('INSERT INTO instruction_template (name, carcass, body) VALUES (?, ?, ?)');
  const change = db.prepare(
    'UPDATE instruction_template SET name = ?, carcass = ?, body = ? WHERE id = ? AND active = 1',
  );
  const putAway = db.prepare('UPDATE instruction_template SET active = 0 WHERE id = ? AND active = 1');
  return {
    all: () => all.all(),
    add: (name: string, carcass: string | null, body: object): number =>
      Number(add.run(name, carcass, JSON.stringify(body)).lastInsertRowid),
    /** False when there is none such. */
    change: (id: number, name: string, carcass: string | null, body: object): boolean =>
      change.run(name, carcass, JSON.stringify(body), id).changes === 1,
    putAway: (id: number): boolean => putAway.run(id).changes === 1,
  };
}
