const MAX_MINUTES = 6000;

/**
 * Parses a duration into minutes: hours and minutes with a colon, decimal hours, or minutes with their unit. Null if
 * invalid or not a whole number of minutes.
 * @example readTime('1:30') // 90; also '1.5', '1,5 h' and '90 min'
 */
export function readTime(typed: string): number | null {
  const text = typed.trim().toLowerCase();
  const [, hours, minutes] = /^(\d{1,3}):([0-5]\d)$/.exec(text) ?? [];
  const [, count, unit] =
    /^(\d{1,4}(?:[.,]\d{1,2})?)\s*(h|hr|hrs|hour|hours|m|min|minute|minutes)?$/.exec(text) ?? [];
  const exact =
    hours === undefined
      ? Number(count?.replace(',', '.')) * (unit?.startsWith('m') ? 1 : 60)
      : Number(hours) * 60 + Number(minutes);
  const whole = Math.round(exact);
  return whole >= 1 && whole <= MAX_MINUTES ? whole : null;
}
