/**
 * The season as tickets and the names of batches and quotes write it: two digits for 2000 to 2099, else the whole
 * year, so that no two seasons share a mark.
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

/** No season has so many; a number from there on came with a spoilt or foreign book, and none is counted on from it. */
export const MAX_IN_SEASON = 1_000_000;

/** The first number from `from` on whose name nobody has: a row with a wrong season may hold one of this season's names. */
export function firstFree(from: number, isTaken: (number: number) => boolean): number {
  let number = from;
  while (isTaken(number)) number++;
  return number;
}
