/** Which payments and voids count in the till of a day. */
import type { TillEntryRecord } from '../../book/records/money/till.ts';
import { addDays } from '../../core/values/dates.ts';
import type { TillEntry } from '../contract/contract.ts';
import { localDate } from '../input/local-date.ts';
import { momentsOf } from '../input/local-moment.ts';
import type { Session } from '../session/session.ts';

/** How far back an entry that came after a closing is looked for: far longer than a shop goes without closing a day. */
const LATE_DAYS = 400;

interface DayEntries {
  /** Of the day itself, not covered by a closing. */
  own: TillEntryRecord[];
  /** Of earlier days, entered after those were closed. */
  carried: TillEntryRecord[];
}

/** The moment at which a day begins in the shop, as UTC text. */
export function startOf(session: Session, day: string): string {
  const [moment = 0] = momentsOf(day, 0, session.settings.zone);
  return new Date(moment).toISOString();
}

/** Entries of an open day: its own, and those of closed days before it that no closing covers. */
export function openEntries(session: Session, day: string, currency: string): DayEntries {
  const { till } = session.book;
  const next = startOf(session, addDays(day, 1));
  const since = addDays(day, -LATE_DAYS);
  const closed = new Set(till.closedDays(currency, since, day));
  const payments = till.uncoveredPayments(closed.size > 0 ? since : day, day, currency);
  const voids = till.uncoveredVoids(startOf(session, closed.size > 0 ? since : day), next, currency);
  const all = [...payments, ...voids].sort((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
  return {
    own: all.filter((entry) => dayOf(session, entry) === day),
    carried: all.filter((entry) => closed.has(dayOf(session, entry))),
  };
}

/** Entries of a closed day that came after its closing and that no closing covers yet. */
export function lateEntries(session: Session, day: string, currency: string): TillEntryRecord[] {
  return [
    ...session.book.till.uncoveredPayments(day, day, currency),
    ...session.book.till.uncoveredVoids(startOf(session, day), startOf(session, addDays(day, 1)), currency),
  ];
}

/** As a window sees it: with its sign, and on its own day. */
export function tillEntry(session: Session, row: TillEntryRecord): TillEntry {
  const sign = (row.kind === 'refund') === (row.what === 'void') ? 1 : -1;
  return {
    paymentId: row.payment_id,
    what: row.what,
    ticket: row.ticket,
    hunter: row.hunter,
    kind: row.kind,
    method: row.method,
    reference: row.reference,
    minor: sign * row.amount_minor,
    day: dayOf(session, row),
    at: row.at,
    by: row.by,
    reason: row.reason,
  };
}

function dayOf(session: Session, row: TillEntryRecord): string {
  return row.what === 'payment' ? row.paid_on : localDate(new Date(row.at), session.settings.zone);
}
