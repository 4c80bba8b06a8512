/** From the clock on the wall of the shop to the moment that it showed. */

const DAY_MS = 86_400_000;
/** Making a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

/**
 * The moments, ms UTC, at which a clock in `zone` showed so many seconds after midnight of `day`: one, or two in the hour
 * that is gone through twice in autumn. A time that was skipped in spring is read as if the clock had not been changed.
 * @example momentsOf('2026-11-01', 5400, 'America/Denver') // [7:30 UTC, 8:30 UTC] of that day: half past one came twice
 */
export function momentsOf(day: string, seconds: number, zone: string): number[] {
  const shown = Date.parse(`${day}T00:00:00Z`) + seconds * 1000;
  const [before, after] = [aheadOf(shown - DAY_MS, zone), aheadOf(shown + DAY_MS, zone)];
  const found = [...new Set([before, after])].filter((ahead) => aheadOf(shown - ahead, zone) === ahead);
  return (found.length > 0 ? found : [before]).map((ahead) => shown - ahead).sort((a, b) => a - b);
}

/** How far a clock in the zone is ahead of UTC at a moment, ms. */
function aheadOf(moment: number, zone: string): number {
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
