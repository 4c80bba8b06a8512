/**
 * The season in tickets and in the names of batches and quotes: two digits for 2000 to 2099, else the four-digit
 * year, so that marks are unique.
 * @example seasonMark(2026) // '26'
 * @example seasonMark(1998) // '1998'
 */
export function seasonMark(season: number): string {
  const year = String(season).padStart(4, '0');
  return season >= 2000 && season <= 2099 ? year.slice(2) : year;
}

/** @example ticketOf(2026, 147) // '26-0147' */
export function ticketOf(season: number, number: number): string {
  return `${seasonMark(season)}-${String(number).padStart(4, '0')}`;
}

/**
 * More than any season has; a higher number comes from a damaged or foreign book, and numbering does not continue
 * from it.
 */
export const MAX_IN_SEASON = 1_000_000;

/**
 * The first number from `from` on with an unused name: a row with a wrong season may have one of this season's
 * names.
 */
export function firstFree(from: number, isTaken: (number: number) => boolean): number {
  let number = from;
  while (isTaken(number)) number++;
  return number;
}
