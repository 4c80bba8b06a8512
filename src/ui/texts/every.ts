const ENDINGS: Readonly<Record<string, string>> = { one: 'st', two: 'nd', few: 'rd', other: 'th' };

/**
 * How often the shop weighs every part, as shown at intake.
 * @example everyInDetail(10) // 'every 10th in detail'; everyInDetail(22) is 'every 22nd in detail'
 */
export function everyInDetail(every: number): string {
  if (every === 1) return 'all in detail';
  const ending = ENDINGS[new Intl.PluralRules('en', { type: 'ordinal' }).select(every)] ?? 'th';
  return `every ${every}${ending} in detail`;
}
