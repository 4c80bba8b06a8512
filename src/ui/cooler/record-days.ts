import type { CoolerRecord } from '../../bridge/contract.ts';

type Day = CoolerRecord['days'][number];

/** A row of the printed record: one day, or several in a row without any reading. */
export interface DayRow extends Day {
  /** The last day of the row; the same as `day` for a single one. */
  to: string;
}

/** Joins days that follow each other without a reading into one row, so that the sheet shows what was read. */
export function joinEmptyDays(days: readonly Day[]): DayRow[] {
  const rows: DayRow[] = [];
  for (const one of days) {
    const before = rows.at(-1);
    const joins = before?.readings === 0 && one.readings === 0;
    if (joins && before.minutesAbove === 0 && one.minutesAbove === 0) before.to = one.day;
    else rows.push({ ...one, to: one.day });
  }
  return rows;
}
