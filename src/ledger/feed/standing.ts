/** Where a ledger stands with a book: whether the feed may go on, and from which change. */
import type { Db } from '../../book/file/db.ts';
import { FEED_TABLE } from '../../book/feed/feed-schema.ts';
import { newestPlace, type FeedPlace } from '../../book/feed/feed.ts';
import { LedgerError } from '../server/ledger-error.ts';
import { one, type Server } from '../server/server.ts';

/** A branch of a book in the ledger. */
export interface Branch {
  shop: number;
  place: FeedPlace;
  personal: boolean;
  superseded: boolean;
}

/** Which branch of which book feeds. */
export interface BranchName {
  /** The identity of the book. */
  book: string;
  branch: number;
}

/** The branch as the ledger has it; null: it has none that this role may see. */
export async function branchAt(server: Server, { book, branch }: BranchName): Promise<Branch | null> {
  const [row] = await server.rows(
    'SELECT shop, seq, mark, personal, superseded_by IS NOT NULL FROM ledger.shop WHERE book = $1 AND branch = $2',
    [book, branch],
  );
  if (!row) return null;
  const [shop, seq, mark, personal, superseded] = row;
  return {
    shop: Number(shop),
    place: { seq: Number(seq), mark: Number(mark) },
    personal: personal === true,
    superseded: superseded === true,
  };
}

/**
 * Begins a branch, and puts it in the place of the book's other branches.
 * @throws LedgerError `taken` when another role has it
 */
export async function beginBranch(
  server: Server,
  { book, branch }: BranchName,
  of: { name: string; bookVersion: number; personal: boolean },
): Promise<Branch> {
  const shop = await one(
    server,
    `INSERT INTO ledger.shop (book, branch, name, book_version, personal) VALUES ($1, $2, $3, $4, $5)
     ON CONFLICT (book, branch) DO NOTHING RETURNING shop`,
    [book, branch, of.name, of.bookVersion, of.personal],
  );
  if (shop === undefined) throw new LedgerError('taken');
  await server.rows(
    'UPDATE ledger.shop SET superseded_by = $1 WHERE book = $2 AND branch < $3 AND superseded_by IS NULL',
    [Number(shop), book, branch],
  );
  return { shop: Number(shop), place: { seq: 0, mark: 0 }, personal: of.personal, superseded: false };
}

/**
 * Whether the book goes on where the ledger stands.
 * @throws LedgerError `superseded`; `ahead` when the ledger knows changes that the book does not; `fork` when it knows others;
 *   `forgotten` when the book has pruned that place
 */
export function mayGoOn(db: Db, { place, superseded }: Branch): void {
  if (superseded) throw new LedgerError('superseded');
  const { first } = db.prepare(`SELECT min(seq) AS first FROM ${FEED_TABLE}`).get() as {
    first: number | null;
  };
  if (place.seq === 0) {
    if (first !== null && first > 1) throw new LedgerError('forgotten');
    return;
  }
  const newest = newestPlace(db).seq;
  if (place.seq > newest) throw new LedgerError('ahead', String(place.seq - newest));
  const mark = db
    .prepare<[number], number>(`SELECT mark FROM ${FEED_TABLE} WHERE seq = ?`)
    .pluck()
    .get(place.seq);
  if (mark === undefined) throw new LedgerError('forgotten');
  if (mark !== place.mark) throw new LedgerError('fork');
}
