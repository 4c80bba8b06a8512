import { GRAMS_PER } from '../../core/values/units.ts';
import type { Format } from '../texts/format.ts';

/**
 * A patty's weight, in ounces or grams.
 * @example pattyText(113.398, format) // '4 oz' in a shop that weighs in pounds
 */
export function pattyText(grams: number, format: Pick<Format, 'unit' | 'number'>): string {
  return format.unit === 'lb'
    ? `${format.number(grams / GRAMS_PER.oz, 1).replace(/\.0$/, '')} oz`
    : `${format.number(grams)} g`;
}
