/** The animals, bills or batches behind a group. */
import type { Server, SqlValue } from '../server/server.ts';
import type { OwnerGroupAsked } from './asked.ts';
import { conditionsOf, MEASURE_SQL } from './measures.ts';

/** Maximum length of a readable list. */
const MOST_ROWS = 300;

export interface RowBehind {
  /** Ticket, or name of a batch. */
  name: string;
  /** Its key in the shop's own book. */
  id: number;
  season: number;
  /** Codes. */
  species: string[];
  /** Tickets of the animals in it; of an animal its own. */
  tickets: string[];
  /** Day of intake, bill or start; null where there is none. */
  on: string | null;
  /** The figure of the measure. */
  value: number | null;
}

/** Those that have the figure, highest first; of a backlog all that wait, the oldest first. */
export async function rowsBehind(
  server: Server,
  asked: OwnerGroupAsked,
): Promise<{ total: number; rows: RowBehind[] }> {
  const { measure, shop, currency } = asked;
  const { view, value, row } = MEASURE_SQL[measure];
  const waits = measure === 'backlog';
  const { where, values } = conditionsOf(asked, [
    [(at) => `shop = ${at}`, shop],
    ...(currency === undefined ? [] : [[(at: string) => `currency = ${at}`, currency as SqlValue] as const]),
  ]);
  const which = `${where} AND ${waits ? 'uncut' : `${value} IS NOT NULL`}`;
  const found = await server.rows(
    `SELECT ${row.name}, ${row.key}, season, ${measure === 'fat' ? 'to_json(species)' : 'json_build_array(species)'}::text,
       to_json(${row.tickets})::text, to_char(${row.on}, 'YYYY-MM-DD'), ${value}, count(*) OVER ()
     FROM ledger.${view} WHERE ${which} ORDER BY ${waits ? row.on : `${value} DESC`}, ${row.key} LIMIT ${MOST_ROWS}`,
    values,
  );
  return {
    total: Number(found[0]?.[7] ?? 0),
    rows: found.map(([name, id, season, species, tickets, on, x]) => ({
      name: String(name),
      id: Number(id),
      season: Number(season),
      species: textsOf(species),
      tickets: textsOf(tickets),
      on: on === null ? null : String(on),
      value: x === null ? null : Number(x),
    })),
  };
}

const textsOf = (json: unknown): string[] => (JSON.parse(String(json)) as unknown[]).map(String);
