import * as v from 'valibot';
import type { TillCloseRecord } from '../../book/records/money/till.ts';
import { addDays } from '../../core/values/dates.ts';
import type { TillClosing, TillCount, TillView } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { lateEntries, openEntries, startOf, tillEntry } from './day-entries.ts';
import { cashOf, tillSums, total } from './till-sums.ts';

/** How far back a day that was not closed is named. */
const OPEN_DAYS = 14;
const RECENT_CLOSINGS = 10;

const storedCount = v.union([
  v.object({ total: v.string() }),
  v.object({ pieces: v.array(v.strictTuple([v.number(), v.number()])) }),
]);

/** The till of a day: as it was closed, or as it stands. */
export function tillView(session: Session, day: string, currency: string): TillView {
  const { till } = session.book;
  const closed = till.closing(day, currency);
  const { own, carried } = closed ? coveredEntries(session, closed) : openEntries(session, day, currency);
  const shown = (rows: readonly Parameters<typeof tillEntry>[1][]) =>
    rows.map((row) => tillEntry(session, row));
  const entries = shown([...carried, ...own]);
  const float = till.float(currency, day);
  const floatMinor = closed?.float_minor ?? float?.amount_minor ?? 0;
  const cashMinor = cashOf(entries);
  return {
    day,
    currency,
    currencies: [
      ...new Set([
        session.settings.currency,
        ...till.currencies(day, startOf(session, day), startOf(session, addDays(day, 1))),
      ]),
    ],
    entries,
    carried: shown(carried),
    afterClosing: closed ? shown(lateEntries(session, day, currency)) : [],
    sums: tillSums(entries),
    totalMinor: total(entries),
    floatMinor,
    floatEntered: closed !== undefined || float?.day === day,
    cashMinor,
    expectedMinor: floatMinor + cashMinor,
    closing: closed ? closingOf(closed) : null,
    voidedClosings: till
      .voidedClosings(day, currency)
      .map(({ number, void_reason: reason, void_at: at, void_by: by }) => ({ number, reason, at, by })),
    openDays: openDays(session, day, currency),
    recent: till
      .recent(currency, RECENT_CLOSINGS)
      .map(({ day: on, number, over_minor: overMinor, by }) => ({ day: on, number, overMinor, by })),
  };
}

/** What a closing covers: its own day's entries, and those carried over from days closed before. */
function coveredEntries(session: Session, closed: TillCloseRecord): ReturnType<typeof openEntries> {
  const rows = session.book.till.covered(closed.id);
  const isOwn = (row: (typeof rows)[number]): boolean => tillEntry(session, row).day === closed.day;
  return { own: rows.filter(isOwn), carried: rows.filter((row) => !isOwn(row)) };
}

function closingOf(row: TillCloseRecord): TillClosing {
  const counted = v.parse(storedCount, JSON.parse(row.typed)) as TillCount;
  const { id, number, counted_minor: countedMinor, over_minor: overMinor, note, at, by } = row;
  return { id, number, countedMinor, overMinor, note, counted, at, by };
}

/** Days before this one with entries and no closing. */
function openDays(session: Session, day: string, currency: string): string[] {
  const { till } = session.book;
  const from = addDays(day, -OPEN_DAYS);
  const closed = new Set(till.closedDays(currency, from, day));
  const rows = [
    ...till.uncoveredPayments(from, addDays(day, -1), currency),
    ...till.uncoveredVoids(startOf(session, from), startOf(session, day), currency),
  ];
  const days = rows.map((row) => tillEntry(session, row).day).filter((one) => !closed.has(one));
  return [...new Set(days)].sort().reverse();
}
