const rules = new Intl.PluralRules('en');

/**
 * A count with its noun in singular or plural.
 * @example plural(1, 'day', 'days') // '1 day'
 */
export function plural(n: number, one: string, other: string): string {
  return `${n} ${rules.select(n) === 'one' ? one : other}`;
}
