/**
 * Whether a typed weight is one load that names its unit, so that it reads the same anywhere: `108 lb 2 oz`, `38.4kg`.
 * A bare number or a sum of loads is shown as a mass in the shop's unit instead.
 */
export function namesUnit(typed: string): boolean {
  return /[a-z#]/i.test(typed) && !typed.includes('+');
}
