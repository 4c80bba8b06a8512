/**
 * Hunters who share one animal, and what each gets. Packages are divided by largest remainders, product by product,
 * and money to the cent; the parts sum to the whole.
 */
import { apportion } from '../../core/values/apportion.ts';
import { splitRows } from '../../core/values/split.ts';
import type { AnimalPage, PickupShare, Sharer } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

/** The hunters of a shared animal; empty if it has a single hunter. */
export function sharersOf(session: Session, animalId: number): Sharer[] {
  const rows = session.book.shares.ofAnimal(animalId);
  if (rows.length < 2) return [];
  const all = rows.reduce((total, { amount }) => total + amount, 0);
  return rows.map(({ hunter_id, hunter, phone, typed, basis, amount }) => ({
    hunterId: hunter_id,
    name: hunter,
    phone,
    typed,
    basis,
    share: amount / all,
  }));
}

/** Minor units for each, summing to the total. A negative total is a refund and is divided the same way. */
export function splitMinor(totalMinor: number, sharers: readonly Sharer[]): number[] {
  const parts = apportion(
    Math.abs(totalMinor),
    sharers.map(({ share }) => share),
  );
  return totalMinor < 0 ? parts.map((part) => -part) : parts;
}

/** How many of each row's packages each hunter gets; the rounding of a row carries over to the next. */
export function countsOf(packages: AnimalPage['packages'], sharers: readonly Sharer[]): number[][] {
  return splitRows(
    packages.map(({ count }) => count),
    sharers.map(({ share }) => share),
  );
}

/** The packages of each hunter. Grams are proportional to the packages, so that a row's grams sum to its total. */
export function splitPackages(
  packages: AnimalPage['packages'],
  sharers: readonly Sharer[],
): PickupShare['rows'][] {
  const divided = countsOf(packages, sharers);
  return sharers.map((_, i) =>
    packages.flatMap(({ product, batch, count, grams }, row) => {
      const part = divided[row]?.[i] ?? 0;
      return part > 0 ? [{ product, batch, count: part, grams: (grams * part) / count }] : [];
    }),
  );
}
