/**
 * Definitions shared by the fits of open and of finished animals: the parts other than damage, and the animal
 * mixture.
 */
import { inverse, type Matrix } from 'ml-matrix';
import { SHARE_PARTS, type SharePart } from './part-shares.ts';

/**
 * All parts other than damage, in the order of every vector and bit mask here. Damage has a skewed distribution of
 * its own.
 */
export const SOUND_PARTS: readonly SharePart[] = SHARE_PARTS.filter((part) => part !== 'damage');
export const SOUND_COUNT = SOUND_PARTS.length;
export const DAMAGE_INDEX = SHARE_PARTS.indexOf('damage');

/**
 * A scale mixture: one animal in twenty divides with a standard deviation two and a half times as wide, one in a
 * hundred with one five times as wide. Without them an unusual animal would count as a slip. Our own choice.
 */
export const ANIMAL_MIXTURE = [
  { probability: 0.94, scale: 1 },
  { probability: 0.05, scale: 2.5 },
  { probability: 0.01, scale: 5 },
] as const;

/** Indices of the bits set in `mask`. @example indicesOf(0b1010) // [1, 3] */
export function indicesOf(mask: number): number[] {
  return SOUND_PARTS.flatMap((_, i) => (mask & (1 << i) ? [i] : []));
}

/**
 * The inverse of the rows and columns in `mask`, row by row at their places in the whole matrix, 0 elsewhere.
 * @param extraVariance added to the diagonal, by index
 */
export function maskedInverse(
  covariance: Matrix,
  mask: number,
  extraVariance: (index: number) => number = () => 0,
): Float64Array {
  const whole = new Float64Array(SOUND_COUNT * SOUND_COUNT);
  if (mask === 0) return whole;
  const indices = indicesOf(mask);
  const chosen = covariance.selection(indices, indices);
  indices.forEach((i, k) => chosen.set(k, k, chosen.get(k, k) + extraVariance(i)));
  const inverted = inverse(chosen);
  for (const [k, i] of indices.entries())
    for (const [l, j] of indices.entries()) whole[i * SOUND_COUNT + j] = inverted.get(k, l);
  return whole;
}

/**
 * Logarithm of the density of an animal of the mixture, a multivariate Student's t of `count` dimensions, relative to its
 * maximum. Source of the density: Gelman et al., Bayesian Data Analysis, 3rd ed., appendix A, from memory.
 * @param squared Mahalanobis distance by the covariance, squared; the scale matrix is the covariance × (degrees - 2) / degrees
 */
export function animalLog(squared: number, count: number, degrees: number): number {
  const exponent = -(degrees + count) / 2;
  let sum = 0;
  for (let i = 0; i < ANIMAL_MIXTURE.length; i++)
    sum +=
      (HEIGHTS[count * ANIMAL_MIXTURE.length + i] ?? 0) *
      (1 + squared / ((VARIANCES[i] ?? 0) * (degrees - 2))) ** exponent;
  return Math.log(sum);
}
/** Of the mixture's members, for each number of dimensions: computed once, because a fit asks tens of thousands of times. */
const HEIGHTS = Float64Array.from({ length: (SOUND_COUNT + 1) * ANIMAL_MIXTURE.length }, (_, at) => {
  const { probability, scale } = ANIMAL_MIXTURE[at % ANIMAL_MIXTURE.length] ?? { probability: 0, scale: 1 };
  return probability / scale ** Math.floor(at / ANIMAL_MIXTURE.length);
});
const VARIANCES = Float64Array.from(ANIMAL_MIXTURE, ({ scale }) => scale ** 2);
