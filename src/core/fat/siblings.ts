/**
 * What other shops' fat tests say of a new shop's trim. Effects are standard: the shop's own hand, and each kind's distance from
 * its published figure (`kind.ts`); shops of one owner share part of each (`between-shops.ts`).
 */
import { averageGuess, guessesFrom, times, type ShopEvidence } from '../stats/between-shops.ts';
import { mixtureWeights } from '../stats/mixture.ts';
import { invert, zeros, type Square } from '../stats/positive-definite.ts';
import { covarianceOf } from './fat.ts';
import type { CorrelatedFatEstimate, FatEstimate } from './estimates.ts';
import { fatOfKind } from './kind.ts';

/** What a shop's tests say of the mean fat of its kinds: log likelihood moments'f - f' information f / 2, f in fractions. */
export interface FatLesson {
  readonly species: readonly string[];
  /** Tested animals of each. */
  readonly animals: readonly number[];
  /** Row after row, in the order of `species`. */
  readonly information: readonly (readonly number[])[];
  readonly moments: readonly number[];
}

/** The published figures of a kind. */
export interface PublishedFat {
  readonly species: string;
  readonly trimFat: FatEstimate;
}

/**
 * What tests added to the estimates of these kinds: the precision and moments afterwards less those before any test.
 * @param after estimates of each kind, by `idOf`
 * @returns null where none of the kinds was tested
 */
export function fatLessonFrom(
  kinds: readonly (PublishedFat & { readonly animals: number })[],
  after: readonly CorrelatedFatEstimate[],
  idOf: (species: string) => string,
): FatLesson | null {
  const places = kinds.map(({ species }) => after.findIndex(({ id }) => id === idOf(species)));
  const tested = kinds.filter((_, i) => (places[i] ?? -1) >= 0);
  const at = places.filter((place) => place >= 0);
  if (tested.length === 0) return null;
  const posterior = natural(
    at.map((place) => after[place]?.mean ?? 0),
    (i, j) => covarianceOf(after, at[i] ?? 0, at[j] ?? 0),
  );
  const published = tested.map(({ trimFat }) => fatOfKind(trimFat));
  const prior = natural(
    published.map(({ mean }) => mean.mean),
    (i, j) => (published[i]?.shopSd ?? 0) * (published[j]?.shopSd ?? 0) + (i === j ? (published[i]?.kindSd ?? 0) ** 2 : 0),
  );
  const size = tested.length;
  return {
    species: tested.map(({ species }) => species),
    animals: tested.map(({ animals }) => animals),
    information: tested.map((_, i) =>
      tested.map((_unused, j) => (posterior.precision.values[i * size + j] ?? 0) - (prior.precision.values[i * size + j] ?? 0)),
    ),
    moments: posterior.moments.map((value, i) => value - (prior.moments[i] ?? 0)),
  };
} // prettier-ignore

/** A normal distribution by its precision and the precision times its mean. */
function natural(
  means: readonly number[],
  covariance: (i: number, j: number) => number,
): { precision: Square; moments: number[] } {
  const size = means.length;
  const matrix = zeros(size);
  means.forEach((_, i) => means.forEach((_unused, j) => (matrix.values[i * size + j] = covariance(i, j))));
  const { inverse: precision } = invert(matrix);
  return { precision, moments: times(precision, means) };
}

/**
 * The estimates that a new shop starts from: its hand, and the mean of each kind that another shop tested. Kinds without a
 * published figure here are left out with what was learned of them.
 * @param ids names of the estimates
 */
export function fatFromSiblings(
  published: readonly PublishedFat[],
  shops: readonly FatLesson[],
  ids: { shop: string; kind: (species: string) => string },
): CorrelatedFatEstimate[] {
  const codes = new Set(shops.flatMap(({ species }) => species));
  const kinds = published
    .filter(({ species }) => codes.has(species))
    .map(({ species, trimFat }) => ({ species, ...fatOfKind(trimFat) }));
  const size = kinds.length + 1;
  const loadings = kinds.map(({ shopSd, kindSd }, k) => {
    const row = new Array<number>(size).fill(0);
    row[0] = shopSd;
    row[k + 1] = kindSd;
    return row;
  });
  const guesses = guessesFrom(
    { means: new Array<number>(size).fill(0), variances: new Array<number>(size).fill(1) },
    shops.map((shop) => evidenceOf(shop, kinds, loadings, size)),
  );
  const { means, covariance } = averageGuess(guesses, mixtureWeights(guesses.map(({ logWeight }) => logWeight)));
  const hand = Array.from({ length: size }, (_, i) => (i === 0 ? 1 : 0));
  const rows = [
    { id: ids.shop, base: 0, row: hand },
    ...kinds.map(({ species, mean }, k) => ({ id: ids.kind(species), base: mean.mean, row: loadings[k] ?? hand })),
  ];
  const between = (one: readonly number[], other: readonly number[]): number =>
    times(covariance, other).reduce((sum, value, i) => sum + value * (one[i] ?? 0), 0);
  return rows.map(({ id, base, row }) => ({
    id,
    mean: base + means.reduce((sum, mean, i) => sum + mean * (row[i] ?? 0), 0),
    sd: Math.sqrt(between(row, row)),
    covariance: Object.fromEntries(rows.filter((other) => other.id !== id).map((other) => [other.id, between(row, other.row)])),
  }));
} // prettier-ignore

/** From the fat of kinds to effects: f = mean + L e, so the information is L'HL and the moments L'(r - H mean). */
function evidenceOf(
  { species, information, moments }: FatLesson,
  kinds: readonly { readonly species: string; readonly mean: FatEstimate }[],
  loadings: readonly (readonly number[])[],
  size: number,
): ShopEvidence {
  const places = species.map((code) => kinds.findIndex((kind) => kind.species === code));
  const kept = places.flatMap((place, i) => (place < 0 ? [] : [{ place, i }]));
  const made = zeros(size);
  const pulled = new Array<number>(size).fill(0);
  for (const { place, i } of kept) {
    const row = loadings[place] ?? [];
    let left = moments[i] ?? 0;
    for (const { place: otherPlace, i: j } of kept) {
      const h = information[i]?.[j] ?? 0;
      left -= h * (kinds[otherPlace]?.mean.mean ?? 0);
      const other = loadings[otherPlace] ?? [];
      for (let a = 0; a < size; a++)
        for (let b = 0; b < size; b++)
          made.values[a * size + b] = (made.values[a * size + b] ?? 0) + (row[a] ?? 0) * h * (other[b] ?? 0);
    }
    for (let a = 0; a < size; a++) pulled[a] = (pulled[a] ?? 0) + (row[a] ?? 0) * left;
  }
  return { information: made, moments: pulled };
}
