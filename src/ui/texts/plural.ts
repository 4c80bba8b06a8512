const numbers = new Intl.NumberFormat('en-US');
const rules = new Intl.PluralRules('en');

/**
 * A count with its noun in singular or plural, its thousands apart.
 * @example plural(1204, 'day', 'days') // '1,204 days'
 */
export function plural(n: number, one: string, other: string): string {
  return `${numbers.format(n)} ${rules.select(n) === 'one' ? one : other}`;
}
