/** What of each column leaves the shop: everything, or nothing that could say who a customer is. */
import type { Db } from '../../book/file/db.ts';
import { PERSONAL_TEXT, REMOVED } from '../../book/privacy/personal-text.ts';
import { FOLLOWS } from '../../book/privacy/other-text.ts';
import { factsOf } from '../../book/privacy/remove-details.ts';
import type { LedgerTable } from '../tables/ledger-tables.ts';
import { withoutOwnWords } from './own-words.ts';

/** Whose details leave the shop. */
export interface Privacy {
  /** Names, numbers, addresses and free text about customers as well: only if the owner says so. */
  personal: boolean;
  /** Names of products and extras that the program gave; one that was typed for a customer may hold the customer's name. */
  known: readonly string[];
}

/** Settings that stay: the lock of the backups opens them. */
const SETTINGS_KEPT = "('backupLock')";

/** Names that the shop itself gave. */
const GIVEN = `SELECT name FROM product UNION SELECT code FROM product UNION SELECT code FROM price_line
  UNION SELECT product FROM price_line WHERE product IS NOT NULL
  UNION SELECT n.value FROM price_line l, json_each(l.products) n`;

/**
 * Gives a reading connection the functions that the replacements of personal text call.
 * @returns a function that learns anew which names the shop gave
 */
export function addPrivacy(db: Db, { known }: Privacy): () => void {
  const given = db.prepare<[], string>(GIVEN).pluck();
  let kept: ReadonlySet<string> = new Set(known);
  const ofText =
    (work: (text: string) => string | null) =>
    (text: string | null): string | null =>
      text === null ? null : work(text);
  db.function(
    'other_word',
    ofText((word) => (kept.has(word) ? word : REMOVED)),
  );
  db.function(
    'other_words',
    ofText((json) => withoutOwnWords(json, kept)),
  );
  db.function('audit_facts', factsOf);
  return () => void (kept = new Set([...known, ...given.all()]));
}

/**
 * SQL of each column of a table as it is sent. Without personal details a column is replaced as when a customer's details are
 * removed, so what arrives fits the book's own rules.
 */
export function sentColumns({ name, columns }: LedgerTable, { personal }: Privacy): string[] {
  const becomes = PERSONAL_TEXT[name]?.columns ?? {};
  return columns.map(({ name: column }) => {
    if (personal) return `"${column}"`;
    if (FOLLOWS[name]?.includes(column)) return `other_word("${column}")`;
    const replaced = becomes[column]?.[1];
    if (replaced === undefined) return `"${column}"`;
    // Some replacements ask whose details go; here it is everybody's.
    return replaced.includes('@id') ? `'${REMOVED}'` : `(${replaced})`;
  });
}

/** SQL condition of the rows of a table that are sent. */
export const sentRows = (table: string): string =>
  table === 'setting' ? `key NOT IN ${SETTINGS_KEPT}` : 'true';
