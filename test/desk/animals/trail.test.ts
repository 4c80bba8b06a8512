/**
 * Every call that writes leaves a trail: a row that is written once, or a line of the audit, signed with the initials of
 * who did it. A new call is tried in `tried-writes.ts` as well, or this test fails.
 */
import { describe, expect, it } from 'vitest';
import type { CallInput, CallName } from '../../../src/bridge/contract.ts';
import { APPEND_ONLY } from '../../../src/book/migrations/0001-the-book-views.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { allRows } from '../all-rows.ts';
import { freshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';

const WHO = 'TR';
/** Takes rows out again that a file had brought, and says so in the audit. */
const TAKES_OUT: readonly CallName[] = ['import.undo'];
/**
 * Change no record of the shop's book: it is copied, put aside while the demo is looked at, or, empty, made the very same
 * as the one that was taken out, trail and all. Whoever asks to become a station is not in it yet.
 */
const CHANGES_NO_RECORD: readonly CallName[] = [
  'shop.backUp',
  'shop.openDemo',
  'shop.leaveDemo',
  'import.book',
  'stations.newCode',
  'stations.refuse',
];

const WRITTEN_ONCE: readonly string[] = APPEND_ONLY;
/** What stands at the door deals with files of books, not with what is written in one. */
const writing = (Object.keys(procedures) as CallName[]).filter(
  (name) => /^(write|host)$/.test(procedures[name].kind) && !CHANGES_NO_RECORD.includes(name),
);

describe('every call that writes', () => {
  it.each(writing)('%s leaves a trail', async (name) => {
    const prepare = TRIED[name];
    if (!prepare) throw new Error(`Try ${name} in tried-writes.ts, so that it is seen to leave a trail.`);
    const shop = await freshDesk();
    const [called, input] = await prepare(shop);
    expect(called).toBe(name);
    shop.wait(60);
    const before = allRows(shop.bookPath);
    await shop.call(name, { ...input, by: WHO } as CallInput<typeof name>);
    const signed: string[] = [];
    const changed: string[] = [];
    const after = allRows(shop.bookPath);
    for (const [table, rows] of after)
      for (const [key, row] of rows) {
        const old = before.get(table)?.get(key);
        if (old && JSON.stringify(old) === JSON.stringify(row)) continue;
        if (!old && row.by === WHO) signed.push(table);
        // What is written once, or signed itself, is its own trail; parts and lines hang on the row that they belong to.
        if (
          old ||
          !(
            WRITTEN_ONCE.includes(table) ||
            row.by === WHO ||
            /^(animal_part|batch_animal|share)$/.test(table)
          )
        )
          changed.push(table);
      }
    expect(signed.length, 'rows signed by who did it').toBeGreaterThan(0);
    expect(changed.length === 0 || signed.includes('audit'), `${changed.join()} changed unseen`).toBe(true);
    if (TAKES_OUT.includes(name)) return shop.desk.close();
    for (const [table, rows] of before)
      expect(
        [...rows.keys()].filter((key) => !after.get(table)?.has(key)),
        `gone from ${table}`,
      ).toEqual([]);
    shop.desk.close();
  });

  it('is tried above, and nothing else', () =>
    expect(Object.keys(TRIED).filter((name) => !writing.includes(name as CallName))).toEqual([]));
});
