/** Regions where scales show pounds. */
const POUND_REGIONS: ReadonlySet<string> = new Set(['US', 'LR', 'MM']);
/** Currencies of regions where game is commonly processed for hunters, listed first. From memory. */
const MONEY_OF: Readonly<Record<string, string>> = {
  US: 'USD', CA: 'CAD', GB: 'GBP', AU: 'AUD', NZ: 'NZD', ZA: 'ZAR', NA: 'NAD', NO: 'NOK', SE: 'SEK', DK: 'DKK', CH: 'CHF',
  PL: 'PLN', CZ: 'CZK', HU: 'HUF', IS: 'ISK', MX: 'MXN', AR: 'ARS',
  AT: 'EUR', BE: 'EUR', BG: 'EUR', DE: 'EUR', EE: 'EUR', ES: 'EUR', FI: 'EUR', FR: 'EUR', GR: 'EUR', HR: 'EUR', IE: 'EUR',
  IT: 'EUR', LT: 'EUR', LU: 'EUR', LV: 'EUR', NL: 'EUR', PT: 'EUR', SI: 'EUR', SK: 'EUR',
}; // prettier-ignore

/**
 * The language in a form that `Intl` accepts: a POSIX locale's modifier is dropped, and an invalid language becomes
 * US English. Chromium passes `en-US@posix` where the computer's locale is C, and an exception would leave the
 * window blank.
 * @example knownLanguage('en-US@posix') // 'en-US'
 */
export function knownLanguage(language: string): string {
  const [tag = ''] = language.replaceAll('_', '-').split(/[@.]/);
  try {
    return new Intl.Locale(tag).toString();
  } catch (problem) {
    if (problem instanceof RangeError) return 'en-US';
    throw problem;
  }
}

/**
 * Defaults from this computer's language, which the person can change.
 * @example likelyFor('en-CA') // { unit: 'kg', currency: 'CAD' }
 */
export function likelyFor(language: string): { unit: 'lb' | 'kg'; currency: string } {
  const region = new Intl.Locale(knownLanguage(language)).maximize().region ?? 'US';
  return { unit: POUND_REGIONS.has(region) ? 'lb' : 'kg', currency: MONEY_OF[region] ?? 'USD' };
}

/** Every currency with its name, by its code. */
export function currencies(language: string): { code: string; label: string }[] {
  const names = new Intl.DisplayNames(knownLanguage(language), { type: 'currency' });
  return Intl.supportedValuesOf('currency').map((code) => ({ code, label: `${code} · ${names.of(code)}` }));
}
