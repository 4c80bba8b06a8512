/**
 * Sufficient statistics of the parts' shares: for each kind of animal and each pattern of weighed parts a count, sums and
 * sums of products. A part that was not weighed is missing, never zero.
 */
import type { Sex } from '../species/species.ts';
import type { Base } from '../yield/tree.ts';

/** Parts that leave the cutting table, in the order of every vector here; shrink is the remainder of the whole. */
export const SHARE_PARTS = ['meat', 'fatSaved', 'sinew', 'bone', 'damage'] as const;
export type SharePart = (typeof SHARE_PARTS)[number];

/** Shares of the hanging weight (0 to 1); an absent part was not weighed. */
export type PartShares = Readonly<Partial<Record<SharePart, number>>>;

/** The weighed share of one part of an animal. */
export interface PartWeighed {
  readonly share: number;
  /** Standard deviation of the readings behind it. */
  readonly sd: number;
  /** More of this part may follow: the weighed share is a lower bound. */
  readonly open: boolean;
}
export type PartsWeighed = Readonly<Partial<Record<SharePart, PartWeighed>>>;

/** Animals with the same weighed parts: sums over these parts only, `products` row by row. */
export interface PatternSums {
  n: number;
  sums: number[];
  products: number[];
}

/** Of the animals with weighed or stated damage: how many had none, and the sums of the others' log shares. */
export interface DamageSums {
  zeros: number;
  n: number;
  sum: number;
  squares: number;
}

export interface KindSums {
  /** By weighed parts, a 0 or 1 for each of `SHARE_PARTS`, as `11011`. */
  patterns: Record<string, PatternSums>;
  damage: DamageSums;
}

/** Plain data by `kindKey`: may be stored as JSON. */
export type ShareSums = Readonly<Record<string, KindSums>>;

/** Added to a share of damage before its logarithm: half a percent, about a pound of a 200 lb carcass. */
export const DAMAGE_OFFSET = 0.005;

/** @example kindKey('elk', 'carcass', 'female') // 'elk/carcass/female' */
export function kindKey(species: string, base: Base, sex: Sex): string {
  return `${species}/${base}/${sex}`;
}

/** The parts of a pattern, as positions in `SHARE_PARTS`. @example positionsOf('10010') // [0, 3] */
export function positionsOf(pattern: string): number[] {
  return [...pattern].flatMap((mark, i) => (mark === '1' ? [i] : []));
}

/** Adds one animal to the sums of its `kindKey` in place; with `weight` -1 it is removed. */
export function addShares(
  all: Record<string, KindSums>,
  key: string,
  shares: PartShares,
  weight: 1 | -1 = 1,
): void {
  const values = SHARE_PARTS.flatMap((part) => shares[part] ?? []);
  if (values.length === 0) return;
  const pattern = SHARE_PARTS.map((part) => (shares[part] === undefined ? '0' : '1')).join('');
  const kind = (all[key] ??= { patterns: {}, damage: { ...NO_DAMAGE } });
  const sums = (kind.patterns[pattern] ??= emptyPattern(values.length));
  sums.n += weight;
  values.forEach((value, i) => {
    sums.sums[i] = (sums.sums[i] ?? 0) + weight * value;
    values.forEach((other, j) => {
      const at = i * values.length + j;
      sums.products[at] = (sums.products[at] ?? 0) + weight * value * other;
    });
  });
  if (shares.damage === 0) kind.damage.zeros += weight;
  else if (shares.damage !== undefined) {
    const log = Math.log(shares.damage + DAMAGE_OFFSET);
    kind.damage.n += weight;
    kind.damage.sum += weight * log;
    kind.damage.squares += weight * log * log;
  }
}

/** The sums of two sets of animals; the given sums do not change. */
export function joinShares(a: ShareSums, b: ShareSums): ShareSums {
  const all: Record<string, KindSums> = { ...a };
  for (const [key, kind] of Object.entries(b)) {
    const own = all[key];
    all[key] = own ? joinKinds(own, kind) : kind;
  }
  return all;
}

/** The sums of a kind without one of its animals; the given sums do not change. */
export function withoutShares(kind: KindSums, shares: PartShares): KindSums {
  const own: Record<string, KindSums> = {};
  addShares(own, OWN, shares, -1);
  const one = own[OWN];
  return one ? joinKinds(kind, one) : kind;
}

const OWN = 'own';

const NO_DAMAGE: Readonly<DamageSums> = { zeros: 0, n: 0, sum: 0, squares: 0 };

function emptyPattern(parts: number): PatternSums {
  return { n: 0, sums: Array<number>(parts).fill(0), products: Array<number>(parts * parts).fill(0) };
}

/** The merged sums of two kinds of animal; the given sums do not change. */
export function joinKinds(a: KindSums, b: KindSums): KindSums {
  const patterns = { ...a.patterns };
  for (const [pattern, sums] of Object.entries(b.patterns)) {
    const own = patterns[pattern] ?? emptyPattern(sums.sums.length);
    patterns[pattern] = {
      n: own.n + sums.n,
      sums: own.sums.map((value, i) => value + (sums.sums[i] ?? 0)),
      products: own.products.map((value, i) => value + (sums.products[i] ?? 0)),
    };
  }
  const damage = {
    zeros: a.damage.zeros + b.damage.zeros,
    n: a.damage.n + b.damage.n,
    sum: a.damage.sum + b.damage.sum,
    squares: a.damage.squares + b.damage.squares,
  };
  return { patterns, damage };
}
