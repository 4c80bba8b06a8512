/**
 * What holds of every call that writes. It leaves a trail: a row that is written once, or a line of the audit, signed with the
 * initials of who did it. In another opening of a book it does nothing: the same numbers mean other records there. No answer
 * that a window shows changes without the window being told to ask again. What the desk caches of a season is as the book
 * stands. A new call is tried in `tried-writes.ts` as well, or it fails here.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { opensABook } from '../../../src/bridge/client/opens-a-book.ts';
import { OTHER_OPENING } from '../../../src/bridge/client/other-opening.ts';
import type { CallName } from '../../../src/bridge/contract.ts';
import { observeWrite, type Observed } from './observe.ts';
import { trailOf } from './trail.ts';

/** The views of the season tell of what matters to a season, or their comparison would prove nothing. */
const SHOWS: readonly CallName[] = ['table.void', 'intake.takeIn'];

export function describeWrites(names: readonly CallName[]): void {
  describe.each(names)('%s', (name) => {
    let seen: Observed;
    beforeAll(async () => void (seen = await observeWrite(name)));

    it('is carried out in its own opening, which stays open', () => {
      expect(seen.called).toBe(name);
      expect(seen.answer).toMatchObject({ ok: true });
      expect(seen.rows.after).not.toEqual(seen.rows.before);
      expect([seen.openings[1], opensABook(name)]).toEqual([seen.openings[0], false]);
    });

    it('does nothing in another opening', () => {
      expect(seen.refusals).toEqual([OTHER_OPENING, OTHER_OPENING]);
      expect(seen.rows.refused).toEqual(seen.rows.before);
    });

    it('leaves a trail', () => {
      const { signed, changed, gone } = trailOf(seen);
      expect(signed.length, 'rows signed by who did it').toBeGreaterThan(0);
      expect(changed.length === 0 || signed.includes('audit'), `${changed.join()} changed unseen`).toBe(true);
      expect(gone).toEqual([]);
    });

    it('says which questions are out of date', () => expect(seen.untold).toEqual([]));

    it('leaves the cached season as the book stands', () => {
      expect(seen.season.after).toEqual(seen.season.anew);
      if (SHOWS.includes(name))
        expect(JSON.stringify(seen.season.after)).not.toBe(JSON.stringify(seen.season.before));
    });
  });
}
