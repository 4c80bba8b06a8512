/** Running numbers are written with at least this many digits: `26-0147`. */
const RUNNING_DIGITS = 4;

/**
 * The ticket that a person or a barcode reader meant, or null if the text is no ticket. The season may be left
 * out (this one is meant), and so may the dash if the season is there.
 * @param season the season's year, e.g. 2026
 * @example quickTicket('147', 2026) // '26-0147'
 * @example quickTicket('260147', 2026) // '26-0147'
 */
export function quickTicket(text: string, season: number): string | null {
  const typed = text.trim();
  const whole = /^(\d{2})\s*[-– ]\s*(\d{1,6})$/.exec(typed) ?? /^(\d{2})(\d{4})$/.exec(typed);
  if (whole) return ticketOf(whole[1] ?? '', whole[2] ?? '');
  const running = /^\d{1,5}$/.exec(typed);
  return running && Number(typed) > 0 ? ticketOf(String(season % 100).padStart(2, '0'), typed) : null;
}

/** True for a ticket written out in full, as a barcode sends it; a plain number may be a weight. */
export function isFullTicket(text: string): boolean {
  return /^\d{2}-\d{4,6}$/.test(text.trim());
}

function ticketOf(season: string, running: string): string {
  return `${season}-${String(Number(running)).padStart(RUNNING_DIGITS, '0')}`;
}
