import { ValidationError } from '../values/validation-error.ts';
import { MAX_DECIMALS } from '../values/reading-number.ts';
import { MAX_READING_GRAMS, readingGrams, type Reading } from '../values/reading.ts';
import { OUNCES_PER_POUND, type MassUnit } from '../values/units.ts';

/** A reading as the scale showed it; for a negative one only `typed` has the minus. */
export interface SignedReading extends Reading {
  readonly sign: 1 | -1;
}

/** A longer number means that the line was misread. */
const MAX_DIGITS = 9;

/** Digits that fill a field of fixed width, in which scales often omit the point. */
export const FILLED_FIELD = /^(0\d+|\d{5,})$/;

/**
 * Digits of a scale. They never contain a thousands separator (common practice, no source), so a comma is the
 * decimal mark.
 */
interface Digits {
  digits: number;
  decimals: number;
  plain: string;
}

/** @throws ValidationError `reading.too-fine`, `reading.too-heavy` */
function digitsOf(text: string): Digits {
  const [whole = '', fraction = ''] = text.replace(',', '.').split('.');
  const plainWhole = whole.replace(/^0+(?=\d)/, '') || '0';
  if (fraction.length > MAX_DECIMALS) throw new ValidationError('reading.too-fine', 'line', { typed: text });
  if (plainWhole.length > MAX_DIGITS) throw new ValidationError('reading.too-heavy', 'line', { typed: text });
  return {
    digits: Number(plainWhole + fraction),
    decimals: fraction.length,
    plain: fraction ? `${plainWhole}.${fraction}` : plainWhole,
  };
}

/**
 * The digits of a line as a reading. Leading zeros go; trailing decimals stay, because they show the scale's step.
 * @throws ValidationError `reading.too-fine`, `reading.too-heavy`
 * @example signedReading('0018.60', 'lb', 1) // { digits: 1860, decimals: 2, unit: 'lb', typed: '18.60 lb', sign: 1 }
 */
export function signedReading(text: string, unit: MassUnit, sign: 1 | -1): SignedReading {
  const { digits, decimals, plain } = digitsOf(text);
  return finished({ digits, decimals, unit }, `${plain} ${unit}`, sign);
}

/** Pounds and ounces as ounces, like typed weights. @throws ValidationError `reading.ounces` and as above */
export function poundsOunces(pounds: string, ounces: string, sign: 1 | -1): SignedReading {
  const lb = digitsOf(pounds);
  const oz = digitsOf(ounces);
  const typed = `${lb.plain} lb ${oz.plain} oz`;
  const perPound = OUNCES_PER_POUND * 10 ** oz.decimals;
  if (oz.digits >= perPound) throw new ValidationError('reading.ounces', 'line', { typed });
  return finished(
    { digits: lb.digits * perPound + oz.digits, decimals: oz.decimals, unit: 'oz' },
    typed,
    sign,
  );
}

function finished(read: Omit<Reading, 'typed'>, shown: string, sign: 1 | -1): SignedReading {
  if (readingGrams(read) > MAX_READING_GRAMS)
    throw new ValidationError('reading.too-heavy', 'line', { typed: shown });
  const below = sign < 0 && read.digits > 0;
  return { ...read, typed: below ? `-${shown}` : shown, sign: below ? -1 : 1 };
}
