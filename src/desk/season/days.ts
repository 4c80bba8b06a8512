/** A season day by day: animals received, hanging at the end of the day, and ready. */
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { addDays } from '../../core/values/dates.ts';
import { countsByDay, daysFrom, firstDay, type DayCount } from '../../core/forecast/day-counts.ts';
import { localDate } from '../input/local-date.ts';
import type { Session } from '../session/session.ts';
import type { FlowReport } from '../contract/contract.ts';

/** A mistyped year must not produce years of empty days. */
const MAX_DAYS = 400;
/** Every zone's offset is a multiple of this; formatting a moment is the expensive part. */
const QUARTER_MS = 900_000;

/** The dates of an animal from its records. */
interface AnimalDates {
  received_on: string;
  /** Moment (UTC) of the first part or package on the scale, at the Table or else at the grinder; null before. */
  cut_at: string | null;
  /** Set when it became ready, and never cleared. */
  ready_on: string | null;
  disposed_on: string | null;
  stage: string;
}

export interface SeasonDays {
  days: FlowReport['days'];
  taken: DayCount[];
  left: DayCount[];
}

/** The dates of these animals. */
export function animalDates(session: Session, rows: readonly SeasonRow[]): AnimalDates[] {
  const idsOf = (some: readonly SeasonRow[]) => some.map(({ animal_id: id }) => id);
  const ground = session.book.seasonFlow.ground(idsOf(rows.filter(({ cut_at: at }) => at === null)));
  const disposed = session.book.seasonFlow.disposed(idsOf(rows.filter(({ stage }) => stage === 'disposed')));
  return rows.map(({ animal_id: id, received_on, cut_at, ready_on, stage }) => ({
    received_on,
    cut_at: cut_at ?? ground.get(id) ?? null,
    ready_on,
    disposed_on: disposed.get(id) ?? null,
    stage,
  }));
}

/**
 * When an animal left the hook: the first of the dates on which it was cut (local to the shop), disposed of or
 * ready; null while it hangs. An animal that is neither hanging nor has such a date was never recorded as hanging.
 */
export function leftOn(one: AnimalDates, localDay: (moment: string) => string): string | null {
  const first = earliest(
    one.cut_at === null ? null : localDay(one.cut_at),
    earliest(one.disposed_on, one.ready_on),
  );
  if (first !== null) return first < one.received_on ? one.received_on : first;
  return one.stage === 'hanging' || one.stage === 'cutting' ? null : one.received_on;
}

function earliest(a: string | null, b: string | null): string | null {
  if (a === null || b === null) return a ?? b;
  return a < b ? a : b;
}

/** @param until the last day of the series; null to end with the last event */
export function seasonDays(animals: readonly AnimalDates[], zone: string, until: string | null): SeasonDays {
  const localDay = memoizedDay(zone);
  const taken = counted(animals, ({ received_on: on }) => on);
  const left = counted(animals, (one) => leftOn(one, localDay));
  const ready = counted(animals, ({ ready_on: on, stage }) =>
    stage === 'ready' || stage === 'released' ? on : null,
  );
  return { days: byDay({ taken, left, ready }, until), taken, left };
}

/** Number of animals by day; those without a date are left out. */
function counted(animals: readonly AnimalDates[], dayOf: (one: AnimalDates) => string | null): DayCount[] {
  const counts = new Map<string, number>();
  for (const one of animals) {
    const on = dayOf(one);
    if (on !== null) counts.set(on, (counts.get(on) ?? 0) + 1);
  }
  return [...counts].map(([on, count]) => ({ on, animals: count }));
}

function byDay(
  { taken, left, ready }: Record<'taken' | 'left' | 'ready', readonly DayCount[]>,
  until: string | null,
): FlowReport['days'] {
  const first = firstDay(taken);
  if (first === undefined) return [];
  const longest = addDays(first, MAX_DAYS);
  const last = [...left, ...ready, ...taken].reduce((end, { on }) => (on > end ? on : end), until ?? first);
  const [came, went, made] = [countsByDay(taken), countsByDay(left), countsByDay(ready)];
  let hanging = 0;
  return daysFrom(first, last < longest ? last : longest).map((on) => {
    hanging += (came.get(on) ?? 0) - (went.get(on) ?? 0);
    return { on, taken: came.get(on) ?? 0, hanging, ready: made.get(on) ?? 0 };
  });
}

function memoizedDay(zone: string): (moment: string) => string {
  const known = new Map<number, string>();
  return (moment) => {
    const quarter = Math.floor(Date.parse(moment) / QUARTER_MS);
    let day = known.get(quarter);
    if (day === undefined) known.set(quarter, (day = localDate(new Date(quarter * QUARTER_MS), zone)));
    return day;
  };
}
