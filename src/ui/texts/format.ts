import { decimalsOf, formatAmount, fromGrams, roundToStep } from '../../core/units.ts';

/** What the shop set: everything that changes how an amount is written. */
export interface FormatSettings {
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit. */
  step: number;
  locale: string;
  currency: string;
}

/** Writes amounts the shop's way. Pure: the same settings give the same text. */
export type Format = ReturnType<typeof makeFormat>;

/**
 * Makes the shop's writer of amounts.
 * @example makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' }).mass(8445.89) // '18.62 lb'
 */
export function makeFormat({ unit, step, locale, currency }: FormatSettings) {
  const money = new Intl.NumberFormat(locale, { style: 'currency', currency });
  const minorDigits = money.resolvedOptions().maximumFractionDigits ?? 2;
  const day = new Intl.DateTimeFormat(locale, {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    timeZone: 'UTC',
  });
  const monthDay = new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: 'UTC' });
  const longDay = new Intl.DateTimeFormat(locale, {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: 'UTC',
  });

  /** Grams as a bare number in the shop's unit, to `places` decimals (the scale's own if left out). */
  const massNumber = (grams: number, places = decimalsOf(step)): string =>
    formatAmount(
      roundToStep(fromGrams(grams, unit), places === decimalsOf(step) ? step : 10 ** -places),
      places,
      locale,
    );
  const mass = (grams: number, places?: number): string => `${massNumber(grams, places)} ${unit}`;
  /** A fraction as a percentage: 0.294 → `29.4 %`. */
  const share = (fraction: number, places = 1): string => `${formatAmount(fraction * 100, places, locale)} %`;
  const moneyText = (minor: number): string => money.format(minor / 10 ** minorDigits);

  return {
    unit,
    massNumber,
    mass,
    /** Whether the scale would show anything: what is left of a used-up lot may be a hundredth of a gram. */
    weighs: (grams: number): boolean => roundToStep(fromGrams(grams, unit), step) > 0,
    /** `38.2–44.0 lb`; one number if both ends read the same. */
    massRange: (low: number, high: number, places?: number): string =>
      joined(massNumber(low, places), massNumber(high, places), ` ${unit}`),
    share,
    /** `25–38 %`, whole per cents unless told. */
    shareRange: (low: number, high: number, places = 0): string =>
      joined(formatAmount(low * 100, places, locale), formatAmount(high * 100, places, locale), ' %'),
    money: moneyText,
    moneyRange: (low: number, high: number): string => joined(moneyText(low), moneyText(high), ''),
    number: (value: number, places = 0): string => formatAmount(value, places, locale),
    /** A date of the trade, `2026-11-24` → `Tue, Nov 24`. */
    day: (date: string): string => day.format(new Date(`${date}T00:00:00Z`)),
    /** Short, for an axis: `Nov 24`. */
    monthDay: (date: string): string => monthDay.format(new Date(`${date}T00:00:00Z`)),
    /** With its year: `Nov 24, 2026`. */
    longDay: (date: string): string => longDay.format(new Date(`${date}T00:00:00Z`)),
    /** A moment in the shop's zone: `Nov 24, 2:15 PM`. */
    moment: (iso: string, zone: string): string =>
      new Intl.DateTimeFormat(locale, {
        month: 'short',
        day: 'numeric',
        hour: 'numeric',
        minute: '2-digit',
        timeZone: zone,
      }).format(new Date(iso)),
  };
}

function joined(low: string, high: string, unit: string): string {
  return low === high ? `${low}${unit}` : `${low}–${high}${unit}`;
}
