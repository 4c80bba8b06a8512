import { text } from '../../words/compiled/window/backup.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** An older backup is a warning: a day's weighings would be lost with the computer. */
const OLD = 2 * DAY;

/**
 * The age of a moment in words. `now` is the desk's clock.
 * @example ageOf('2026-11-25T10:00:00Z', new Date('2026-11-25T13:10:00Z')) // '3 hours ago'
 */
export function ageOf(iso: string, now: Date): string {
  const past = Math.max(0, now.getTime() - Date.parse(iso));
  if (past < 2 * MINUTE) return text.justNow;
  if (past < 2 * HOUR) return text.minutes({ n: Math.floor(past / MINUTE) });
  return past < 2 * DAY
    ? text.hours({ n: Math.floor(past / HOUR) })
    : text.days({ n: Math.floor(past / DAY) });
}

/** Whether a backup made at `iso` is old enough for a warning. */
export function isOld(iso: string, now: Date): boolean {
  return now.getTime() - Date.parse(iso) >= OLD;
}
