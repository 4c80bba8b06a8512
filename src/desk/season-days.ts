/** A season day by day: what came, what hung at the end of the day, what was ready. */
import type { FlowRow } from '../book/season-flow.ts';
import { addDays } from '../core/dates.ts';
import { countsByDay, daysFrom, firstDay, type DayCount } from '../core/day-counts.ts';
import { localDate } from './local-date.ts';
import type { FlowLook } from './shapes.ts';

/** A date that was mistyped by years must not draw years of empty days. */
const MOST_DAYS = 400;
/** Every zone's offset is whole in these; formatting a moment is the dear part. */
const QUARTER_MS = 900_000;

export interface SeasonDays {
  days: FlowLook['days'];
  taken: DayCount[];
  left: DayCount[];
}

/**
 * When an animal left the hook: on the first day of those on which it was cut (local to the shop), disposed of or ready;
 * null while it hangs. Of one that is neither hanging nor says when it left, nobody wrote that it hung at all.
 */
export function leftOn(row: FlowRow, localDay: (moment: string) => string): string | null {
  const said = [row.cut_at && localDay(row.cut_at), row.disposed_on, row.ready_on].filter(
    (on) => on !== null,
  );
  const first = said.toSorted()[0];
  if (first !== undefined) return first < row.received_on ? row.received_on : first;
  return row.stage === 'hanging' || row.stage === 'cutting' ? null : row.received_on;
}

/** @param until draws on to this day even if nothing happened any more; null to end with the last event */
export function seasonDays(rows: readonly FlowRow[], zone: string, until: string | null): SeasonDays {
  const localDay = rememberedDay(zone);
  const taken = rows.map(({ received_on: on, animals }) => ({ on, animals }));
  const left = rows.flatMap((row) => {
    const on = leftOn(row, localDay);
    return on === null ? [] : [{ on, animals: row.animals }];
  });
  const ready = rows.flatMap(({ ready_on: on, stage, animals }) =>
    on !== null && (stage === 'ready' || stage === 'released') ? [{ on, animals }] : [],
  );
  return { days: byDay({ taken, left, ready }, until), taken, left };
}

function byDay(
  { taken, left, ready }: Record<'taken' | 'left' | 'ready', readonly DayCount[]>,
  until: string | null,
): FlowLook['days'] {
  const first = firstDay(taken);
  if (first === undefined) return [];
  const longest = addDays(first, MOST_DAYS);
  const last = [...left, ...ready, ...taken].reduce((end, { on }) => (on > end ? on : end), until ?? first);
  const [came, went, made] = [countsByDay(taken), countsByDay(left), countsByDay(ready)];
  let hanging = 0;
  return daysFrom(first, last < longest ? last : longest).map((on) => {
    hanging += (came.get(on) ?? 0) - (went.get(on) ?? 0);
    return { on, taken: came.get(on) ?? 0, hanging, ready: made.get(on) ?? 0 };
  });
}

function rememberedDay(zone: string): (moment: string) => string {
  const known = new Map<number, string>();
  return (moment) => {
    const quarter = Math.floor(Date.parse(moment) / QUARTER_MS);
    const day = known.get(quarter) ?? localDate(new Date(quarter * QUARTER_MS), zone);
    known.set(quarter, day);
    return day;
  };
}
