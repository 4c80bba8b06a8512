/** What compiled messages call besides the writer. */
import { SOURCE_LANGUAGE } from './languages.ts';

/** The plural form of a count in a language: `one`, `other` … */
export function cardinal(language: string): (count: number) => string {
  return formsOf(language, 'cardinal');
}

/** The form of a rank: English has `one` for 1st, `two` for 2nd, `few` for 3rd and `other`. */
export function ordinal(language: string): (rank: number) => string {
  return formsOf(language, 'ordinal');
}

/**
 * A code as an option of a select may spell it: options hold no hyphens or spaces.
 * @example optionOf('whole cuts') // 'whole_cuts'
 */
export function optionOf(code: unknown): string {
  return String(code).replaceAll(/[ -]/g, '_');
}

function formsOf(language: string, type: Intl.PluralRuleType): (count: number) => string {
  let rules: Intl.PluralRules | undefined;
  return (count) => (rules ??= new Intl.PluralRules(language, { type })).select(count);
}

/** The forms of the source language, one pair for all areas. */
export const sourceForm = cardinal(SOURCE_LANGUAGE);
export const sourceOrdinalForm = ordinal(SOURCE_LANGUAGE);
