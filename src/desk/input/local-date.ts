/** Cached: creating a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

/**
 * The local date of a moment in a zone. @example localDate(new Date('2026-11-25T03:00:00Z'), 'America/Denver') //
 * '2026-11-24'
 */
export function localDate(moment: Date, timeZone: string): string {
  let formatter = formatters.get(timeZone);
  if (!formatter) {
    formatter = new Intl.DateTimeFormat('en-CA', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
    });
    formatters.set(timeZone, formatter);
  }
  return formatter.format(moment);
}
