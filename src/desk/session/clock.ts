/** Checks the computer's clock, which determines tickets, seasons and the moment of every entry. */
import * as v from 'valibot';
import { lastEntryOf } from '../../book/file/backup-check.ts';
import { by } from '../input/input.ts';
import { write } from './procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from './session.ts';
import { readSetting } from './settings.ts';
import type { ClockDoubt } from '../contract/contract.ts';

const DAY_MS = 86_400_000;
/** Bounds of a valid clock: the program is younger than the first, and no season is later than the second. */
const EARLIEST = Date.parse('2020-01-01T00:00:00Z');
const LATEST = Date.parse('2099-12-01T00:00:00Z');
/** A shop that opens once a year has entries up to a year old; beyond this the clock is questioned. Our choice. */
const AHEAD_DAYS = 400;
/** Computers that share a book differ by minutes; a month behind the newest entry is a wrong date. Our choice. */
const BEHIND_DAYS = 30;
/** A clock that passed the check is not checked again for this long, while it runs on. */
const RECHECK_MS = 60 * 60_000;
const SETTING = 'clockTrusted';

/** A confirmed clock: its moment, and the newest entry at that time. */
const trustedSchema = v.object({ at: v.string(), newest: v.nullable(v.string()) });
type Trusted = v.InferOutput<typeof trustedSchema>;

const passed = new WeakMap<Session, number>();

/** What is doubtful about the clock, or null. The demo's clock is invented. */
export function clockDoubt(session: Session): ClockDoubt | null {
  if (session.demo) return null;
  const at = session.now();
  const now = Date.parse(at);
  if (now < EARLIEST || now > LATEST) return { what: 'impossible', newest: null };
  const found = lastEntryOf(session.book.db);
  if (found === null) return null;
  const trusted = readSetting(session.book, SETTING, trustedSchema);
  // Entries that existed at the confirmation and are later than it were made with a wrong clock.
  const known = trusted !== undefined && (trusted.newest === null || found <= trusted.newest);
  const newest = known && (found < trusted.at || found > at) ? trusted.at : found;
  const days = (now - Date.parse(newest)) / DAY_MS;
  if (days > AHEAD_DAYS) return { what: 'ahead', newest: session.dayOf(newest) };
  return days < -BEHIND_DAYS ? { what: 'behind', newest: session.dayOf(newest) } : null;
}

/**
 * Called before every write.
 * @throws ProblemError `clock.impossible` (refused), `clock.ahead`, `clock.behind` (conflict, until `shop.trustClock`)
 */
export function refuseWrongClock(session: Session): void {
  const now = Date.parse(session.now());
  if (Math.abs(now - (passed.get(session) ?? -Infinity)) < RECHECK_MS) return;
  const doubt = clockDoubt(session);
  if (!doubt) return void passed.set(session, now);
  const { what, newest } = doubt;
  const code = { impossible: 'clock.impossible', ahead: 'clock.ahead', behind: 'clock.behind' }[what];
  const parameters = { today: session.today(), ...(newest && { last: newest }) };
  throw new ProblemError(what === 'impossible' ? 'refused' : 'conflict', code, { with: parameters });
}

/** Accepts the clock: the caller's process has checked it. */
export function acceptClock(session: Session): void {
  passed.set(session, Date.parse(session.now()));
}

/** Somebody confirms the clock's date. @throws ProblemError `clock.impossible` (refused) */
export const trustClock = write(
  v.object({ by }),
  (session, input) => {
    if (clockDoubt(session)?.what === 'impossible')
      throw new ProblemError('refused', 'clock.impossible', { with: { today: session.today() } });
    const before = session.book.settings.all()[SETTING];
    const after: Trusted = { at: session.now(), newest: lastEntryOf(session.book.db) };
    session.book.settings.put(SETTING, after);
    session.book.audit.note({
      record: 'setting', recordId: SETTING, act: 'change', ...(before !== undefined && { before }), after,
      at: after.at, by: input.by,
    }); // prettier-ignore
    return { today: session.today() };
  },
  { anyClock: true },
);
