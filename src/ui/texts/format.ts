import { decimalsOf, formatAmount, fromGrams, roundToStep } from '../../core/values/units.ts';
import type { Language } from '../../words/languages.ts';
import { dayLocale, dayWriter, orderOf, type DayOrder } from './days.ts';

/** The shop's settings that affect formatting. */
interface FormatSettings {
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit. */
  step: number;
  locale: string;
  currency: string;
  /** Default `locale`: the locale's own order and clock. */
  dayOrder?: DayOrder | 'locale';
  clock?: '12' | '24' | 'locale';
  /** Of the window: dates name months and days in it. Default: that of the locale. */
  language?: Language;
}

/** Formats amounts by the shop's settings. Pure: the same settings give the same text. */
export type Format = ReturnType<typeof makeFormat>;

/**
 * Creates the shop's formatter.
 * @example makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' }).mass(8445.89) // '18.62 lb'
 */
export function makeFormat({
  unit,
  step,
  locale,
  currency,
  dayOrder = 'locale',
  clock = 'locale',
  language,
}: FormatSettings) {
  const writers = new Map<string, (minor: number) => string>();
  /** `whole`: without minor units, for an estimate. */
  const writerOf = (of: string, whole = false): ((minor: number) => string) => {
    const key = `${of} ${whole}`;
    let writer = writers.get(key);
    if (!writer) {
      const number = new Intl.NumberFormat(locale, { style: 'currency', currency: of });
      const unitOfMinor = 10 ** (number.resolvedOptions().maximumFractionDigits ?? 2);
      const shown = whole
        ? new Intl.NumberFormat(locale, { style: 'currency', currency: of, maximumFractionDigits: 0 })
        : number;
      writers.set(key, (writer = (minor) => shown.format(minor / unitOfMinor)));
    }
    return writer;
  };
  const order = dayOrder === 'locale' ? null : dayOrder;

  /** Grams as a bare number in the shop's unit, to `places` decimals (default: the scale's). */
  const massNumber = (grams: number, places = decimalsOf(step)): string =>
    formatAmount(roundToStep(fromGrams(grams, unit), 10 ** -places), places, locale);
  const mass = (grams: number, places?: number): string => `${massNumber(grams, places)} ${unit}`;
  const sign = percentSign(locale);
  /** A fraction as a percentage: 0.294 → `29.4%`. */
  const share = (fraction: number, places = 1): string =>
    `${formatAmount(fraction * 100, places, locale)}${sign}`;
  /** Minor units in the shop's currency, or in that of an older bill. */
  const money = (minor: number, of: string = currency): string => writerOf(of)(minor);
  const aboutMoney = (minor: number, of: string = currency): string => writerOf(of, true)(minor);

  return {
    unit,
    /** The mark before decimals. */
    decimal: formatAmount(0.5, 1, locale).charAt(1),
    massNumber,
    mass,
    /** Whether the scale would show a nonzero weight; a used-up lot may have a hundredth of a gram left. */
    weighs: (grams: number): boolean => roundToStep(fromGrams(grams, unit), step) > 0,
    /** `38.2–44.0 lb`; one number if both ends are displayed alike. */
    massRange: (low: number, high: number, places?: number): string =>
      joined(massNumber(low, places), massNumber(high, places), ` ${unit}`),
    share,
    /** `25–38%`, in whole percent by default. */
    shareRange: (low: number, high: number, places = 0): string =>
      joined(formatAmount(low * 100, places, locale), formatAmount(high * 100, places, locale), sign),
    money,
    moneyRange: (low: number, high: number): string => joined(money(low), money(high), ''),
    /** An estimate in whole units: `$445`. */
    aboutMoney,
    aboutMoneyRange: (low: number, high: number): string => joined(aboutMoney(low), aboutMoney(high), ''),
    number: (value: number, places = 0): string => formatAmount(value, places, locale),
    ...dayWriter(language ? dayLocale(locale, language) : locale, order, clock === 'locale' ? null : clock),
    /** The order in which dates are typed. */
    dayOrder: order ?? orderOf(locale),
  };
}

/** The same formatter with another currency: an old bill keeps its own. */
export function inCurrency(format: Format, currency: string): Format {
  const money = (minor: number, of = currency): string => format.money(minor, of);
  const aboutMoney = (minor: number, of = currency): string => format.aboutMoney(minor, of);
  return {
    ...format,
    money,
    moneyRange: (low, high) => joined(money(low), money(high), ''),
    aboutMoney,
    aboutMoneyRange: (low, high) => joined(aboutMoney(low), aboutMoney(high), ''),
  };
}

/** What follows the number of a percentage: `%` in English, and after a space that does not break in German. */
function percentSign(locale: string): string {
  const parts = new Intl.NumberFormat(locale, { style: 'percent' }).formatToParts(0);
  const after = parts.slice(parts.findIndex(({ type }) => type === 'integer') + 1);
  return after.map(({ value }) => value).join('') || '%';
}

function joined(low: string, high: string, unit: string): string {
  return low === high ? `${low}${unit}` : `${low}–${high}${unit}`;
}
