/** The terms at drop-off in other languages, as a field for each. Pure. */
import type { ShopSettings } from '../../bridge/contract.ts';
import { HUNTER_LANGUAGES, shopLanguage, type HunterLanguage } from '../../words/hunter-language.ts';

type TermsFields = Record<`in ${HunterLanguage}`, string>;

/**
 * Languages in which the shop may write its terms besides its own: of those that two countries speak, the shop's country's.
 * @example otherLanguages('en-US') // ['es-MX', 'fr-CA']; otherLanguages('fr-CA') // ['en-CA', 'es-MX']
 */
export function otherLanguages(locale: string): HunterLanguage[] {
  const { region } = new Intl.Locale(locale);
  const others = HUNTER_LANGUAGES.filter((code) => code.slice(0, 2) !== shopLanguage(locale).slice(0, 2));
  return others.filter((code) => !code.startsWith('en') || code === (region === 'CA' ? 'en-CA' : 'en-US'));
}

export const termsFields = ({ dropOffTermsIn }: Pick<ShopSettings, 'dropOffTermsIn'>): TermsFields =>
  Object.fromEntries(
    HUNTER_LANGUAGES.map((code) => [`in ${code}`, dropOffTermsIn[code] ?? '']),
  ) as TermsFields;

/** Empty fields are left out. */
export const termsOfFields = (form: TermsFields): ShopSettings['dropOffTermsIn'] =>
  Object.fromEntries(
    HUNTER_LANGUAGES.flatMap((code) =>
      form[`in ${code}`].trim() ? [[code, form[`in ${code}`].trim()]] : [],
    ),
  );
