import { ValidationError } from './validation-error.ts';
import { isFraction, typedNumber } from './reading-number.ts';
import { GRAMS_PER, OUNCES_PER_POUND, type MassUnit } from './units.ts';

/**
 * A weight exactly as typed: an integer count of decimal steps in one unit, and the text itself. `84 lb 10 oz` is
 * stored as 1354 oz, `84 lb 1/2` as 84.5 lb; grams are always derived, so that nothing drifts.
 */
export interface Reading extends Load {
  readonly typed: string;
  /** Of a weight that was typed as a sum. */
  readonly loads?: readonly Load[];
}

/** One load on the scale: digits / 10^decimals of a unit. */
export interface Load {
  readonly digits: number;
  readonly decimals: number;
  readonly unit: MassUnit;
}

const UNIT_WORDS: Readonly<Record<string, MassUnit>> = {
  lb: 'lb', lbs: 'lb', pound: 'lb', pounds: 'lb', '#': 'lb',
  oz: 'oz', ounce: 'oz', ounces: 'oz',
  kg: 'kg', kgs: 'kg', kilo: 'kg', kilos: 'kg', kilogram: 'kg', kilograms: 'kg',
  g: 'g', gr: 'g', gram: 'g', grams: 'g',
}; // prettier-ignore

/** Heavier than anything that hangs on a rail (10 t), in grams. */
export const MAX_READING_GRAMS = 1e7;
/** With two numbers neither meaning of one can be typed alone, so none is offered. */
const BESIDE_OUNCES = null;

/** Pounds, then the remainder of a pound: `84 lb 10 oz`, `84# 1/2`, `12 lb. 8 oz.`, `12 lb and 8 oz`. */
const COMPOUND =
  /^(.+?)\s*(?:lbs?|pounds?|#)(?:\.(?=\s))?[\s,]*(?:(?:and\s|&)\s*)?(\d[\d.,/\s]*?)\s*(oz|ounces?)?\.?$/;
/** Superscript, circled and similar digits: `12²` is not 122. Single-character fractions (½) are not among them. */
const DRESSED_DIGIT = /(?![¼-¾⅐-⅞])[\p{No}\p{Nl}]|(?![0-9０-９])\p{Nd}/u;

/**
 * Parses a typed weight: `84.6`, `84,6`, `38.4kg`, `84 lb 10 oz`, `84 lb 1/2`, `18 1/2`, `1,234.5 lb`. A bare
 * number takes `defaultUnit`. After pounds, an integer is ounces and a lone fraction is a part of a pound. `1,234`
 * and `1 234` alone are refused: they may mean 1234 or 1.234.
 * @throws ValidationError `reading.empty`, `reading.unreadable`, `reading.ambiguous`, `reading.odd-digit`, `reading.fraction`,
 *   `reading.negative`, `reading.zero`, `reading.too-fine`, `reading.too-heavy`, `reading.ounces`
 */
export function parseReading(text: string, defaultUnit: MassUnit): Reading {
  const typed = text.trim();
  if (typed === '') throw new ValidationError('reading.empty', 'typed');
  const dressed = DRESSED_DIGIT.exec(typed);
  if (dressed) throw new ValidationError('reading.odd-digit', 'typed', { typed, digit: dressed[0] });
  const plain = typed
    .replace(/(\d)([¼-¾⅐-⅞])/g, '$1 $2')
    .normalize('NFKC')
    .replace(/[−–]/g, '-')
    .replace(/⁄/g, '/')
    .replace(/^\+\s*/, '')
    .toLowerCase();
  if (plain.startsWith('-')) throw new ValidationError('reading.negative', 'typed', { typed });

  const compound = COMPOUND.exec(plain);
  const reading = compound
    ? poundsAndRest(typed, compound[1] ?? '', compound[2] ?? '', compound[3] !== undefined)
    : oneUnit(typed, plain, defaultUnit);
  if (reading.digits === 0) throw new ValidationError('reading.zero', 'typed', { typed });
  if (readingGrams(reading) > MAX_READING_GRAMS)
    throw new ValidationError('reading.too-heavy', 'typed', { typed });
  return reading;
}

export function readingGrams(reading: Pick<Reading, 'digits' | 'decimals' | 'unit'>): number {
  return (reading.digits * GRAMS_PER[reading.unit]) / 10 ** reading.decimals;
}

/** The step of the reading as typed, in grams: `18.6 lb` has a step of a tenth of a pound. */
export function readingStepGrams(reading: Pick<Reading, 'decimals' | 'unit'>): number {
  return GRAMS_PER[reading.unit] / 10 ** reading.decimals;
}

function oneUnit(typed: string, plain: string, defaultUnit: MassUnit): Reading {
  const match = /^([\d.,/\s]+?)\s*([a-z#]*)\.?$/.exec(plain);
  if (!match) throw new ValidationError('reading.unreadable', 'typed', { typed });
  const unit = match[2] === '' ? defaultUnit : UNIT_WORDS[match[2] ?? ''];
  if (!unit) throw new ValidationError('reading.unreadable', 'typed', { typed });
  return { ...typedNumber(match[1] ?? '', typed, match[2]), unit, typed };
}

function poundsAndRest(typed: string, pounds: string, rest: string, saysOunces: boolean): Reading {
  const lb = typedNumber(pounds, typed, BESIDE_OUNCES);
  const { digits, decimals } = typedNumber(rest, typed, BESIDE_OUNCES);
  if (lb.decimals > 0) throw new ValidationError('reading.unreadable', 'typed', { typed });
  if (!saysOunces && isFraction(rest))
    return { digits: lb.digits * 10 ** decimals + digits, decimals, unit: 'lb', typed };
  const perPound = OUNCES_PER_POUND * 10 ** decimals;
  if (digits >= perPound) throw new ValidationError('reading.ounces', 'typed', { typed });
  return { digits: lb.digits * perPound + digits, decimals, unit: 'oz', typed };
}
