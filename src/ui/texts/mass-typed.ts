import { GRAMS_PER, type MassUnit } from '../../core/units.ts';

/**
 * A weight as text that can be edited, to a hundredth of its unit.
 * @example massTyped(113.3980925, 'oz') // '4 oz'
 */
export function massTyped(grams: number, unit: MassUnit): string {
  return `${Number((grams / GRAMS_PER[unit]).toFixed(2))} ${unit}`;
}
