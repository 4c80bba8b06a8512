import { fromGrams } from '../../core/values/units.ts';

/**
 * The decimals for a mass, so that none is rounded to the scale's step: three where it is off the step, as ounces or
 * another unit make it; undefined, which means those of the scale, where it is on it.
 * @example placesOf(49_044.7, 'lb', 0.05) // 3, for 108 lb 2 oz
 */
export function placesOf(grams: number | null, unit: 'lb' | 'kg', step: number): number | undefined {
  if (grams === null) return undefined;
  const steps = fromGrams(grams, unit) / step;
  return Math.abs(steps - Math.round(steps)) > 0.01 ? 3 : undefined;
}
