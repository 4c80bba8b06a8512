/**
 * A typed weight with the unit that a bare number implies.
 * @example typedWithUnit('18.6', 'lb') // '18.6 lb'
 * @example typedWithUnit('18 lb 6 oz', 'oz') // '18 lb 6 oz'
 * @example typedWithUnit('61.2+58.4', 'lb') // '61.2 lb + 58.4 lb'
 */
export function typedWithUnit(typed: string, unit: string): string {
  if (/[a-z#]/i.test(typed)) return typed;
  return typed
    .replace(/^\s*\+/, '')
    .split('+')
    .map((load) => `${load.trim()} ${unit}`)
    .join(' + ');
}
