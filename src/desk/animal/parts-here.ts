/** Packed meat that is still in the shop: without donations and without parts that sharers picked up. */
import { splitRows } from '../../core/values/split.ts';
import type { AnimalPage, PickupShare, Sharer } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { splitPackages } from './shares.ts';

type Packages = AnimalPage['packages'];
type Rows = PickupShare['rows'];

/** Each hunter who picked up a part, with the packages. */
export function takenParts(session: Session, animalId: number) {
  return session.book.shares
    .pickups(animalId)
    .map(({ packages, ...row }) => ({ ...row, rows: JSON.parse(packages) as Rows }));
}

/** Grams of packages. */
export const gramsOf = (rows: readonly { grams: number }[]): number =>
  rows.reduce((total, { grams }) => total + grams, 0);

/** Grams donated of an animal. */
export const donatedGrams = (session: Session, animalId: number): number =>
  gramsOf(session.book.donations.ofAnimal(animalId));

/**
 * Packages less a donation, of which only the weight is known. Each product is reduced in proportion, by whole
 * packages; the remaining grams are exactly the total less the donation.
 */
export function withoutDonated(packages: Packages, donated: number): Packages {
  const all = gramsOf(packages);
  if (donated <= 0 || all <= 0) return packages;
  const left = Math.max(0, all - donated);
  const counts = splitRows(
    packages.map(({ count }) => count),
    [left, all - left],
  ).map(([kept = 0]) => kept);
  // A remnant of the last package counts as a package.
  if (left > 0 && !counts.some((count) => count > 0)) counts[0] = 1;
  const weights = packages.map(({ grams, count }, i) => (count > 0 ? (grams * (counts[i] ?? 0)) / count : 0));
  const weight = weights.reduce((total, one) => total + one, 0);
  return packages.flatMap((row, i) => {
    const count = counts[i] ?? 0;
    return count > 0 ? [{ ...row, count, grams: (left * (weights[i] ?? 0)) / weight }] : [];
  });
}

/**
 * The packages of each hunter: what was handed over for parts that were picked up; the rest, without donations, is
 * divided among the others. All parts and donations sum to everything packed.
 */
export function partsOf(
  packages: Packages,
  sharers: readonly Sharer[],
  taken: readonly { hunter_id: number; rows: Rows }[],
  donated: number,
): Rows[] {
  const whole = splitPackages(withoutDonated(packages, donated), sharers);
  const takenRows = sharers.map(
    ({ hunterId }) => taken.find(({ hunter_id }) => hunter_id === hunterId)?.rows,
  );
  const isUnchanged = takenRows.every((rows, i) => rows === undefined || sameCounts(rows, whole[i] ?? []));
  if (isUnchanged) return whole.map((rows, i) => takenRows[i] ?? rows);
  const rest = withoutDonated(without(packages, taken.flatMap(({ rows }) => rows)), donated); // prettier-ignore
  const waiting = sharers.filter((_, i) => takenRows[i] === undefined);
  const parts = waiting.length > 0 ? splitPackages(rest, waiting) : [];
  return takenRows.map((rows) => rows ?? parts.shift() ?? []);
}

const keyOf = ({ product, batch }: { product: string; batch: string | null }): string =>
  JSON.stringify([product, batch]);

function sameCounts(one: Rows, other: Rows): boolean {
  const counts = (rows: Rows): string =>
    JSON.stringify([...Map.groupBy(rows, keyOf)].map(([key, of]) => [key, of.map(({ count }) => count)]));
  return counts(one) === counts(other) && Math.abs(gramsOf(one) - gramsOf(other)) < 1e-6;
}

/**
 * Packages less those that were handed over, product by product; the grams are the total less what was handed over.
 */
function without(packages: Packages, gone: Rows): Packages {
  const taken = Map.groupBy(gone, keyOf);
  const left = [...Map.groupBy(packages, keyOf)].flatMap(([key, rows]) => {
    const [first] = rows;
    const all = countOf(rows);
    const count = all - countOf(taken.get(key) ?? []);
    if (!first || count <= 0) return [];
    return [
      { ...first, count, grams: (gramsOf(rows) * count) / all, places: rows.flatMap(({ places }) => places) },
    ];
  });
  const [grams, now] = [Math.max(0, gramsOf(packages) - gramsOf(gone)), gramsOf(left)];
  return now > 0 ? left.map((row) => ({ ...row, grams: (row.grams * grams) / now })) : left;
}

const countOf = (rows: readonly { count: number }[]): number =>
  rows.reduce((total, { count }) => total + count, 0);
