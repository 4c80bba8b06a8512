/** The shops of a ledger, and what they can be asked by. */
import { one, type Server } from '../server/server.ts';

export interface LedgerShop {
  shop: number;
  name: string;
  /** Identity of its book. */
  book: string;
  /** When it last sent anything, UTC; null: never. */
  sentAt: string | null;
  /** False while more of it is on its way. */
  whole: boolean;
}

export async function ledgerShops(server: Server): Promise<LedgerShop[]> {
  const found = await server.rows(`
    SELECT shop, name, book, to_char(sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"'), whole
    FROM ledger.shop_now ORDER BY shop`);
  return found.map(([shop, name, book, sentAt, whole]) => ({
    shop: Number(shop),
    name: String(name),
    book: String(book),
    sentAt: sentAt === null ? null : String(sentAt),
    whole: whole === true,
  }));
}

export interface LedgerChoices {
  /** Newest first. */
  seasons: number[];
  /** Codes, with the name that a shop gave where it made the species or changed it; most animals first. */
  species: { code: string; name: string | null }[];
}

export async function ledgerChoices(server: Server): Promise<LedgerChoices> {
  const seasons = await server.rows(
    'SELECT DISTINCT w.season FROM ledger.animal_sum w JOIN ledger.shop_now n ON n.shop = w.shop ORDER BY 1 DESC',
  );
  const species = await server.rows(`
    SELECT w.species, (SELECT min(ledger.json_of(p.profile) ->> 'name') FROM ledger.species_profile p JOIN ledger.shop_now n ON n.shop = p.shop
      WHERE p.code = w.species) FROM ledger.animal_sum w JOIN ledger.shop_now n ON n.shop = w.shop GROUP BY 1 ORDER BY count(*) DESC, 1`);
  return {
    seasons: seasons.map(([season]) => Number(season)),
    species: species.map(([code, name]) => ({
      code: String(code),
      name: name === null ? null : String(name),
    })),
  };
}

/**
 * Whether whoever is connected reads every shop: a member of the role for reports does, and where the owner could make no roles all
 * shops log in as one.
 */
export async function readsAllShops(server: Server): Promise<boolean> {
  return (
    (await one(
      server,
      `SELECT coalesce((SELECT pg_has_role(current_user, oid, 'USAGE') FROM pg_roles WHERE rolname = 'ledger_reader'), true)`,
    )) === true
  );
}
