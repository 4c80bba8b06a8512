/** A number with the shop's own unit reads like a bare one. */
const PLAIN = {
  lb: /^[\d.,]+\s*(lbs?|pounds?|#)\.?$/i,
  kg: /^[\d.,]+\s*(kgs?|kilos?|kilograms?)\.?$/i,
} as const;

/**
 * Whether a typed weight is one load in other units than the shop's decimal ones, so that it is shown as it was typed:
 * `108 lb 2 oz`, or `38.4kg` in a shop that works in pounds. Others are written as a mass.
 */
export function namesUnit(typed: string, unit: 'lb' | 'kg'): boolean {
  return /[a-z#]/i.test(typed) && !typed.includes('+') && !PLAIN[unit].test(typed.trim());
}
