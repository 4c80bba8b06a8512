/** The demo's calendar: local shop hours as moments, and an event queue. */
import { addDays, daysBetween } from '../../core/values/dates.ts';
import { SHOP } from './invention.ts';

const MINUTE = 60_000;
const offsets = new Map<string, number>();
const zoned = new Intl.DateTimeFormat('en-US', { timeZone: SHOP.settings.zone, timeZoneName: 'longOffset' });

/** The UTC moment of a local time of day in the shop, as minutes after midnight. */
export function momentAt(date: string, minutes: number): Date {
  const midnight = Date.parse(`${date}T00:00:00Z`);
  let offset = offsets.get(date);
  if (offset === undefined) {
    // Evaluated at local noon, because clocks change at night.
    const name = zoned.formatToParts(midnight + 19 * 60 * MINUTE).find(({ type }) => type === 'timeZoneName');
    const [, sign, hours, rest] = /GMT([+-])(\d\d):(\d\d)/.exec(name?.value ?? '') ?? ['', '+', '0', '0'];
    offset = (Number(hours) * 60 + Number(rest)) * (sign === '-' ? -1 : 1);
    offsets.set(date, offset);
  }
  return new Date(midnight + Math.round((minutes - offset) * 60) * 1000);
}

/** On Sundays there is intake, but no cutting. */
function isSunday(date: string): boolean {
  return daysBetween('2026-09-06', date) % 7 === 0;
}

/** The same date, or the following Monday for a Sunday. */
export function workday(date: string): string {
  return isSunday(date) ? addDays(date, 1) : date;
}

/** An event queue; events may schedule others. */
export interface EventQueue {
  schedule(at: Date, happens: () => void | Promise<void>): void;
  /** Runs the events in order up to `until`; later ones are dropped. */
  run(until: Date, setClock: (at: Date) => void): Promise<void>;
}

export function openEventQueue(): EventQueue {
  const pages: { at: number; happens: () => void | Promise<void> }[] = [];
  return {
    schedule(at, happens) {
      // After all others of the same moment, so that ties run in the order of scheduling.
      let low = 0;
      let high = pages.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((pages[middle]?.at ?? 0) > at.getTime()) low = middle + 1;
        else high = middle;
      }
      pages.splice(low, 0, { at: at.getTime(), happens });
    },
    async run(until, setClock) {
      for (;;) {
        const next = pages.at(-1);
        if (!next || next.at > until.getTime()) return;
        pages.pop();
        setClock(new Date(next.at));
        await next.happens();
      }
    },
  };
}

/** The next cutting day. */
export function nextWorkday(date: string): string {
  return workday(addDays(date, 1));
}
