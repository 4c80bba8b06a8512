import type { TillEntryRecord } from '../../book/records/money/till.ts';
import type { TillEntry } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { openEntries, tillEntry } from './day-entries.ts';
import { cashOf } from './till-sums.ts';

/** An open day: what counts in its till, and what the drawer should hold. */
interface Drawer {
  rows: TillEntryRecord[];
  /** Of the rows: those of earlier days, entered after those were closed. */
  carried: TillEntryRecord[];
  entries: TillEntry[];
  floatMinor: number;
  /** Whether the float was entered for this day; else it is that of an earlier day. */
  floatEntered: boolean;
  /** Late cash of earlier days that lay in the drawer when the float was counted, so that the float holds it. */
  inFloatMinor: number;
  /** Cash of the entries that comes on top of the float. */
  cashMinor: number;
  expectedMinor: number;
}

export function openDrawer(session: Session, day: string, currency: string): Drawer {
  const { own, carried } = openEntries(session, day, currency);
  const rows = [...carried, ...own];
  const entries = rows.map((row) => tillEntry(session, row));
  const float = session.book.till.float(currency, day);
  const floatMinor = float?.amount_minor ?? 0;
  const counted = float?.day === day ? carried.filter(({ at }) => at < float.at) : [];
  const inFloatMinor = cashOf(counted.map((row) => tillEntry(session, row)));
  const cashMinor = cashOf(entries) - inFloatMinor;
  return {
    rows,
    carried,
    entries,
    floatMinor,
    floatEntered: float?.day === day,
    inFloatMinor,
    cashMinor,
    expectedMinor: floatMinor + cashMinor,
  };
}
