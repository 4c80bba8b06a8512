/** Which payments and voids belong to the till of a day. */
import type { TillEntryRecord } from '../../book/records/money/till.ts';
import { addDays } from '../../core/values/dates.ts';
import type { TillEntry } from '../contract/contract.ts';
import { localDate } from '../input/local-date.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import type { Session } from '../session/session.ts';

/** How far back to look for entries made after a closing: much longer than a shop leaves a day open. */
const LATE_DAYS = 400;

interface DayEntries {
  /** Entries of the day, not covered by a closing. */
  own: TillEntryRecord[];
  /** Entries of earlier days, made after those were closed. */
  carried: TillEntryRecord[];
}

/** The start of a day in the shop's time zone, as UTC text. */
export function startOf(session: Session, day: string): string {
  const [moment = 0] = momentsOf(day, 0, session.settings.zone);
  return new Date(moment).toISOString();
}

/** Entries of an open day: its own, and uncovered ones of closed days before it. */
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

/** Entries of a closed day made after its closing and not covered by a later one. */
export function lateEntries(session: Session, day: string, currency: string): TillEntryRecord[] {
  return [
    ...session.book.till.uncoveredPayments(day, day, currency),
    ...session.book.till.uncoveredVoids(startOf(session, day), startOf(session, addDays(day, 1)), currency),
  ];
}

/** As windows show it: signed, and on its own day. */
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
