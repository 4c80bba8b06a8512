import type { TillEntryRecord } from '../../book/records/money/till.ts';
import type { TillEntry } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { openEntries, tillEntry } from './day-entries.ts';
import { cashOf } from './till-sums.ts';

/** An open day: its entries, and the expected cash in the drawer. */
interface Drawer {
  rows: TillEntryRecord[];
  /** Rows of earlier days, entered after those were closed. */
  carried: TillEntryRecord[];
  entries: TillEntry[];
  floatMinor: number;
  /** Whether the float was entered for this day; else it is that of an earlier day. */
  floatEntered: boolean;
  /** Late cash of earlier days that the counted float already includes. */
  inFloatMinor: number;
  /** Cash of the entries, in addition to the float. */
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
