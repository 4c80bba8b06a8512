import type { Db } from '../file/db.ts';

interface TemplateRow {
  id: number;
  name: string;
  carcass: string | null;
  /** JSON of the desk's instructions; `null`: a supplied one of this name, only archived. */
  body: string;
  active: 0 | 1;
}

interface NewTemplate {
  name: string;
  carcass: string | null;
  body: object | null;
  active: boolean;
}

/** The shop's own cutting templates, and supplied ones that it changed or archived. */
export function templateRecords(db: Db) {
  const all = db.prepare<[], TemplateRow>(
    'SELECT id, name, carcass, body, active FROM instruction_template ORDER BY name, id',
  );
  const add = db.prepare(
    'INSERT INTO instruction_template (name, carcass, body, active) VALUES (@name, @carcass, @body, @active)',
  );
  const change = db.prepare(
    'UPDATE instruction_template SET name = @name, carcass = @carcass, body = @body, active = @active WHERE id = @id',
  );
  const columns = (template: NewTemplate) => ({
    ...template,
    body: JSON.stringify(template.body),
    active: template.active ? 1 : 0,
  });
  return {
    all: () => all.all(),
    add: (template: NewTemplate): number => Number(add.run(columns(template)).lastInsertRowid),
    change: (id: number, template: NewTemplate): void => void change.run({ id, ...columns(template) }),
  };
}
