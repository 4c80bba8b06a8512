import type { Db } from '../file/db.ts';

/** More changes than this at once (a file brought in) and everything is read again. */
const MOST_KNOWN = 1000;

/** What a change may be of: an animal's own sums, what was billed for it, or the quote that it came of. */
export type ChangeOf = 'sums' | 'bills' | 'quote';

export interface AnimalChanges {
  /** Animals that changed since this mark, and the mark of now; null where that is not known any more. */
  since(mark: number): { animals: ReadonlySet<number>; mark: number } | null;
  mark(): number;
  /** Rises with every change of this kind of one of the season's animals. */
  ofSeason(what: ChangeOf, season: number): number;
  /** Another program may have changed any. */
  forget(): void;
}

/** The rows that a change shows in, and how one tells of its animal. */
const TOLD_BY: readonly { table: string; verb: string; tells: string }[] = [
  { table: 'animal_sum', verb: 'INSERT', tells: "'sums', NEW.animal_id, NEW.season)" },
  { table: 'animal_sum', verb: 'UPDATE', tells: "'sums', NEW.animal_id, NEW.season)" },
  { table: 'animal_sum', verb: 'DELETE', tells: "'sums', OLD.animal_id, OLD.season)" },
  // Its sums and its bills are told under the season that it came to; here it leaves the other.
  {
    table: 'animal',
    verb: 'UPDATE OF season',
    tells:
      "'sums', OLD.id, OLD.season), animal_changed('bills', OLD.id, OLD.season), animal_changed('bills', NEW.id, NEW.season)",
  },
  {
    table: 'bill',
    verb: 'INSERT',
    tells: "'bills', a.id, a.season) FROM animal a WHERE a.id = NEW.animal_id",
  },
  {
    table: 'bill_void',
    verb: 'INSERT',
    tells:
      "'bills', a.id, a.season) FROM bill b JOIN animal a ON a.id = b.animal_id WHERE b.id = NEW.bill_id",
  },
];

/**
 * Which animals changed while the book is open, told by triggers of this connection alone: they are no part of the book
 * and write nothing. A change that was undone is told too, which does no harm.
 */
export function animalChanges(db: Db): AnimalChanges {
  /** Changed animals in order; the first of them has the mark `dropped`. */
  let changed: number[] = [];
  let dropped = 0;
  const counts = new Map<string, number>();
  let forgotten = 0;
  const drop = (): void => {
    dropped += changed.length + 1;
    changed = [];
  };
  const mark = (): number => dropped + changed.length;
  db.function('animal_changed', (what: string, animalId: number, season: number) => {
    if (changed.length >= MOST_KNOWN) drop();
    changed.push(animalId);
    counts.set(`${what} ${season}`, (counts.get(`${what} ${season}`) ?? 0) + 1);
    return null;
  });
  for (const { table, verb, tells } of TOLD_BY)
    db.exec(`CREATE TEMP TRIGGER ${table}_tells_${verb.replaceAll(' ', '_')} AFTER ${verb} ON main.${table} BEGIN
      SELECT animal_changed(${tells};
    END`);
  return {
    since: (from) =>
      from < dropped ? null : { animals: new Set(changed.slice(from - dropped)), mark: mark() },
    mark,
    ofSeason: (what, season) => forgotten + (counts.get(`${what} ${season}`) ?? 0),
    forget() {
      drop();
      forgotten += 1;
    },
  };
}
