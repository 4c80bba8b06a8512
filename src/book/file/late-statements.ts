/**
 * Statements that are compiled at their first use. The book has some 270 of them, and compiling all of them was a third of the
 * time of opening it; a day in a shop needs a few dozen.
 */
import type Database from 'better-sqlite3';
import type { Db } from './db.ts';

type Statement = Database.Statement<unknown[]>;

/** The part of better-sqlite3's `Statement` that the book uses. */
class LateStatement {
  readonly #compile: () => Statement;
  readonly #shapes: ((statement: Statement) => void)[] = [];
  #compiled: Statement | undefined;

  constructor(compile: () => Statement) {
    this.#compile = compile;
  }

  #ready(): Statement {
    if (!this.#compiled) {
      this.#compiled = this.#compile();
      for (const shape of this.#shapes) shape(this.#compiled);
    }
    return this.#compiled;
  }

  get database(): Db {
    return this.#ready().database;
  }

  pluck(on = true): this {
    return this.#shaped((statement) => statement.pluck(on));
  }

  raw(on = true): this {
    return this.#shaped((statement) => statement.raw(on));
  }

  run(...values: unknown[]): Database.RunResult {
    return this.#ready().run(...values);
  }

  get(...values: unknown[]): unknown {
    return this.#ready().get(...values);
  }

  all(...values: unknown[]): unknown[] {
    return this.#ready().all(...values);
  }

  iterate(...values: unknown[]): IterableIterator<unknown> {
    return this.#ready().iterate(...values);
  }

  #shaped(shape: (statement: Statement) => void): this {
    if (this.#compiled) shape(this.#compiled);
    else this.#shapes.push(shape);
    return this;
  }
}

/** Makes `db.prepare` put compiling off from now on. */
export function prepareLate(db: Db): void {
  const prepare = db.prepare.bind(db);
  const late = (sql: string) => new LateStatement(() => prepare(withStableIds(sql)));
  db.prepare = late as unknown as Db['prepare'];
}

/** The id of a row, or of the row that it belongs to, and a parameter. */
const BOUND_ID = /\b(id|\w+_id) = (?=[?@])/g;

/**
 * Keeps SQLite from compiling a statement again for each id that is bound. With STAT4 it does so for every parameter that a plan
 * could depend on, which takes ten times as long as to run it; which row is wanted makes no difference to a plan. A unary plus
 * leaves the value as it is and hides the parameter from the planner.
 */
function withStableIds(sql: string): string {
  return sql.replace(BOUND_ID, '$1 = +');
}
