/** How many casings a batch fills. */
import { requireFinite, ValidationError } from '../values/validation-error.ts';

export interface Casing {
  readonly name: string;
  readonly diameterMm: number;
  /** Length of one piece that is filled, without what is tied off. */
  readonly filledMm?: number;
  /** What one piece holds, g, as the shop or the seller says; it goes before the geometry. */
  readonly holdsGrams?: number;
}

/** Grams in a cubic centimeter of raw sausage without air. Common practice, no source. */
export const SAUSAGE_DENSITY = 1.05;

/**
 * Grams that one piece holds: as stated, else a cylinder of its diameter. Links and slack filling hold less than the cylinder.
 * @throws ValidationError `casing.size` (a length, diameter or weight not above 0, or neither length nor weight)
 * @example casingGrams({ name: 'collagen', diameterMm: 45, filledMm: 406.4 }) // 679: 1.5 lb
 */
export function casingGrams({ diameterMm, filledMm, holdsGrams }: Casing): number {
  if (holdsGrams !== undefined) return positive(holdsGrams, 'holdsGrams');
  const area = (Math.PI / 4) * positive(diameterMm, 'diameterMm') ** 2;
  return (area * positive(filledMm ?? NaN, 'filledMm') * SAUSAGE_DENSITY) / 1000;
}

/** Whole pieces for so many grams, rounded up. @throws ValidationError those of `casingGrams`, `grams.negative` */
export function casingsFor(grams: number, casing: Casing): number {
  if (requireFinite(grams, 'grams') < 0) throw new ValidationError('grams.negative', 'grams', { grams });
  const pieces = grams / casingGrams(casing);
  return Math.ceil(pieces - Number.EPSILON * 4 * pieces);
}

function positive(value: number, field: string): number {
  if (!(value > 0 && Number.isFinite(value))) throw new ValidationError('casing.size', field);
  return value;
}
