/** Converts local time of the shop to moments. */

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
/** Cached: creating a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

/**
 * The moments, ms UTC, of a local time in `zone`, given as seconds after midnight of `day`: one, or two in the hour
 * that is repeated in autumn. A time skipped in spring is read without the change.
 * @example momentsOf('2026-11-01', 5400, 'America/Denver') // [7:30 UTC, 8:30 UTC] of that day: half past one came twice
 */
export function momentsOf(day: string, seconds: number, zone: string): number[] {
  const shown = Date.parse(`${day}T00:00:00Z`) + seconds * 1000;
  const [before, after] = [aheadOf(shown - DAY_MS, zone), aheadOf(shown + DAY_MS, zone)];
  const found = [...new Set([before, after])].filter((ahead) => aheadOf(shown - ahead, zone) === ahead);
  return (found.length > 0 ? found : [before]).map((ahead) => shown - ahead).sort((a, b) => a - b);
}

/** Offset of the zone from UTC at a moment, ms. No zone changes its clocks twice within an hour. */
export function aheadOf(moment: number, zone: string): number {
  const hour = Math.floor(moment / HOUR_MS);
  const ahead = aheadAtHour(hour, zone);
  return ahead === aheadAtHour(hour + 1, zone) ? ahead : shownAhead(moment, zone);
}

/** By zone and hour since 1970: a logger's file asks for the same hours ten thousand times. */
const atHours = new Map<string, Map<number, number>>();
const MAX_HOURS = 10_000;

function aheadAtHour(hour: number, zone: string): number {
  let known = atHours.get(zone);
  if (!known || known.size >= MAX_HOURS) atHours.set(zone, (known = new Map()));
  let ahead = known.get(hour);
  if (ahead === undefined) known.set(hour, (ahead = shownAhead(hour * HOUR_MS, zone)));
  return ahead;
}

/** By what a clock of the zone shows at the moment. */
function shownAhead(moment: number, zone: string): number {
  let formatter = formatters.get(zone);
  if (!formatter) {
    formatter = new Intl.DateTimeFormat('en-US', {
      timeZone: zone, hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric',
      second: 'numeric',
    }); // prettier-ignore
    formatters.set(zone, formatter);
  }
  const part = Object.fromEntries(
    formatter.formatToParts(moment).map(({ type, value }) => [type, Number(value)]),
  ) as Record<'year' | 'month' | 'day' | 'hour' | 'minute' | 'second', number>;
  const shown = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second);
  return shown - Math.floor(moment / 1000) * 1000;
}
