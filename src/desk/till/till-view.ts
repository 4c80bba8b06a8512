import * as v from 'valibot';
import type { TillCloseRecord, TillEntryRecord } from '../../book/records/money/till.ts';
import { addDays } from '../../core/values/dates.ts';
import type { TillClosing, TillCount, TillView } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { lateEntries, startOf, tillEntry } from './day-entries.ts';
import { openDrawer } from './drawer.ts';
import { cashOf, tillSums, total } from './till-sums.ts';

/** How far back unclosed days are listed. */
const OPEN_DAYS = 14;
const RECENT_CLOSINGS = 10;

const storedCount = v.union([
  v.object({ total: v.string() }),
  v.object({ pieces: v.array(v.strictTuple([v.number(), v.number()])) }),
]);

/** The till of a day, closed or open. */
export function tillView(session: Session, day: string, currency: string): TillView {
  const { till } = session.book;
  const closed = till.closing(day, currency);
  const { carried, entries, ...drawer } = closed
    ? closedDrawer(session, closed)
    : openDrawer(session, day, currency);
  const entriesOf = (rows: readonly TillEntryRecord[]) => rows.map((row) => tillEntry(session, row));
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
    carried: entriesOf(carried),
    afterClosing: closed ? entriesOf(lateEntries(session, day, currency)) : [],
    sums: tillSums(entries),
    totalMinor: total(entries),
    floatMinor: drawer.floatMinor,
    floatEntered: drawer.floatEntered,
    inFloatMinor: drawer.inFloatMinor,
    cashMinor: drawer.cashMinor,
    expectedMinor: drawer.expectedMinor,
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

/** A closed day: its own entries, and those carried over from days closed before. */
function closedDrawer(
  session: Session,
  closed: TillCloseRecord,
): Omit<ReturnType<typeof openDrawer>, 'rows'> {
  const rows = session.book.till.covered(closed.id);
  const isOwn = (row: TillEntryRecord): boolean => tillEntry(session, row).day === closed.day;
  const carried = rows.filter((row) => !isOwn(row));
  const entries = [...carried, ...rows.filter(isOwn)].map((row) => tillEntry(session, row));
  return {
    carried,
    entries,
    floatMinor: closed.float_minor,
    floatEntered: true,
    inFloatMinor: cashOf(entries) - closed.cash_minor,
    cashMinor: closed.cash_minor,
    expectedMinor: closed.expected_minor,
  };
}

function closingOf(row: TillCloseRecord): TillClosing {
  const counted = v.parse(storedCount, JSON.parse(row.typed)) as TillCount;
  const { id, number, counted_minor: countedMinor, over_minor: overMinor, note, at, by } = row;
  return { id, number, countedMinor, overMinor, note, counted, at, by };
}

/** Earlier days with entries and no closing. */
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
