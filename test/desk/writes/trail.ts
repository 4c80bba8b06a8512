/** The trail that a write leaves in the rows. */
import type { CallName } from '../../../src/bridge/contract.ts';
import { APPEND_ONLY } from '../../../src/book/migrations/0001-the-book-views.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { WHO, type Observed } from './observe.ts';

/** Takes rows out again that a file had brought, and says so in the audit. */
const TAKES_OUT: readonly CallName[] = ['import.undo'];
/**
 * Change no record of the shop's book: it is copied, put aside while the demo is looked at, or, empty, made the very same
 * as the one that was taken out, trail and all. A password is kept beside it. Whoever asks to become a station is not in it yet.
 */
const CHANGES_NO_RECORD: readonly CallName[] = [
  'shop.backUp',
  'shop.openDemo',
  'shop.leaveDemo',
  'import.book',
  'ledger.storePassword',
  'stations.newCode',
  'stations.refuse',
];
/** The program makes these calls, and nobody signs them. */
const BY_ITSELF: readonly CallName[] = ['ledger.lesson'];
const WRITTEN_ONCE: readonly string[] = APPEND_ONLY;
/** Parts and lines hang on the row that they belong to. */
const HANGS_ON_ANOTHER = /^(animal_part|batch_animal|share)$/;

/** What leaves a trail. What stands at the door deals with files of books, not with what is written in one. */
export const WRITING = (Object.keys(procedures) as CallName[]).filter(
  (name) => /^(write|host)$/.test(procedures[name].kind) && !CHANGES_NO_RECORD.includes(name),
);

export interface Trail {
  /** Tables with a new row that is signed by who did it. */
  signed: string[];
  /** Tables with a changed row, or a new one that is neither written once nor signed. */
  changed: string[];
  /** Rows that are gone, which none may be. */
  gone: string[];
}

export function trailOf({ called, rows: { before, after } }: Observed): Trail {
  const signed: string[] = [];
  const changed: string[] = [];
  for (const [table, rows] of after)
    for (const [key, row] of rows) {
      const old = before.get(table)?.get(key);
      if (old && JSON.stringify(old) === JSON.stringify(row)) continue;
      const bySomebody = !old && row.by === (BY_ITSELF.includes(called) ? '' : WHO);
      if (bySomebody) signed.push(table);
      const ownTrail = bySomebody || WRITTEN_ONCE.includes(table) || HANGS_ON_ANOTHER.test(table);
      if (old || !ownTrail) changed.push(table);
    }
  const gone = [...before].flatMap(([table, rows]) =>
    [...rows.keys()].filter((key) => !after.get(table)?.has(key)).map((key) => `${table} ${key}`),
  );
  return { signed, changed, gone: TAKES_OUT.includes(called) ? [] : gone };
}
