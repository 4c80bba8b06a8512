/** Minimum digits of a running number: `26-0147`. */
const RUNNING_DIGITS = 4;

/**
 * Parses a typed or scanned ticket; null for other text. The season may be omitted (default: the current one), and
 * so may the dash if the season is given. Seasons before 2000 and after 2099 have a four-digit year.
 * @param season the season's year, e.g. 2026
 * @example quickTicket('147', 2026) // '26-0147'
 * @example quickTicket('260147', 2026) // '26-0147'
 * @example quickTicket('1998-12', 2026) // '1998-0012'
 */
export function quickTicket(text: string, season: number): string | null {
  const typed = text.trim();
  const whole = /^(\d{2}|\d{4})\s*[-– ]\s*(\d{1,6})$/.exec(typed) ?? /^(\d{2})(\d{4})$/.exec(typed);
  if (whole) return ticketOf(whole[1] ?? '', whole[2] ?? '');
  const running = /^\d{1,5}$/.exec(typed);
  return running && Number(typed) > 0 ? ticketOf(seasonMark(season), typed) : null;
}

/** True for a complete ticket, as in a barcode. A plain number may be a weight. */
export function isFullTicket(text: string): boolean {
  return /^(\d{2}|\d{4})-\d{4,6}$/.test(text.trim());
}

/** True for the number of a slip for night drop-off, as in its barcode or typed without dashes. */
export function isSlip(text: string): boolean {
  return /^\d{3}-?\d{3}-?\d{3}$/.test(text.trim());
}

/** Duplicates a rule of the book, which this layer cannot import; a test compares both. */
function seasonMark(season: number): string {
  const year = String(season).padStart(4, '0');
  return season >= 2000 && season <= 2099 ? year.slice(2) : year;
}

function ticketOf(season: string, running: string): string {
  return `${season}-${String(Number(running)).padStart(RUNNING_DIGITS, '0')}`;
}
