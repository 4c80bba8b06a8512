/**
 * What was typed, with the unit that a bare number was taken in.
 * @example typedWithUnit('18.6', 'lb') // '18.6 lb'
 * @example typedWithUnit('18 lb 6 oz', 'oz') // '18 lb 6 oz'
 */
export function typedWithUnit(typed: string, unit: string): string {
  return /[a-z#]/i.test(typed) ? typed : `${typed} ${unit}`;
}
