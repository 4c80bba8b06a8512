import { decimalsOf, formatAmount, fromGrams, roundToStep } from '../../core/values/units.ts';
import { dayWriter, orderOf, type DayOrder } from './days.ts';

/** What the shop set: everything that changes how an amount is written. */
interface FormatSettings {
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit. */
  step: number;
  locale: string;
  currency: string;
  /** `locale`, as left out: as the language and country have it. */
  dayOrder?: DayOrder | 'locale';
  clock?: '12' | '24' | 'locale';
}

/** Writes amounts the shop's way. Pure: the same settings give the same text. */
export type Format = ReturnType<typeof makeFormat>;

/**
 * Makes the shop's writer of amounts.
 * @example makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' }).mass(8445.89) // '18.62 lb'
 */
export function makeFormat({
  unit,
  step,
  locale,
  currency,
  dayOrder = 'locale',
  clock = 'locale',
}: FormatSettings) {
  const writers = new Map<string, (minor: number) => string>();
  const writerOf = (of: string): ((minor: number) => string) => {
    let writer = writers.get(of);
    if (!writer) {
      const number = new Intl.NumberFormat(locale, { style: 'currency', currency: of });
      const unitOfMinor = 10 ** (number.resolvedOptions().maximumFractionDigits ?? 2);
      writers.set(of, (writer = (minor) => number.format(minor / unitOfMinor)));
    }
    return writer;
  };
  const order = dayOrder === 'locale' ? null : dayOrder;

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
  /** Minor units in the shop's currency, or in the one that an older bill was written in. */
  const money = (minor: number, of: string = currency): string => writerOf(of)(minor);

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
    money,
    moneyRange: (low: number, high: number): string => joined(money(low), money(high), ''),
    number: (value: number, places = 0): string => formatAmount(value, places, locale),
    ...dayWriter(locale, order, clock === 'locale' ? null : clock),
    /** In which order dates are typed. */
    dayOrder: order ?? orderOf(locale),
  };
}

/** The same writer with another currency: a bill keeps its own when the shop goes on in another. */
export function inCurrency(format: Format, currency: string): Format {
  const money = (minor: number, of = currency): string => format.money(minor, of);
  return { ...format, money, moneyRange: (low, high) => joined(money(low), money(high), '') };
}

function joined(low: string, high: string, unit: string): string {
  return low === high ? `${low}${unit}` : `${low}–${high}${unit}`;
}
