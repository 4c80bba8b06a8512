import type { Db } from '../file/db.ts';
import { firstFree, MAX_IN_SEASON, ticketOf } from './season-mark.ts';

/** A season's running number and its ticket. */
export interface Ticket {
  season: number;
  number: number;
  ticket: string;
}

interface TicketHolder extends Ticket {
  id: number;
}

/** Ticket numbers: the next one, and former ones of animals that moved to another season. */
export function ticketRecords(db: Db) {
  const last = db
    .prepare<{ season: number }, number>(
      `SELECT max(coalesce((SELECT max(number) FROM animal WHERE season = @season AND number < ${MAX_IN_SEASON}), 0),
         coalesce((SELECT max(number) FROM former_ticket WHERE season = @season AND number < ${MAX_IN_SEASON}), 0))`,
    )
    .pluck();
  const holder = db
    .prepare<{ ticket: string }, number>(
      `SELECT id FROM animal WHERE ticket = @ticket
       UNION ALL SELECT animal_id FROM former_ticket WHERE ticket = @ticket LIMIT 1`,
    )
    .pluck();
  const taken = db
    .prepare<{ season: number; number: number }, number>(
      `SELECT 1 FROM animal WHERE season = @season AND number = @number
       UNION ALL SELECT 1 FROM former_ticket WHERE season = @season AND number = @number LIMIT 1`,
    )
    .pluck();
  const formerIn = db.prepare<[number, number], Ticket>(
    'SELECT season, number, ticket FROM former_ticket WHERE animal_id = ? AND season = ? ORDER BY id LIMIT 1',
  );
  const former = db
    .prepare<[number], string>('SELECT ticket FROM former_ticket WHERE animal_id = ? ORDER BY id')
    .pluck();
  const keep = db.prepare(
    `INSERT INTO former_ticket (animal_id, season, number, ticket, at, by)
     SELECT @id, @season, @number, @ticket, @at, @by
     WHERE NOT EXISTS (SELECT 1 FROM former_ticket WHERE ticket = @ticket)`,
  );
  const move = db.prepare(
    'UPDATE animal SET season = @season, number = @number, ticket = @ticket WHERE id = @id',
  );

  /** The next running number of a season, after every used ticket. */
  function next(season: number): Ticket {
    const after = (last.get({ season }) ?? 0) + 1;
    const number = firstFree(after, (n) => holder.get({ ticket: ticketOf(season, n) }) !== undefined);
    return { season, number, ticket: ticketOf(season, number) };
  }

  /**
   * The ticket of an animal in another season: its present one, if valid there; else a former one of that season;
   * else the next one.
   */
  function inSeason(animal: TicketHolder, season: number): Ticket {
    const { id, number, ticket } = animal;
    if (ticketOf(season, number) === ticket && taken.get({ season, number }) === undefined)
      return { season, number, ticket };
    return formerIn.get(id, season) ?? next(season);
  }

  return {
    next,
    /** The animal with a present or former ticket. */
    holder: (ticket: string) => holder.get({ ticket }),
    /** Former tickets of an animal, oldest first. */
    former: (animalId: number) => former.all(animalId),
    /** Moves an animal to another season, inside the transaction. Its former ticket still finds it. */
    move(animal: TicketHolder, season: number, at: string, by: string): Ticket {
      const now = inSeason(animal, season);
      if (now.ticket !== animal.ticket)
        keep.run({
          id: animal.id,
          season: animal.season,
          number: animal.number,
          ticket: animal.ticket,
          at,
          by,
        });
      move.run({ ...now, id: animal.id });
      return now;
    },
  };
}
