/**
 * The calendar date of an instant in the shop's time zone.
 * @example localDay('2026-11-25T03:10:00Z', 'America/Denver') // '2026-11-24'
 */
export function localDay(moment: string, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).formatToParts(new Date(moment));
  const part = (type: 'year' | 'month' | 'day'): string =>
    parts.find((one) => one.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}`;
}
