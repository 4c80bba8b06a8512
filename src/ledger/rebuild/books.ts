/** The books that a ledger has, for the list to choose from. */
import { LedgerError } from '../server/ledger-error.ts';
import type { Server } from '../server/server.ts';

/** A branch of a book of which something was sent. */
export interface LedgerBook {
  shop: number;
  book: string;
  branch: number;
  name: string;
  /** UTC moment of the last batch. */
  sentAt: string;
  animals: number;
  /** False while a large backlog was on its way: part of a bill may be missing. */
  whole: boolean;
  /** Whether it has names and addresses of customers. */
  personal: boolean;
  superseded: boolean;
}

/** The books that this role may see: those in use first, by name, then the newest branches. */
export async function booksIn(server: Server): Promise<LedgerBook[]> {
  const rows = await server.rows(`
    SELECT s.shop, s.book, s.branch, s.name, to_char(s.sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"'),
      (SELECT count(*) FROM ledger.animal a WHERE a.shop = s.shop), s.whole, s.personal, s.superseded_by IS NOT NULL
    FROM ledger.shop s WHERE s.sent_at IS NOT NULL
    ORDER BY s.superseded_by IS NOT NULL, s.name, s.branch DESC`);
  return rows.map(([shop, book, branch, name, sentAt, animals, whole, personal, superseded]) => ({
    shop: Number(shop),
    book: String(book),
    branch: Number(branch),
    name: String(name),
    sentAt: String(sentAt),
    animals: Number(animals),
    whole: whole === true,
    personal: personal === true,
    superseded: superseded === true,
  }));
}

/** What a ledger says of a branch besides its rows. */
export interface BranchNote extends Pick<LedgerBook, 'whole' | 'personal'> {
  /** The newest branch of the same book, as far as this role may see. */
  newest: number;
}

/** @throws LedgerError `empty` when this role may see no such branch */
export async function branchNote(server: Server, shop: number): Promise<BranchNote> {
  const [row] = await server.rows(
    `SELECT whole, personal, (SELECT max(branch) FROM ledger.shop n WHERE n.book = s.book)
     FROM ledger.shop s WHERE shop = $1`,
    [shop],
  );
  if (!row) throw new LedgerError('empty');
  const [whole, personal, newest] = row;
  return { whole: whole === true, personal: personal === true, newest: Number(newest) };
}
