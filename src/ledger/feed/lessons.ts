/**
 * What shops of one ledger teach each other, beside their books' rows: each shop's newest lesson as the text that it also gives to
 * others by hand. All shops read all of them, and each writes its own.
 */
import { LedgerError } from '../server/ledger-error.ts';
import { one, type Server } from '../server/server.ts';

export interface SharedLesson {
  /** The mark of the shop that learned it. */
  source: string;
  /** The shop's name. */
  label: string;
  text: string;
}

/** More shops than an owner has. */
const MOST = 20;

/**
 * Puts the shop's own lesson in the place of its last, and fetches those of the others, the newest first. A ledger that was prepared
 * before it had a place for them has none.
 * @param mine null while the shop has nothing to tell
 */
export async function exchangeLessons(
  server: Server,
  shop: number,
  mine: SharedLesson | null,
): Promise<SharedLesson[]> {
  if ((await one(server, "SELECT to_regclass('ledger.shared_lesson')::text")) === null) return [];
  if (mine) await put(server, shop, mine);
  const rows = await server.rows(
    `SELECT source, label, body FROM ledger.shared_lesson WHERE source <> $1 ORDER BY at DESC LIMIT ${MOST}`,
    [mine?.source ?? ''],
  );
  return rows.map(([source, label, text]) => ({
    source: String(source),
    label: String(label),
    text: String(text),
  }));
}

async function put(server: Server, shop: number, { source, label, text }: SharedLesson): Promise<void> {
  try {
    await server.rows(
      `INSERT INTO ledger.shared_lesson (shop, source, label, body) VALUES ($1, $2, $3, $4)
       ON CONFLICT (source) DO UPDATE SET shop = excluded.shop, label = excluded.label, body = excluded.body, at = now()`,
      [shop, source, label, text],
    );
  } catch (error) {
    // A book that goes on under another login may not touch what the old login wrote: that lesson stays as it was.
    if (!(error instanceof LedgerError) || error.code !== 'no-rights') throw error;
  }
}
